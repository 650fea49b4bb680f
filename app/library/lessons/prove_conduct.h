#pragma once

#include <string>
#include <vector>

#include "app/library/library.h"

// Unsafe and over-careful habits against every lesson: none of the first may pass where it occurs, none of
// the second may fail a run that is otherwise right.
namespace stirbench::library {

struct HabitCell {
  std::string lesson;
  std::string habit;  // id of a conduct or of a careful habit
  bool careful = false;
  bool excepted = false;  // not asked in this lesson
  int tried = 0;          // runs by the guide in which the habit came in the middle
  int occurred = 0;       // of these: the conduct was missed; of a careful one: a hand of it was done
  int passed = 0;         // of those that occurred
  std::string why;        // of the last run that ended otherwise than it should
};

// Each lesson that can be followed, by its guide, with the habit's hands before the guide's first, middle and
// last hand but one, two seconds apart; hands that are refused are left out. `threads` 0: as many as the
// computer has.
std::vector<HabitCell> play_habits(const Library& library, unsigned threads = 0);

// A conduct that occurred and passed, a careful habit that did not pass.
bool is_wrong(const HabitCell& cell);

}  // namespace stirbench::library
