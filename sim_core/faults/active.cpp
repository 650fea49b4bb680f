#include <algorithm>

#include "sim_core/bytes/hash64.h"
#include "sim_core/faults/fault.h"
#include "sim_core/plant/pace.h"

// The faults of a run: set in, coming and going, mended.
namespace stirbench::faults {

namespace {

const Fault* by_mark(const std::vector<Fault>& known, std::uint64_t mark) {
  const auto at = std::find_if(known.begin(), known.end(),
                               [mark](const Fault& one) { return fault_id_hash(one.id) == mark; });
  return at == known.end() ? nullptr : &*at;
}

bool is_start_only(FaultTarget target) { return target >= FaultTarget::deposit_kg_per_m2; }

// A fault as it comes back: what can be put right by hand, or was so at the beginning only, is not set a
// second time.
Fault lasting(const Fault& fault) {
  Fault out = fault;
  std::erase_if(out.changes, [](const Change& change) { return is_start_only(change.target); });
  return out;
}

// Restores everything, then applies every fault that is present.
void set_again(const plant::MachineSpec& spec, const std::vector<Fault>& known, plant::PlantState& state) {
  remove_all_faults(state);
  for (const plant::ActiveFault& active : state.faults) {
    const Fault* fault = active.there ? by_mark(known, active.mark) : nullptr;
    if (fault != nullptr) apply(spec, state, lasting(*fault), active.severity);
  }
}

}  // namespace

std::uint64_t fault_id_hash(std::string_view id) { return bytes::mark(id); }

void remove_all_faults(plant::PlantState& state) {
  state.circuit.gear.defect_count = 0;
  state.circuit.gear.defects = {};
  state.circuit.gear.tripped = 0;
  state.circuit.seen_bits = plant::CircuitState::nothing_seen;
  state.chiller.health = {};
  state.health = {};
  plant::invalidate_pace(state);
}

std::string inject(const plant::MachineSpec& spec, const std::vector<Fault>& known, plant::PlantState& state,
                   const std::string& id, double severity) {
  const auto found =
      std::find_if(known.begin(), known.end(), [&id](const Fault& one) { return one.id == id; });
  if (found == known.end()) return "there is no fault \"" + id + "\"";
  return inject(spec, state, *found, severity);
}

std::string inject(const plant::MachineSpec& spec, plant::PlantState& state, const Fault& fault,
                   double severity) {
  // Written so that a value that is not a number is refused too.
  if (!(severity > 0.0 && severity <= 1.0))
    return fault.id + ": expected a severity above 0, at most 1, found " + std::to_string(severity);
  const auto free = std::find_if(state.faults.begin(), state.faults.end(),
                                 [](const plant::ActiveFault& one) { return one.mark == 0; });
  if (free == state.faults.end()) return fault.id + ": expected at most four faults at once, found one more";
  const bool there = is_present(fault, 0.0);
  if (there) {
    std::string wrong = apply(spec, state, fault, severity);
    if (!wrong.empty()) return wrong;
  }
  *free = {fault_id_hash(fault.id), severity, there};
  return "";
}

void update_intermittent(const plant::MachineSpec& spec, const std::vector<Fault>& known,
                         plant::PlantState& state, double time_s) {
  bool changed = false;
  for (plant::ActiveFault& active : state.faults) {
    if (active.mark == 0) return changed ? set_again(spec, known, state) : void();
    const Fault* fault = by_mark(known, active.mark);
    if (fault == nullptr || !(fault->period_s > 0.0)) continue;
    const bool there = is_present(*fault, time_s);
    changed = changed || there != active.there;
    active.there = there;
  }
  if (changed) set_again(spec, known, state);
}

bool remove_fault(const plant::MachineSpec& spec, const std::vector<Fault>& known, plant::PlantState& state,
                  const std::string& id) {
  const std::uint64_t mark = fault_id_hash(id);
  const auto found = std::find_if(state.faults.begin(), state.faults.end(),
                                  [mark](const plant::ActiveFault& one) { return one.mark == mark; });
  if (found == state.faults.end()) return false;
  // What is worn or burnt on goes with the fault that brought it.
  const Fault* fault = by_mark(known, mark);
  for (const Change& change : fault != nullptr ? fault->changes : std::vector<Change>{}) {
    if (change.target == FaultTarget::deposit_kg_per_m2) state.deposit_kg_per_m2 = 0.0;
    if (change.target == FaultTarget::agitator_play_mm) state.agitator_bushing.play_mm = 0.0;
    if (change.target == FaultTarget::shaft_end_play_mm) state.shaft_end_bushing.play_mm = 0.0;
    if (change.target == FaultTarget::ambient_K)
      state.environment.ambient_degC -= value_at(change, found->severity);
    if (change.target == FaultTarget::supply_factor && value_at(change, found->severity) > 0.0)
      state.environment.supply_norm /= value_at(change, found->severity);
  }
  std::rotate(found, found + 1, state.faults.end());
  state.faults.back() = {};
  set_again(spec, known, state);
  return true;
}

}  // namespace stirbench::faults
