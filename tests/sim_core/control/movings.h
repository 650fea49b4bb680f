#pragma once

#include <functional>
#include <vector>

#include "tests/sim_core/control/rig.h"

namespace stirbench::control_test {

// Every way in which the machine can be moving.
struct Moving {
  const char* name;
  Mode mode;
  Mode after_stop;
  std::function<void(Rig&)> start;
};

inline const std::vector<Moving>& movings() {
  static const std::vector<Moving> all = {
      {"heating", Mode::heating, Mode::standby, [](Rig& r) { r.press(Key::heat); }},
      {"chilling", Mode::chilling, Mode::standby, [](Rig& r) { r.press(Key::chill); }},
      {"stirring", Mode::stirring, Mode::standby, [](Rig& r) { r.press(Key::stir); }},
      {"rinsing", Mode::rinsing, Mode::standby, [](Rig& r) { r.press(Key::rinse); }},
      {"recipe", Mode::running, Mode::paused,
       [](Rig& r) {
         r.choose();
         r.press(Key::run);
       }},
      {"keep", Mode::running, Mode::paused, [](Rig& r) { r.run_to(6); }},
  };
  return all;
}

inline const std::vector<Key> start_keys = {Key::heat, Key::chill, Key::stir, Key::run, Key::rinse};

}  // namespace stirbench::control_test
