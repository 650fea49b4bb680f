#pragma once

#include <string>
#include <vector>

#include "app/library/reading/problem.h"
#include "sim_core/identification/batch_log.h"

// A logger's CSV file. Columns by their headings (log_cells.h): time and the product's temperature are
// needed; temperatures of wall, elements, condensing side and room, power of the machine or of the elements,
// fill and events are taken where they are.
namespace stirbench::fitting {

struct LogResult {
  identification::BatchLog log;            // times from the first row on
  std::vector<std::string> notices;        // what was put right or left out
  std::vector<library::Problem> problems;  // empty: good
};

// Put right and told: rows out of order, doubled stamps that agree, cells without a number (up to a fifth),
// midnight in times of day, gaps. Refused with their line: a unit that is missing, values that no machine
// has, a clock that was set back, stamps that contradict each other, fewer than 30 samples.
LogResult parse_log(std::string_view text, const std::string& file);
// The file's; a file that cannot be read is a problem.
LogResult read_log(const std::string& file);

// The part between two times, which then begins at 0 s; empty limits are below 0.
void cut(identification::BatchLog& log, double from_s, double until_s);

}  // namespace stirbench::fitting
