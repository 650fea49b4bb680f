#include "app/desk/kit/widgets/spread.h"

#include <algorithm>
#include <cstddef>
#include <vector>

namespace stirbench::desk::kit {

bool spread(std::span<Wanted> boxes, float low, float high, float gap) {
  if (boxes.empty()) return true;
  // Boxes that touch move as one group; a group stands where the mean way of its boxes is zero.
  struct Group {
    std::size_t first;
    std::size_t count;
    float sum;     // of (wanted top - place within the group)
    float height;  // with the gaps inside
  };
  std::vector<Group> groups;
  float needed = -gap;
  for (const Wanted& box : boxes) needed += box.height + gap;
  if (needed > high - low) return false;
  const auto top_of = [&](const Group& g) {
    return std::clamp(g.sum / static_cast<float>(g.count), low, std::max(high - g.height, low));
  };
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    groups.push_back({i, 1, boxes[i].top, boxes[i].height});
    while (groups.size() > 1) {
      const Group& upper = groups[groups.size() - 2];
      const Group& lower = groups.back();
      if (top_of(upper) + upper.height + gap <= top_of(lower)) break;
      const float offset = upper.height + gap;
      Group merged{upper.first, upper.count + lower.count,
                   upper.sum + lower.sum - offset * static_cast<float>(lower.count),
                   upper.height + gap + lower.height};
      groups.pop_back();
      groups.back() = merged;
    }
  }
  for (const Group& group : groups) {
    float top = top_of(group);
    for (std::size_t i = group.first; i < group.first + group.count; ++i) {
      boxes[i].top = top;
      top += boxes[i].height + gap;
    }
  }
  return true;
}

}  // namespace stirbench::desk::kit
