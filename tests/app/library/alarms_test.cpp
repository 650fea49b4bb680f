#include <doctest/doctest.h>

#include "tests/app/library/scratch.h"

using namespace stirbench;
using stirbench::library_test::Scratch;
using stirbench::library_test::shipped;

TEST_CASE("every alarm has its cause, its consequence and what to do") {
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    const std::string key(control::alarm_key(static_cast<control::AlarmId>(i)));
    CAPTURE(key);
    REQUIRE(shipped().alarms.count(key) == 1);
    const library::AlarmText& text = shipped().alarms.at(key);
    for (const std::string& part : {text.cause, text.consequence, text.action}) {
      CHECK(part.size() >= 40);
      CHECK(part.back() == '.');
    }
  }
  CHECK(shipped().alarms.size() == control::alarm_count);
}

TEST_CASE("alarms whose latch must be cleared say so, and none tells people to bridge or hold anything") {
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    const auto id = static_cast<control::AlarmId>(i);
    if (!control::alarm_latches(id)) continue;
    CAPTURE(control::alarm_key(id));
    CHECK(shipped().alarms.at(std::string(control::alarm_key(id))).action.find("press and let go Stop") !=
          std::string::npos);
  }
}

TEST_CASE("a missing text, an unknown alarm and a shelf for a guard are located") {
  Scratch scratch("alarms");
  scratch.change("text/alarms.json", "\"lid_guard\"", "\"lid_gard\"");
  CHECK(scratch.problems() ==
        "text/alarms.json:/alarms/lid_gard: expected a known alarm (did you mean \"lid_guard\"?), found "
        "\"lid_gard\"\n"
        "text/alarms.json:/alarms/lid_guard: expected texts of every alarm, found none");
  Scratch shelf("shelf");
  shelf.change("machines/hm-45.json", "\"hold_broken\"", "\"lid_guard\"");
  CHECK(shelf.problems() ==
        "machines/hm-45.json:/control/alarms/lid_guard: expected an alarm that protects nobody, found "
        "\"lid_guard\"");
}
