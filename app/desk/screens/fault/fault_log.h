#pragma once

#include <functional>
#include <string>

#include "app/desk/screens/own/log_form.h"
#include "app/desk/work/fault/fault_search.h"

namespace stirbench::desk::screens {

// The dialog that takes a log of the batch as a finding of a search.
class FaultLog {
 public:
  FaultLog(const work::Desk& desk, std::function<void()> wake)
      : form_(desk, "fault.log"), fit_(std::move(wake)) {}

  bool open = false;
  void take_file(const std::string& path) {
    form_.path = path;
    open = true;
  }
  void draw(kit::Ui& ui, const work::Desk& desk, work::FaultSearch& search);

 private:
  LogForm form_;
  work::OwnFit fit_;
};

}  // namespace stirbench::desk::screens
