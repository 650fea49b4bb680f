#pragma once

#include <string>
#include <vector>

#include "sim_core/training/skill_evidence.h"

// What an attempt says of each skill, as the records keep it beside the score card, so that the table of
// everybody is judged without reading cards: "hot-product:1:0 protection:0:2" is skill, passed, must-pass
// items missed. The word "hinted" before them: the run was led. The card says so by `hints`, the rungs that
// lead (guidance/ladder.h; in cards of older programs every hint), or by `rewound`. Its `rungs` list each
// rung that was asked for, {rung, step, at_s}.
namespace stirbench::records {

// Of a score card's JSON; empty for a card without marks (attempts of older programs).
std::string marks_of_card(const std::string& card_json);
bool was_hinted(const std::string& marks);
// What does not read is left out.
std::vector<training::SkillMark> read_marks(const std::string& marks);

}  // namespace stirbench::records
