#include <doctest/doctest.h>

#include <random>

#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/journal/journal.h"
#include "tests/app/library/scratch.h"

using namespace stirbench;
using hands::Action;
using hands::Hand;
using hands::Parameter;
using hands::Type;
using library_test::joined;
using library_test::shipped;

namespace {

const machine::Machine& shipped_machine() {
  static const machine::Machine made = shipped().machine("hm-45");
  return made;
}

double fraction(std::mt19937_64& random) { return static_cast<double>(random() >> 11) * 0x1.0p-53; }

// A legal value, and for a number the ends of its range too.
Action::Value legal(const Parameter& parameter, std::mt19937_64& random) {
  switch (parameter.type) {
    case Type::number: {
      const double at = random() % 4 == 0 ? static_cast<double>(random() % 2) : fraction(random);
      return parameter.low + (parameter.high - parameter.low) * at;
    }
    case Type::flag: return random() % 2 == 0;
    case Type::text: break;
  }
  const std::vector<std::string> names = names_of(shipped_machine(), parameter);
  return names.empty() ? std::string("a \"word\" \\ with \t signs") : names[random() % names.size()];
}

Action random_action(const Hand& hand, std::mt19937_64& random) {
  Action action(hand);
  for (const Parameter* parameter : hand.takes()) {
    if (parameter->required || random() % 2 == 0) action.set(*parameter, legal(*parameter, random));
  }
  return action;
}

std::string problems(const std::string& line) {
  return joined(library::parse_actions(line, "a.jsonl", shipped_machine()).problems);
}

// The action as a journal keeps it and gives it back.
Action through_journal(const Action& action) {
  std::string text;
  journal::SessionHeader header;
  header.machine = "hm-45";
  header.mode = "free";
  {
    journal::Session session(shipped_machine(), header, [&text](std::string_view record) { text += record; });
    session.act(action);
    session.end();
  }
  journal::Journal journal;
  const journal::JournalProblem fault = journal::read_journal(text, journal);
  REQUIRE_MESSAGE(fault.message.empty(), fault.message);
  REQUIRE(journal.acts.size() == 1);
  return journal.acts.front().action;
}

}  // namespace

TEST_CASE(
    "every hand's actions come through file and journal as they were, each parameter where it belongs") {
  std::mt19937_64 random(20261130);
  for (const Hand* hand : hands::all()) {
    CAPTURE(hand->name);
    for (int i = 0; i < 12; ++i) {
      const Action action = random_action(*hand, random);
      const std::string line = library::write_action({.at_s = 1.5, .action = action});
      CAPTURE(line);
      const auto read = library::parse_actions(line, "a.jsonl", shipped_machine());
      REQUIRE(joined(read.problems) == "");
      REQUIRE(read.actions.size() == 1);
      CHECK(read.actions.front().at_s == 1.5);
      CHECK(read.actions.front().action == action);
      if (i < 4) CHECK(through_journal(action) == action);
    }
  }
}

TEST_CASE("what is missing, unknown or out of range is refused by name, for every parameter of every hand") {
  std::mt19937_64 random(20261201);
  for (const Hand* hand : hands::all()) {
    CAPTURE(hand->name);
    Action whole(*hand);
    for (const Parameter* parameter : hand->takes()) whole.set(*parameter, legal(*parameter, random));
    const std::string line = library::write_action({.at_s = 1.0, .action = whole});
    CHECK(problems(line.substr(0, line.size() - 1) + ",\"no_such_key\":1}")
              .find(hands::unknown_parameter(*hand, "no_such_key")) != std::string::npos);
    for (const Parameter* parameter : hand->takes()) {
      const std::string name = "\"" + std::string(parameter->name) + "\"";
      CAPTURE(name);
      Action without(*hand);
      for (const Parameter* other : hand->takes()) {
        if (other != parameter) without.set(*other, whole.value(*other));
      }
      const std::string found = problems(library::write_action({.at_s = 1.0, .action = without}));
      CHECK((found.find("expected " + name + " to be given") != std::string::npos) == parameter->required);
      if (parameter->type == Type::number) {
        for (const double wrong : {parameter->low - 0.5, parameter->high + 0.5}) {
          Action outside = whole;
          outside.set(*parameter, wrong);
          CHECK(problems(library::write_action({.at_s = 1.0, .action = outside}))
                    .find("expected " + name + " to be a number in") != std::string::npos);
        }
      } else if (parameter->type == Type::text && parameter->catalogue != hands::Catalogue::anything) {
        Action unknown = whole;
        unknown.set(*parameter, std::string("nothing of the kind"));
        CHECK(problems(library::write_action({.at_s = 1.0, .action = unknown}))
                  .find("expected " + name + " to be a known name") != std::string::npos);
      }
    }
  }
}

TEST_CASE("an event's name and number are those of its own hand's parameters") {
  machine::State state = bench::initial_state(shipped_machine(), {});
  std::vector<machine::Event> events;
  bench::step(shipped_machine(), state, {{hands::freezer_lid(true), hands::freezer_water(2.0, 60.0)}},
              events);
  REQUIRE(events.size() >= 2);
  CHECK(was_done(events[1], hands::freezer_water));
  CHECK(events[1].number == 2.0);  // the kilograms, whatever their temperature
}
