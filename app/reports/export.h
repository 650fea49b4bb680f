#pragma once

#include <string>
#include <vector>

#include "app/library/library.h"
#include "app/records/certifying.h"

// Exports as CSV (RFC 4180; no cell that a spreadsheet would take for a formula) and as xAPI statements.
namespace stirbench::reports {

// One line an attempt, oldest first.
std::string attempts_csv(records::Store& store, const library::Library& library);
// People against a demand's skills: state and date of each cell, certificate, what is missing.
std::string standings_csv(const std::vector<records::Standing>& rows, const library::Library& library,
                          const training::Demand& demand);
std::string certificates_csv(records::Store& store);

// "valid", "due", "not yet", "lapsed".
const char* cell_word(records::StandingState state);
std::string day_text(std::int64_t seconds);  // 2026-11-25; "" for 0

}  // namespace stirbench::reports
