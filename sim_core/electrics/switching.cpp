#include "sim_core/electrics/switching.h"

#include "sim_core/electrics/solve.h"

namespace stirbench::electrics {
namespace {

// An answer in a word: inputs from bit 0 on, then what is on; the top bit says that it is known.
constexpr unsigned controller_place = input_count, heat_place = input_count + 1,
                   drive_place = input_count + 2, chill_place = input_count + 3;
constexpr std::uint16_t known_bit = 0x8000U;
static_assert(chill_place < 15);

std::uint16_t packed(const Switched& s) {
  std::uint32_t word = known_bit;
  for (std::size_t i = 0; i < input_count; ++i) word |= s.inputs[i] ? std::uint32_t{1} << i : 0U;
  const auto put = [&word](bool on, unsigned place) { word |= on ? std::uint32_t{1} << place : 0U; };
  put(s.controller_on, controller_place);
  put(s.heat, heat_place);
  put(s.drive, drive_place);
  put(s.chill, chill_place);
  return static_cast<std::uint16_t>(word);
}

Switched unpacked(std::uint16_t word) {
  const auto is = [word](unsigned place) { return (std::uint32_t{word} >> place & 1U) != 0U; };
  Switched out;
  for (std::size_t i = 0; i < input_count; ++i) out.inputs[i] = is(static_cast<unsigned>(i));
  out.controller_on = is(controller_place);
  out.heat = is(heat_place);
  out.drive = is(drive_place);
  out.chill = is(chill_place);
  return out;
}

}  // namespace

Switched switched(const CircuitOutputs& supplied) {
  Switched out;
  out.controller_on = supplied.controller_on;
  out.inputs = supplied.inputs;
  out.heat = supplied.heat_norm > 0.0;
  out.drive = supplied.drive_forward_norm > drive_least_norm;
  out.chill = supplied.compressor_forward_norm > compressor_least_norm &&
              supplied.compressor_backward_norm < compressor_backward_norm;
  return out;
}

Switched switching_chain(Switches switches, bool supply_there) {
  using S = Switch;
  Switched out;
  out.controller_on = supply_there && switches.is(S::isolator_on);
  if (!out.controller_on) return out;
  const auto input = [&out](Input one, bool on) { out.inputs[static_cast<std::size_t>(one)] = on; };
  input(Input::lid_closed, switches.is(S::lid_closed));
  input(Input::shaft_cover_closed, switches.is(S::shaft_cover_closed));
  input(Input::overload_tripped, switches.is(S::overload_tripped));
  input(Input::cutout_right, !switches.is(S::cutout_tripped));
  input(Input::pressure_right, !switches.is(S::pressure_tripped));
  input(Input::emergency_stop_right, !switches.is(S::emergency_stop_open));

  const bool fed = !switches.is(S::emergency_stop_open) || switches.is(S::emergency_welded);
  const bool guards_shut = switches.is(S::lid_closed) && switches.is(S::shaft_cover_closed);
  const bool drive_coil = guards_shut && switches.is(S::drive_wanted) && !switches.is(S::overload_tripped);
  const bool drive_in = drive_coil || switches.is(S::drive_welded);
  // Elements without circulation scorch and boil: the auxiliary contact of the drive contactor.
  const bool heat_coil = guards_shut && switches.is(S::heat_wanted) && drive_in;
  out.drive = fed && drive_in;
  out.heat = fed && (heat_coil || switches.is(S::heat_welded)) && !switches.is(S::cutout_tripped);
  out.chill = fed && (switches.is(S::chill_wanted) || switches.is(S::chill_welded)) &&
              !switches.is(S::pressure_tripped);
  return out;
}

SwitchingTable::SwitchingTable(const Network& network, const CircuitInputs& loads, const Switchgear& gear)
    : network_(&network), loads_(loads), gear_(gear), known_(switch_combinations, 0) {}

Switched SwitchingTable::of(Switches switches) {
  std::uint16_t& known = known_[switches.bits & (switch_combinations - 1)];
  if (known != 0) return unpacked(known);
  ++solved_;
  Switched answer;
  if (network_->empty()) {
    answer = switching_chain(switches, loads_.supply_norm > 0.0);
  } else {
    loads_.switches = switches;
    Switchgear gear = gear_;
    answer = switched(settle_relays(*network_, loads_, gear));
  }
  known = packed(answer);
  return answer;
}

}  // namespace stirbench::electrics
