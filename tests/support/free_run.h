#pragma once

#include "app/desk/work/run/live_run.h"
#include "app/library/library.h"
#include "app/library/reading/paths.h"

// A free run of the HM-45, before anything was done.
namespace stirbench::test_support {

inline desk::work::LiveRun::Setup free_run() {
  static const library::Library content = library::load(library::content_dir(), "").library;
  desk::work::LiveRun::Setup setup;
  setup.machine = content.machine("hm-45");
  setup.mode = desk::work::RunMode::free;
  setup.program = "test";
  return setup;
}

}  // namespace stirbench::test_support
