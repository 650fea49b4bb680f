#include "sim_core/bench/service_hands.h"

#include <algorithm>

#include "sim_core/bench/assembly_hands.h"
#include "sim_core/bench/lockout.h"
#include "sim_core/bench/number_words.h"
#include "sim_core/plant/assembly_effects.h"
#include "sim_core/plant/cleaning.h"
#include "sim_core/plant/pace.h"
#include "sim_core/plant/service.h"

namespace stirbench::bench {

namespace {

using K = ActionKind;
using plant::PartId;

constexpr double empty_kg = 0.1;

const plant::PartRule& rule_of(const Machine& machine, PartId part) {
  return machine.plant.assembly.rules[static_cast<std::size_t>(part)];
}

std::string why_not_dose(const Machine& machine, const State& state, const Action& action) {
  if (machine.chemical_index(action.name) < 0) return "There is no chemical \"" + action.name + "\" here.";
  return state.plant.fittings.lid_open ? "" : "The lid is closed.";
}

std::string why_not_brush(const State& state) {
  if (state.plant.assembly.hand < 0) return "Pick up the part that you want to brush.";
  return bucket_kg(state.bucket) > 0.0 ? "" : "The wash bucket is empty.";
}

std::string why_not_swab(const State& state, const Action& action) {
  if (choice_index("spot", action.name) < 0) return "spot is one of: vat, valve.";
  const plant::PlantState& plant = state.plant;
  if (action.name == "valve") return plant::in_place(plant.assembly, PartId::valve_plunger) ? "Take the plunger out first." : "";
  if (!plant.fittings.lid_open) return "The lid is closed.";
  if (plant.shaft_rad_per_s > 0.0) return "The shaft still turns. Press Stop and wait.";
  return plant.product.total_kg() > empty_kg ? "The vat is not empty." : "";
}

std::string why_not_unscrew(const Machine& machine, const State& state, const Action& action) {
  const int place = plant::find_part(action.name);
  if (place < 0) return "There is no part \"" + action.name + "\".";
  if (!plant::on_thread(rule_of(machine, static_cast<PartId>(place)))) return "It does not sit on a thread.";
  Action off;
  off.kind = K::take_part_off;
  off.name = action.name;
  return why_not_part_work(machine, state, off);
}

std::string why_not_feel(const Machine& machine, const State& state, const Action& action) {
  if (choice_index("bushing", action.name) < 0) return "bushing is one of: agitator_bushing, shaft_end_bushing.";
  const auto part = static_cast<PartId>(plant::find_part(action.name));
  const plant::AssemblyState& a = state.plant.assembly;
  const bool foot = part == PartId::agitator_bushing;
  std::string reason = why_not_reach(machine, state, PartId::sleeve_cap);
  if (!reason.empty()) return reason;
  if (!plant::in_place(a, part)) return "It is not in its place.";
  if (foot && !plant::in_place(a, PartId::agitator)) return "The agitator must stand on its shaft.";
  if (plant::in_place(a, PartId::guard_cover)) return "Guard cover is in the way. Take it off first.";
  if (foot) return "";
  if (plant::in_place(a, PartId::agitator)) return "Agitator is in the way. Take it off first.";
  return plant::in_place(a, PartId::sleeve_cap) ? "Sleeve cap is in the way. Take it off first." : "";
}

std::string swab(const Machine& machine, State& state, bool vat) {
  plant::Soil& soil = state.plant.soil;
  const double reading = plant::swab_reading_ug(vat ? plant::vat_soil_ug(machine.plant, state.plant) : plant::valve_soil_ug(state.plant));
  (vat ? soil.swab_vat : soil.swab_valve) = reading;
  return "The swab reads " + with_unit(reading, 0, "µg of soil on 100 cm²") +
         (reading <= plant::clean_ug ? ": clean." : ". Above 100 it is not clean.");
}

std::string unscrew(const Machine& machine, State& state, const Action& action) {
  const auto part = static_cast<PartId>(plant::find_part(action.name));
  if (plant::comes_off(rule_of(machine, part), action.on)) {
    plant::take_part_off(machine.plant, state.plant, part);
    return "It comes off.";
  }
  const int item = plant::item_at(state.plant.assembly, part);
  const bool again = state.plant.assembly.items[static_cast<std::size_t>(item)].strained;
  plant::strain_thread(state.plant.assembly, part);
  plant::disturb(state.plant);
  return again ? "The thread strips." : "It only gets tighter. Stop: this thread turns off the other way.";
}

std::string feel(const Machine& machine, State& state, const Action& action) {
  const auto part = static_cast<PartId>(plant::find_part(action.name));
  const double blade = plant::feeler_blade_mm(plant::play_now_mm(machine.plant, state.plant, part));
  const double limit = plant::play_limit_mm(machine.plant, part);
  state.plant.assembly.feeler_mm = 0.5 * blade;
  const std::string reads = blade > 0.0 ? "The " + with_unit(blade, 2, "mm") + " blade goes in, the next one does not: "
                                        : std::string("Not even the thinnest blade goes in: ");
  return reads + with_unit(0.5 * blade, 3, "mm") + " of play to each side. The limit is " + with_unit(limit, 2, "mm") +
         (0.5 * blade >= limit ? ": replace it." : ".");
}

}  // namespace

bool is_service_work(ActionKind kind) { return kind >= K::push_hose_on && kind <= K::feel_gap; }

std::string why_not_service_work(const Machine& machine, const State& state, const Action& action) {
  switch (action.kind) {
    case K::dose_vat: return why_not_dose(machine, state, action);
    case K::brush: return why_not_brush(state);
    case K::swab: return why_not_swab(state, action);
    case K::unscrew: return why_not_unscrew(machine, state, action);
    case K::feel_gap: return why_not_feel(machine, state, action);
    default: return why_not_hose_work(state, action);
  }
}

std::string do_service_work(const Machine& machine, State& state, const Action& action) {
  switch (action.kind) {
    case K::dose_vat: {
      const Chemical& chemical = machine.chemicals[static_cast<std::size_t>(machine.chemical_index(action.name))];
      plant::dose(machine.plant, state.plant, active_of(chemical.kind), action.number, action.number * chemical.active_norm);
      break;
    }
    case K::brush: {
      // Cleaner leaves a fiftieth, plain water three tenths (choice).
      double& soil = state.plant.assembly.items[static_cast<std::size_t>(state.plant.assembly.hand)].soil_norm;
      soil *= bucket_cleans(machine, state.bucket) ? 0.02 : 0.3;
      state.plant.assembly.items[static_cast<std::size_t>(state.plant.assembly.hand)].greased = false;
      break;
    }
    case K::swab: return swab(machine, state, action.name == "vat");
    case K::unscrew: return unscrew(machine, state, action);
    case K::feel_gap: return feel(machine, state, action);
    default: do_hose_work(machine, state, action); break;
  }
  return {};
}

bool bucket_cleans(const Machine& machine, const Bucket& bucket) {
  if (bucket.acid_mol > 0.0 || bucket.chlorine_mol > 0.0) return false;
  return std::any_of(machine.chemicals.begin(), machine.chemicals.end(), [&](const Chemical& one) {
    return one.kind == ChemicalKind::alkaline && strength_norm(bucket) >= one.use_low_norm;
  });
}

}  // namespace stirbench::bench
