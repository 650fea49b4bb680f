#include <doctest/doctest.h>

#include "sim_core/signals/signals.h"
#include "tests/app/library/scratch.h"

using namespace stirbench;
using library_test::put_small_lesson;
using library_test::Scratch;

namespace {

struct Case {
  const char* what;
  const char* from;
  const char* to;
  const char* message;  // after "lessons/small/lesson.json:"
};

}  // namespace

TEST_CASE("a lesson is read as written") {
  Scratch scratch("lesson");
  put_small_lesson(scratch);
  const auto loaded = library::load(scratch.dir(), "");
  REQUIRE(library_test::joined(loaded.problems) == "");
  const training::Lesson& lesson = loaded.library.lessons.at("small");
  CHECK(lesson.page == "# Small\nWhat and why.\n");
  CHECK(lesson.start.seed == 7);
  REQUIRE(lesson.start.loaded.size() == 1);
  CHECK(lesson.start.loaded[0].kg == 20.0);
  REQUIRE(lesson.steps.size() == 2);
  CHECK(lesson.steps[0].skippable);
  CHECK(lesson.steps[0].done.op == training::Op::is_flag);
  CHECK(lesson.steps[0].done.signal == signals::find_signal("lid_open"));
  CHECK(lesson.steps[1].done.op == training::Op::event);
  CHECK(lesson.steps[1].done.text == "pour");
  CHECK(lesson.steps[1].done.of == "whole_milk");
  CHECK(lesson.steps[1].done.event_at_least == 1.0);
  REQUIRE(lesson.criteria.size() == 2);
  CHECK(lesson.criteria[0].must_pass);
  CHECK(lesson.criteria[0].monitor.kind == training::MonitorKind::happens);
  CHECK(lesson.criteria[0].monitor.within_s == 600.0);
  REQUIRE(lesson.criteria[0].monitor.what.parts.size() == 2);
  CHECK(lesson.criteria[0].monitor.what.parts[1].op == training::Op::negate);
  CHECK(lesson.criteria[1].monitor.high == 2.0);
  CHECK(lesson.end.op == training::Op::any);
  CHECK(lesson.end.parts[1].event == machine::EventKind::harm);
  CHECK(lesson.hash.size() == 16);
  const std::string hash = lesson.hash;
  scratch.change("lessons/small/lesson.json", "\"points\": 2", "\"points\": 3");
  CHECK(library::load(scratch.dir(), "").library.lessons.at("small").hash != hash);
}

TEST_CASE("each kind of fault in lesson.json is located") {
  for (const Case& bad : {
           Case{"signal", "\"lid_open\"", "\"lid_opne\"",
                "/steps/0/done/signal: expected a known signal (did you mean \"lid_open\"?), found "
                "\"lid_opne\""},
           Case{"number compared with a flag", "{\"signal\": \"lid_open\", \"is\": true}",
                "{\"signal\": \"lid_open\", \"at_least\": 1}",
                "/steps/0/done/at_least: expected is, for a signal that is no number, found \"at_least\""},
           Case{"flag compared with a number", "{\"signal\": \"lid_open\", \"is\": true}",
                "{\"signal\": \"probe_degC\", \"is\": true}",
                "/steps/0/done/is: expected at_least, at_most, above or below for a number signal, found "
                "\"is\""},
           Case{"two comparisons", "{\"signal\": \"lid_open\", \"is\": true}",
                "{\"signal\": \"probe_degC\", \"above\": 1, \"below\": 2}",
                "/steps/0/done: expected signal and one comparison, found 3 keys"},
           Case{"phase that no recipe has", "\"is\": \"keep\"", "\"is\": \"kept\"",
                "/end/any/0/is: expected a phase that exists (did you mean \"keep\"?), found \"kept\""},
           Case{"event", "\"event\": \"harm\"", "\"event\": \"ham\"",
                "/end/any/1/event: expected a known event (did you mean \"harm\"?), found \"ham\""},
           Case{"harm", "\"boil_over\"", "\"boil_ovre\"",
                "/end/any/1/name: expected a known name for the event harm (did you mean \"boil_over\"?), "
                "found \"boil_ovre\""},
           Case{"subject of an action", "\"of\": \"whole_milk\"", "\"of\": \"hole_milk\"",
                "/steps/1/done/of: expected something that can be used with pour (did you mean "
                "\"whole_milk\"?), found \"hole_milk\""},
           Case{"empty condition", "{\"not\": {\"signal\": \"mode\", \"is\": \"running\"}}", "{}",
                "/criteria/0/monitor/what/all/1: expected one of the keys signal, event, row_met, cooling, "
                "grounds, "
                "all, any, not, found none"},
           Case{"unknown key in a condition", "\"of\": \"whole_milk\"", "\"off\": \"whole_milk\"",
                "/steps/1/done/off: expected a known key (did you mean \"of\"?), found \"off\""},
           Case{"monitor kind", "\"happens\"", "\"happen\"",
                "/criteria/0/monitor/kind: expected one of happens, never, always, held_for, ordered, after, "
                "total, final_state (did you mean "
                "\"happens\"?), found \"happen\""},
           Case{"monitor without what it needs", "\"total\"", "\"held_for\"",
                "/criteria/1/monitor/duration_s: expected given for this kind of monitor, found nothing\n"
                "lessons/small/lesson.json:/criteria/1/monitor/low: expected no such key for this kind of "
                "monitor, found \"low\"\n"
                "lessons/small/lesson.json:/criteria/1/monitor/high: expected no such key for this kind of "
                "monitor, found \"high\""},
           Case{"placeholder", "{time}", "{tiem}",
                "/criteria/0/met_text: expected a known placeholder in braces, found \"tiem\""},
           Case{
               "caution", "\"hot_product\"", "\"hot_prodct\"",
               "/cautions/0: expected a known caution (did you mean \"hot_product\"?), found \"hot_prodct\""},
           Case{"machine", "\"hm-45\"", "\"hm-46\"",
                "/machine: expected a known machine (did you mean \"hm-45\"?), found \"hm-46\""},
           Case{"recipe", "\"recipe\": \"\"", "\"recipe\": \"white-base-hihg\"",
                "/start/recipe: expected a known recipe (did you mean \"white-base-high\"?), found "
                "\"white-base-hihg\""},
           Case{"ingredient at hand", "[\"whole_milk\"]", "[\"milk\"]",
                "/at_hand/0: expected a known ingredient, found \"milk\""},
           Case{"too much in the vat", "\"kg\": 20", "\"kg\": 200",
                "/start/loaded: expected no more than the machine holds (52 L), found 200 kg"},
           Case{"step id twice", "\"id\": \"pour\"", "\"id\": \"open\"",
                "/steps/1/id: expected an id that is not used yet, found \"open\""},
           Case{"id is not the folder", "\"id\": \"small\"", "\"id\": \"smal\"",
                "/id: expected the folder's name (\"small\"), found \"smal\""},
           Case{"negative points", "\"points\": 2", "\"points\": -2",
                "/criteria/0/points: expected a number in 0 .. 1000, found -2"},
       }) {
    CAPTURE(std::string(bad.what));
    Scratch scratch("bad-lesson");
    put_small_lesson(scratch);
    scratch.change("lessons/small/lesson.json", bad.from, bad.to);
    CHECK(scratch.problems() == std::string("lessons/small/lesson.json:") + bad.message);
  }
}

TEST_CASE("the other files of a lesson must be there and good") {
  Scratch scratch("lesson-files");
  put_small_lesson(scratch);
  scratch.remove("lessons/small/page.md");
  scratch.remove("lessons/small/right.jsonl");
  scratch.remove("lessons/small/wrong-nothing.jsonl");
  CHECK(scratch.problems() ==
        "lessons/small/page.md: expected the lesson's page, found no such file\n"
        "lessons/small/right.jsonl: expected the actions that pass the lesson, found no such file\n"
        "lessons/small/: expected at least one wrong-*.jsonl, found none");
  put_small_lesson(scratch);
  scratch.write("lessons/small/wrong-nothing.jsonl", "{\"at_s\": 1, \"do\": \"opne_lid\"}\n");
  CHECK(scratch.problems() ==
        "lessons/small/wrong-nothing.jsonl:line 1: expected \"do\" to be a known action (did you mean "
        "\"open_lid\"?), found \"opne_lid\"");
  scratch.write("lessons/small/wrong-nothing.jsonl", "\n");
  CHECK(scratch.problems() ==
        "lessons/small/wrong-nothing.jsonl: expected the actions of a wrong run, found an empty file");
  scratch.remove("lessons/small/lesson.json");
  CHECK(scratch.problems().find(
            "lessons/small/lesson.json: expected the lesson's file, found no such file") == 0);
}

TEST_CASE("a lesson's page is plain: an asterisk, which would be shown as one, is refused with its line") {
  Scratch scratch("page-asterisk");
  put_small_lesson(scratch);
  CHECK(scratch.problems() == "");
  scratch.write("lessons/small/page.md", "# Small\nPress *Stop* first.\n");
  CHECK(scratch.problems().find("lessons/small/page.md:line 2: expected plain words (names of buttons stand "
                                "in quotes), found an asterisk") != std::string::npos);
}
