#pragma once

#include <string>
#include <vector>

#include "app/records/store.h"

// People from a list: a CSV file with a column "name" and, if wanted, "number". Looked at first, then taken
// over as a whole.
namespace stirbench::records {

enum class RosterStep : unsigned char { add, known, wrong };
struct RosterLine {
  int line = 0;
  std::string name;
  std::string number;
  RosterStep step = RosterStep::add;
  std::string why;  // known: as whom; wrong: expected ..., found ...
};
struct RosterPlan {
  std::vector<RosterLine> lines;
  std::vector<std::string> ignored;  // headings of columns that are not used
  std::string problem;               // the file as a whole cannot be used
  bool good() const;                 // nothing is wrong
  int to_add() const;
};

// Writes nothing.
RosterPlan plan_roster(Store& store, const std::string& csv);
// Adds the lines to be added in one transaction: all or none. StoreError when the plan is not good or no
// longer fits.
int take_roster(Store& store, const Access& who, const RosterPlan& plan);

}  // namespace stirbench::records
