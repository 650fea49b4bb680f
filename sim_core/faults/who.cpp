#include "sim_core/faults/who.h"

#include <algorithm>
#include <array>

namespace stirbench::faults {

namespace {

using std::string_view;

constexpr std::array<string_view, who_count> words = {"anyone", "technician", "electrician", "refrigeration"};
constexpr std::array<string_view, who_count> titles = {"anyone trained on the machine", "service technician",
                                                       "licensed electrician",
                                                       "licensed refrigeration technician"};
constexpr std::array<string_view, access_state_count> condition_words = {"running", "standing", "isolated",
                                                                         "open_isolated", "open_live"};
constexpr std::array<string_view, access_state_count> condition_titles = {
    "running", "switched on, nothing moving", "isolated and locked", "isolated and locked, covers off",
    "covers off, live"};

}  // namespace

std::span<const string_view> who_words() { return words; }
string_view who_word(Who who) { return words.at(static_cast<std::size_t>(who)); }
string_view who_title(Who who) { return titles.at(static_cast<std::size_t>(who)); }

std::optional<Who> who_named(string_view word) {
  const auto found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) return std::nullopt;
  return static_cast<Who>(found - words.begin());
}

bool is_licensed(Who needed) { return needed == Who::electrician || needed == Who::refrigeration; }

bool may_do(Who who, Who needed) {
  if (needed == Who::anyone || who == needed) return true;
  return needed == Who::technician && who != Who::anyone;
}

string_view access_state_word(AccessState health) {
  return condition_words.at(static_cast<std::size_t>(health));
}
string_view access_state_title(AccessState health) {
  return condition_titles.at(static_cast<std::size_t>(health));
}

}  // namespace stirbench::faults
