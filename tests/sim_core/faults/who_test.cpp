#include <doctest/doctest.h>

#include <set>
#include <string>

#include "sim_core/faults/who.h"

using namespace stirbench::faults;

TEST_CASE(
    "who may do what: a technician's work is open to licensed people, licensed work to its own trade alone") {
  struct Row {
    Who who;
    bool anyone, technician, electrician, refrigeration;
  };
  for (const Row& row :
       {Row{Who::anyone, true, false, false, false}, Row{Who::technician, true, true, false, false},
        Row{Who::electrician, true, true, true, false}, Row{Who::refrigeration, true, true, false, true}}) {
    CAPTURE(who_word(row.who));
    CHECK(may_do(row.who, Who::anyone) == row.anyone);
    CHECK(may_do(row.who, Who::technician) == row.technician);
    CHECK(may_do(row.who, Who::electrician) == row.electrician);
    CHECK(may_do(row.who, Who::refrigeration) == row.refrigeration);
  }
  CHECK_FALSE(is_licensed(Who::technician));
  CHECK(is_licensed(Who::electrician));
  CHECK(is_licensed(Who::refrigeration));
}

TEST_CASE("every word is found again, each title is another; no other word is") {
  std::set<std::string_view> titles;
  for (std::size_t i = 0; i < who_count; ++i) {
    const auto who = static_cast<Who>(i);
    CHECK(who_named(who_word(who)) == who);
    titles.insert(who_title(who));
  }
  CHECK(titles.size() == who_count);
  CHECK_FALSE(who_named("wizard").has_value());
  CHECK_FALSE(who_named("").has_value());
  CHECK_FALSE(who_named("Electrician").has_value());
  std::set<std::string_view> words;
  for (std::size_t i = 0; i < access_state_count; ++i)
    words.insert(access_state_word(static_cast<AccessState>(i)));
  CHECK(words == std::set<std::string_view>{"running", "standing", "isolated", "open_isolated", "open_live"});
}
