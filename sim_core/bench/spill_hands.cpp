#include <algorithm>

#include "sim_core/bench/lockout_parts.h"

// Floor, wash bucket, and what people put on.
namespace stirbench::bench {

namespace {

using K = ActionKind;

constexpr double bucket_holds_kg = 12.0;  // a usual wash bucket (choice)

std::string why_not_wear(const State& state, const Action& action) {
  const int item = choice_index("item", action.name);
  if (item < 0) return "There is no \"" + action.name + "\" to wear.";
  const bool worn = state.wearing.worn[static_cast<std::size_t>(item)];
  if (action.kind == K::take_off) return worn ? "" : "You are not wearing it.";
  if (worn) return "You are wearing it already.";
  const auto wanted = static_cast<Wear>(item);
  const bool other_gloves = (wanted == Wear::heat_gloves && state.wearing.has(Wear::chemical_gloves)) ||
                            (wanted == Wear::chemical_gloves && state.wearing.has(Wear::heat_gloves));
  return other_gloves ? "Take the other gloves off first." : "";
}

void add_chemical(const Chemical& chemical, double kg, Bucket& bucket) {
  const double active_kg = kg * chemical.active_norm;
  bucket.chemical_kg += kg;
  bucket.active_kg += active_kg;
  bucket.irritant_kg += active_kg / chemical.irritant_norm;
  bucket.corrosive_kg += active_kg / chemical.corrosive_norm;
  const double mol = active_kg * chemical.reactive_mol_per_kg;
  if (chemical.kind == ChemicalKind::acid) bucket.acid_mol += mol;
  if (chemical.kind == ChemicalKind::chlorine) bucket.chlorine_mol += mol;
}

}  // namespace

bool is_spill_work(ActionKind kind) { return kind >= K::put_on && kind <= K::empty_bucket; }

std::string why_not_spill_work(const Machine& machine, const State& state, const Action& action) {
  switch (action.kind) {
    case K::put_on:
    case K::take_off: return why_not_wear(state, action);
    case K::wipe_floor: return state.plant.floor_kg > 0.0 ? "" : "The floor is dry.";
    case K::put_up_sign: return state.floor_sign_up ? "The sign already stands." : "";
    case K::add_water:
    case K::add_chemical:
      if (action.kind == K::add_chemical && machine.chemical_index(action.name) < 0) {
        return "There is no chemical \"" + action.name + "\" here.";
      }
      return bucket_kg(state.bucket) + action.number > bucket_holds_kg ? "The bucket holds 12 kg; that would run over." : "";
    case K::scrub:
    case K::empty_bucket: return bucket_kg(state.bucket) > 0.0 ? "" : "The bucket is empty.";
    default: return "";  // walk_round
  }
}

std::string do_spill_work(const Machine& machine, State& state, const Action& action) {
  switch (action.kind) {
    case K::put_on:
    case K::take_off:
      state.wearing.worn[static_cast<std::size_t>(choice_index("item", action.name))] = action.kind == K::put_on;
      break;
    case K::wipe_floor:
      state.plant.floor_kg = 0.0;
      state.floor_sign_up = false;
      return "The floor is wiped, rinsed and dry; the sign is put away.";
    case K::put_up_sign: state.floor_sign_up = true; break;
    case K::add_water: state.bucket.water_kg += action.number; break;
    case K::add_chemical:
      add_chemical(machine.chemicals[static_cast<std::size_t>(machine.chemical_index(action.name))], action.number, state.bucket);
      break;
    case K::empty_bucket: state.bucket = {}; break;
    default: break;  // walk_round, scrub: what they meet is in harms.cpp
  }
  return {};
}

}  // namespace stirbench::bench
