#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

// Who may do a check or a repair, and what the machine has to be like for it: one vocabulary for content,
// fault guides, lessons, the work at a machine, cards and the command line.
namespace stirbench::faults {

// What somebody has learnt. Electrical and refrigerant work beyond looking is for licensed people; local
// codes decide.
enum class Who : std::uint8_t { anyone, technician, electrician, refrigeration, count };
inline constexpr std::size_t who_count = static_cast<std::size_t>(Who::count);
std::span<const std::string_view> who_words();        // content's words, in the enumeration's order
std::string_view who_word(Who who);                   // "electrician"
std::string_view who_title(Who who);                  // "licensed electrician"
std::optional<Who> who_named(std::string_view word);  // none: no such word

bool is_licensed(Who needed);
// What `who` may do: anyone < technician; each licensed person may do what a technician may, and their own
// trade.
bool may_do(Who who, Who needed);

// What has to be true of the machine for a check or a repair.
enum class AccessState : std::uint8_t {
  running,        // switched on and told to do what the check looks at
  standing,       // supply on, nothing moves
  isolated,       // switched off at the isolator, locked, tagged, proved dead; covers on
  open_isolated,  // the same, covers off
  open_live,      // covers off and supply on: measuring on live parts, licensed people only
  count
};
inline constexpr std::size_t access_state_count = static_cast<std::size_t>(AccessState::count);
std::string_view access_state_word(AccessState health);   // content's word: "open_isolated"
std::string_view access_state_title(AccessState health);  // "isolated and locked, covers off"

}  // namespace stirbench::faults
