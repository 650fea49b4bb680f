#pragma once

#include <string>
#include <vector>

#include "app/records/store.h"
#include "sim_core/training/scorer.h"
#include "sim_core/training/trials/items.h"

// What the items of lessons told of people: classical figures (training/trials/items.h) over kept attempts.
namespace stirbench::records {

// Below so many attempts a figure says more of chance than of the item (a choice).
inline constexpr int fewest_for_items = 10;

struct LessonItems {
  std::string lesson;
  int attempts = 0;
  int passed = 0;
  std::vector<std::string> criteria;         // ids
  std::vector<training::ItemFigures> items;  // of each; `gain`: those who passed over those who did not
  double alpha = 0.0;
};

// From finished practice and tests, newest first as the store gives them; guided runs and those that went on
// from another are left out, and attempts whose criteria are not those of the lesson's newest attempt. Sorted
// by lesson. An attempt whose card cannot be read is left out.
std::vector<LessonItems> items_of(const std::vector<Attempt>& attempts);

}  // namespace stirbench::records
