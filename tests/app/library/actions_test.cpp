#include <doctest/doctest.h>

#include "sim_core/hands/handles.h"
#include "tests/app/library/scratch.h"

using namespace stirbench;
using library_test::joined;
using library_test::shipped;

namespace {

std::string problems(const std::string& text) {
  return joined(library::parse_actions(text, "a.jsonl", shipped().machine("hm-45")).problems);
}

struct Case {
  const char* line;
  const char* message;
};

}  // namespace

TEST_CASE("actions are read as written") {
  const auto result = library::parse_actions(
      "{\"at_s\": 1, \"do\": \"open_lid\"}\r\n"
      "\n"
      "{\"at_s\": 1, \"do\": \"pour\", \"ingredient\": \"whole_milk\", \"kg\": 20, \"degC\": 6}\n"
      "{\"at_s\": 2.5, \"do\": \"press\", \"key\": \"run\", \"held_s\": 1}\n"
      "{\"at_phase\": \"add\", \"after_s\": 3, \"do\": \"choose_recipe\", \"recipe\": \"egg-custard\"}\n"
      "{\"at_phase\": \"keep\", \"do\": \"rinse\", \"on\": true}\n"
      "{\"at_s\": 9, \"do\": \"turn_draw_valve\", \"opening_norm\": 0.5}",
      "a.jsonl", shipped().machine("hm-45"));
  REQUIRE(joined(result.problems) == "");
  REQUIRE(result.actions.size() == 6);
  CHECK(result.actions[1].action == hands::pour("whole_milk", 20.0, 6.0));
  CHECK(result.actions[2].at_s == 2.5);
  CHECK(result.actions[2].action == hands::press("run", 1.0));
  CHECK(result.actions[3].at_phase == "add");
  CHECK(result.actions[3].after_s == 3.0);
  CHECK(result.actions[3].action == hands::choose_recipe("egg-custard"));
  CHECK(result.actions[4].action == hands::rinse(true));
  CHECK(result.actions[5].action == hands::turn_draw_valve(0.5));
}

TEST_CASE("each kind of bad line is located by its number") {
  for (const Case& bad : {
           Case{R"({"at_s": 2, "do": )",
                "a.jsonl:line 2, column 19: expected a value, found the end of the line"},
           Case{R"([1])", "a.jsonl:line 2: expected an object, found a list"},
           Case{R"({"at_s": 2})",
                "a.jsonl:line 2: expected \"do\" to be the name of an action, found nothing"},
           Case{R"({"at_s": 2, "do": "opne_lid"})",
                "a.jsonl:line 2: expected \"do\" to be a known action (did you mean \"open_lid\"?), found "
                "\"opne_lid\""},
           Case{R"({"do": "open_lid"})",
                "a.jsonl:line 2: expected either \"at_s\" or \"at_phase\", found neither"},
           Case{R"({"at_s": 2, "at_phase": "add", "do": "open_lid"})",
                "a.jsonl:line 2: expected either \"at_s\" or \"at_phase\", found both"},
           Case{R"({"at_s": 0.5, "do": "open_lid"})",
                "a.jsonl:line 2: expected \"at_s\" to be at least 1 s, the time of the line before, found "
                "0.5"},
           Case{R"({"at_s": -1, "do": "open_lid"})",
                "a.jsonl:line 2: expected \"at_s\" to be a number in 0 .. 2678400 s, found -1"},
           Case{R"({"at_s": "2", "do": "open_lid"})",
                "a.jsonl:line 2: expected \"at_s\" to be a number in 0 .. 2678400 s, found \"2\""},
           Case{R"({"at_s": 2, "after_s": 1, "do": "open_lid"})",
                "a.jsonl:line 2: expected \"after_s\" to be left out beside \"at_s\", found 1"},
           Case{R"({"at_phase": "ad", "do": "open_lid"})",
                "a.jsonl:line 2: expected \"at_phase\" to be a phase of a recipe (did you mean \"add\"?), "
                "found \"ad\""},
           Case{R"({"at_s": 2, "do": "pour", "ingredient": "whole_mlik", "kg": 1})",
                "a.jsonl:line 2: expected \"ingredient\" to be a known name (did you mean \"whole_milk\"?), "
                "found \"whole_mlik\""},
           Case{R"({"at_s": 2, "do": "pour", "ingredient": "whole_milk", "kg": -1})",
                "a.jsonl:line 2: expected \"kg\" to be a number in 0.001 .. 60 kg, found -1"},
           Case{R"({"at_s": 2, "do": "pour", "ingredient": "whole_milk"})",
                "a.jsonl:line 2: expected \"kg\" to be given: how much, found nothing"},
           Case{R"({"at_s": 2, "do": "press", "key": "start"})",
                "a.jsonl:line 2: expected \"key\" to be a known name (did you mean \"stir\"?), found "
                "\"start\""},
           Case{R"({"at_s": 2, "do": "choose_recipe", "recipe": "nothing"})",
                "a.jsonl:line 2: expected \"recipe\" to be a known name (one of chocolate-base, egg-custard, "
                "fruit-syrup, oat-coconut-base, "
                "white-base-high, white-base-low, white-base-small), found \"nothing\""},
           Case{R"({"at_s": 2, "do": "fit_hose", "to": "floor"})",
                "a.jsonl:line 2: expected \"to\" to be a known name (one of pail, freezer), found \"floor\""},
           Case{R"({"at_s": 2, "do": "rinse", "on": 1})",
                "a.jsonl:line 2: expected \"on\" to be true or false, found 1"},
           Case{R"({"at_s": 2, "do": "open_lid", "sped": 3})",
                "a.jsonl:line 2: expected only keys that open_lid takes, found one more: \"sped\" is not a "
                "parameter of \"open_lid\"; it takes nothing"},
           Case{R"({"at_s": 2, "do": "open_lid", "at_s": 3})",
                "a.jsonl:line 2/at_s: expected each key once, found \"at_s\" again"},
       }) {
    CAPTURE(std::string(bad.line));
    CHECK(problems(std::string("{\"at_s\": 1, \"do\": \"open_lid\"}\n") + bad.line + "\n") ==
          std::string(bad.message));
  }
}

TEST_CASE("all lines are reported, and none is carried out when one is bad") {
  const auto result = library::parse_actions("{\"at_s\": 1, \"do\": \"open_lid\"}\n{}\n[]\n", "a.jsonl",
                                             shipped().machine("hm-45"));
  CHECK(result.problems.size() == 3);
  CHECK(result.actions.empty());
}

TEST_CASE("a file that is not there is named") {
  const auto result = library::read_actions("/nonexistent/a.jsonl", shipped().machine("hm-45"));
  CHECK(joined(result.problems) ==
        "/nonexistent/a.jsonl: expected an actions file (JSON Lines), found cannot read "
        "/nonexistent/a.jsonl: No such file or directory");
}
