#include "sim_core/explore/explore_wiring.h"

#include <algorithm>
#include <stdexcept>
#include <string>

namespace stirbench::explore {

namespace {

namespace w = electrics;

using C = WiringChange;
using w::CircuitPartKind;
using w::CircuitRole;

constexpr std::array<std::string_view, wiring_change_count> names{"none",
                                                                  "lid_contact_bridged",
                                                                  "cover_contact_bridged",
                                                                  "emergency_contact_bridged",
                                                                  "emergency_contactor_bridged",
                                                                  "isolator_bridged",
                                                                  "overload_contact_bridged",
                                                                  "cutout_line_bridged",
                                                                  "pressure_line_bridged",
                                                                  "drive_auxiliary_bridged",
                                                                  "guards_left_out_of_drive",
                                                                  "guards_left_out_of_heat",
                                                                  "lid_input_bridged",
                                                                  "cover_input_bridged",
                                                                  "emergency_input_bridged",
                                                                  "cutout_input_bridged",
                                                                  "pressure_input_bridged",
                                                                  "overload_input_open"};

// Whether a contact's pole goes to an input of the controller, or stands in a chain of coils or in a line.
enum class Serves : std::uint8_t { line, input };

struct Changer {
  WiredOtherwise out;
  bool changed = false;

  const w::CircuitPart& part(int i) const { return out.network.parts[static_cast<std::size_t>(i)]; }
  int find(CircuitPartKind kind, CircuitRole role) const {
    const int found = out.network.by_role(kind, role);
    if (found < 0)
      throw std::invalid_argument("the circuit has no " + std::string(w::part_kind_word(kind)) + " for " +
                                  std::string(w::role_word(role)));
    return found;
  }
  // First terminal of a contact's pole, counted in the part's terminals: a contactor's come after its coil's
  // two.
  std::uint16_t pole_at(int i, int pole) const {
    return out.network.at(i, (part(i).kind == CircuitPartKind::contactor ? 2 : 0) + 2 * pole);
  }

  bool is_wired(int terminal, const std::string& to) const {
    const int other = out.network.terminal(to);
    return std::any_of(out.network.joins.begin(), out.network.joins.end(), [&](const w::Network::Join& join) {
      return (join.from == terminal && join.to == other) || (join.to == terminal && join.from == other);
    });
  }
  bool reaches_controller(int i, int pole, std::string_view marks) const {
    const std::string controller = part(find(CircuitPartKind::controller, CircuitRole::none)).id;
    const w::CircuitPart& owner = part(i);
    if (pole >= owner.poles && owner.kind != CircuitPartKind::overload) return false;
    for (int end = 0; end < 2; ++end) {
      for (char number = '1'; number <= '6'; ++number) {
        for (const char mark : marks) {
          if (is_wired(pole_at(i, pole) + end, controller + "." + mark + number)) return true;
        }
      }
    }
    return false;
  }
  void contact(int i, int pole, w::DefectKind kind = w::DefectKind::stuck_closed) {
    changed = out.gear.add({kind, static_cast<std::uint16_t>(i), static_cast<std::uint16_t>(pole), 0.0});
  }
  void bridge(CircuitPartKind kind, CircuitRole role, Serves serves) {
    const int i = find(kind, role);
    for (int pole = 0; pole < part(i).poles; ++pole) {
      if (reaches_controller(i, pole, "I") == (serves == Serves::input)) contact(i, pole);
    }
  }
  // The pole of the drive's contactor that the controller's heat output goes through.
  void bridge_auxiliary() {
    const int i = find(CircuitPartKind::contactor, CircuitRole::drive);
    for (int pole = 0; pole < part(i).poles; ++pole) {
      if (reaches_controller(i, pole, "H")) contact(i, pole);
    }
  }
  // The output is fed from where the lid's guard is fed: both guards are passed by.
  void feed_before_guards(const char* mark) {
    const int lid = find(CircuitPartKind::guard, CircuitRole::lid);
    const int output =
        out.network.terminal(part(find(CircuitPartKind::controller, CircuitRole::none)).id + "." + mark);
    for (int pole = 0; pole < part(lid).poles; ++pole) {
      if (reaches_controller(lid, pole, "I")) continue;
      for (w::Network::Join& join : out.network.joins) {
        if (join.from != output && join.to != output) continue;
        join = {pole_at(lid, pole), static_cast<std::uint16_t>(output)};
        changed = true;
      }
      return;
    }
  }
};

void apply(Changer& c, WiringChange change) {
  switch (change) {
    case C::none:
    case C::count: return;
    case C::lid_contact_bridged: return c.bridge(CircuitPartKind::guard, CircuitRole::lid, Serves::line);
    case C::cover_contact_bridged:
      return c.bridge(CircuitPartKind::guard, CircuitRole::shaft_cover, Serves::line);
    case C::emergency_contact_bridged:
      return c.bridge(CircuitPartKind::guard, CircuitRole::emergency_stop, Serves::line);
    case C::emergency_contactor_bridged:
      return c.bridge(CircuitPartKind::contactor, CircuitRole::emergency_stop, Serves::line);
    case C::isolator_bridged: return c.bridge(CircuitPartKind::isolator, CircuitRole::none, Serves::line);
    case C::overload_contact_bridged:
      return c.contact(c.find(CircuitPartKind::overload, CircuitRole::drive), 0);
    case C::cutout_line_bridged: return c.bridge(CircuitPartKind::guard, CircuitRole::cutout, Serves::line);
    case C::pressure_line_bridged:
      return c.bridge(CircuitPartKind::guard, CircuitRole::pressure, Serves::line);
    case C::drive_auxiliary_bridged: return c.bridge_auxiliary();
    case C::guards_left_out_of_drive: return c.feed_before_guards("D1");
    case C::guards_left_out_of_heat: return c.feed_before_guards("H1");
    case C::lid_input_bridged: return c.bridge(CircuitPartKind::guard, CircuitRole::lid, Serves::input);
    case C::cover_input_bridged:
      return c.bridge(CircuitPartKind::guard, CircuitRole::shaft_cover, Serves::input);
    case C::emergency_input_bridged:
      return c.bridge(CircuitPartKind::guard, CircuitRole::emergency_stop, Serves::input);
    case C::cutout_input_bridged: return c.bridge(CircuitPartKind::guard, CircuitRole::cutout, Serves::input);
    case C::pressure_input_bridged:
      return c.bridge(CircuitPartKind::guard, CircuitRole::pressure, Serves::input);
    case C::overload_input_open:
      return c.contact(c.find(CircuitPartKind::overload, CircuitRole::drive), 1, w::DefectKind::stuck_open);
  }
}

}  // namespace

std::string_view wiring_change_name(WiringChange change) { return names[static_cast<std::size_t>(change)]; }

WiredOtherwise wired_otherwise(const w::Network& network, WiringChange change) {
  Changer changer{{network, {}}};
  apply(changer, change);
  if (change != C::none && !changer.changed)
    throw std::invalid_argument("the circuit has no place for " + std::string(wiring_change_name(change)));
  return std::move(changer.out);
}

}  // namespace stirbench::explore
