#include "app/records/marks.h"

#include <doctest/doctest.h>

using namespace stirbench;

TEST_CASE("marks: out of a score card and back; cards of older programs have none") {
  const std::string card = R"({"criteria":[],"skills":[{"skill":"guards","passed":true,"musts_missed":0},)"
                           R"({"skill":"lock-out","passed":false,"musts_missed":2}],"hints":0})";
  const std::string marks = records::marks_of_card(card);
  CHECK(marks == "guards:1:0 lock-out:0:2");
  CHECK(records::read_marks(marks) ==
        std::vector<training::SkillMark>{{"guards", true, 0}, {"lock-out", false, 2}});
  CHECK_FALSE(records::was_hinted(marks));
  for (const char* old : {"", "[]", R"([{"id":"x","met":true}])", R"({"criteria":[]})", "{"})
    CHECK(records::marks_of_card(old).empty());

  const std::string helped =
      records::marks_of_card(R"({"skills":[{"skill":"guards","passed":true,"musts_missed":0}],"hints":3})");
  CHECK(records::was_hinted(helped));
  CHECK(records::read_marks(helped) == std::vector<training::SkillMark>{{"guards", true, 0}});

  const std::string goal_only = R"({"skills":[{"skill":"guards","passed":true,"musts_missed":0}],"hints":0,)"
                                R"("rungs":[{"rung":"goal","step":"open-lid","at_s":1.0}],"rewound":)";
  CHECK_FALSE(records::was_hinted(records::marks_of_card(goal_only + "false}")));
  CHECK(records::was_hinted(records::marks_of_card(goal_only + "true}")));
}

TEST_CASE("marks that do not read are left out") {
  for (const char* bad : {"guards", ":1:0", "guards:1:", "guards:1:x", "guards:10", "hinted"})
    CHECK(records::read_marks(bad).empty());
}
