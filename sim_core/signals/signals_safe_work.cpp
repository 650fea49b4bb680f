#include "sim_core/signals/signals.h"
#include "sim_core/signals/signals_internal.h"

// Readings of lock-out, protection, floor and bucket.
namespace stirbench::signals {

using machine::HarmId;
using machine::PpeItem;
using machine::StepDone;

namespace {

using L = machine::LockoutStep;

template <L step>
double done(M, S s) {
  return as_number(machine::step_of(s.lockout, step).done);
}
template <L step>
Signal step_flag(std::string_view name) {
  return flag(name, machine::lockout_step_title(step), done<step>);
}
template <PpeItem item>
double worn(M, S s) {
  return as_number(s.wearing.has(item));
}
template <HarmId harm>
double harmed(M, S s) {
  return as_number(s.harms[static_cast<std::size_t>(harm)].happened);
}

// Acid and chlorine react with each other, so the kind counts; what is neither is alkaline.
std::string_view bucket_holds(M, S s) {
  const machine::Bucket& bucket = s.bucket;
  if (bucket.acid_mol > 0.0) return bucket.chlorine_mol > 0.0 ? "mixed" : "acid";
  if (bucket.chlorine_mol > 0.0) return "chlorine";
  return bucket.chemical_kg > 0.0 ? "alkaline" : "none";
}

double strength_of(M m, S s, std::string_view kind) {
  return bucket_holds(m, s) == kind ? machine::strength_norm(s.bucket) : 0.0;
}

void add_locks(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      flag("lock_on", "your padlock is on this machine's isolator",
           [](M, S s) { return as_number(s.lockout.yours.on && !s.lockout.yours.on_neighbour); }),
      flag("key_left_in_lock", "the key is still in your padlock",
           [](M, S s) { return as_number(s.lockout.yours.key_in); }),
      flag("tag_on", "your tag is on", [](M, S s) { return as_number(s.lockout.yours.tag); }),
      flag("colleague_lock_on", "a colleague's padlock is on",
           [](M, S s) { return as_number(s.lockout.colleagues.on && !s.lockout.colleagues.on_neighbour); }),
      flag("colleague_working", "a colleague works on the machine",
           [](M, S s) { return as_number(s.lockout.colleague_working); }),
      flag("isolator_held", "a padlock whose key nobody else has holds the isolator off",
           [](M, S s) { return as_number(machine::isolator_held(s.lockout)); }),
      flag("neighbour_isolated", "the machine beside is isolated",
           [](M, S s) { return as_number(s.lockout.neighbour_isolated); }),
      flag("panel_open", "the electrical panel is off",
           [](M, S s) { return as_number(s.lockout.panel_off); }),
      flag("draw_valve_out", "the draw valve is taken out",
           [](M, S s) { return as_number(s.lockout.valve_out); }),
      flag("working", "hands work in the machine",
           [](M, S s) { return as_number(s.lockout.working_at != machine::WorkPlace::none); }),
      flag("verified_dead", "meter proved, terminals dead, meter proved again",
           [](M, S s) { return as_number(machine::verified_dead(s.lockout)); }),
      number("terminals_V", "what is really there behind the isolator", machine::terminals_V),
      number("meter_V", "last reading of the meter", [](M, S s) { return s.lockout.meter_V; }),
      number("capacitor_V", "on the motor's run capacitor", [](M, S s) { return s.lockout.capacitor_V; }),
      number("hottest_part_degC", "hottest part that hands can meet",
             [](M, S s) { return machine::hottest_part_degC(s); }),
      number("stored_energy_released_norm", "1 when every stored energy is gone",
             machine::energies_released_norm),
      flag("people_told", "people were told of the lock-out", done<L::people_told>),
      number("lockout_steps_done", "steps of the procedure that are done",
             [](M, S s) {
               double count = 0.0;
               for (const StepDone& step : s.lockout.steps) count += as_number(step.done);
               return count;
             }),
      flag("lockout_in_order", "every step that is done was done in order",
           [](M, S s) {
             for (const StepDone& step : s.lockout.steps) {
               if (step.done && !step.in_order) return 0.0;
             }
             return 1.0;
           }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_steps(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      step_flag<L::energies_read>("step_energies_read"),
      step_flag<L::stopped>("step_stopped"),
      step_flag<L::isolated>("step_isolated"),
      step_flag<L::locked>("step_locked"),
      step_flag<L::key_taken>("step_key_taken"),
      step_flag<L::tagged>("step_tagged"),
      step_flag<L::heat_gone>("step_heat_gone"),
      step_flag<L::hose_gone>("step_hose_gone"),
      step_flag<L::spring_eased>("step_spring_eased"),
      step_flag<L::capacitor_gone>("step_capacitor_gone"),
      step_flag<L::refrigerant_left>("step_refrigerant_left"),
      step_flag<L::start_tried>("step_start_tried"),
      step_flag<L::panel_off>("step_panel_off"),
      step_flag<L::meter_proved>("step_meter_proved"),
      step_flag<L::dead_measured>("step_dead_measured"),
      step_flag<L::meter_proved_again>("step_meter_proved_again"),
      step_flag<L::work_begun>("step_work_begun"),
      step_flag<L::work_ended>("step_work_ended"),
      step_flag<L::inspected>("step_inspected"),
      step_flag<L::people_told_back>("step_people_told_back"),
      step_flag<L::tag_off>("step_tag_off"),
      step_flag<L::lock_off>("step_lock_off"),
      step_flag<L::restored>("step_restored"),
      flag("work_in_order", "work began after all that has to come before it",
           [](M, S s) { return as_number(machine::step_of(s.lockout, L::work_begun).in_order); }),
      flag("lock_off_in_order", "the padlock came off after inspection and telling",
           [](M, S s) { return as_number(machine::step_of(s.lockout, L::lock_off).in_order); }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_floor_and_wear(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      flag("wears_heat_gloves", "heat-proof gloves on", worn<PpeItem::heat_gloves>),
      flag("wears_chemical_gloves", "chemical gloves on", worn<PpeItem::chemical_gloves>),
      flag("wears_eye_protection", "goggles on", worn<PpeItem::eye_protection>),
      flag("wears_face_shield", "face shield on", worn<PpeItem::face_shield>),
      flag("wears_apron", "apron on", worn<PpeItem::apron>),
      flag("wears_safety_shoes", "shoes that grip on", worn<PpeItem::safety_shoes>),
      flag("floor_wet", "enough on the floor to slip on",
           [](M, S s) { return as_number(machine::floor_wet(s)); }),
      flag("floor_sign_up", "the wet-floor sign stands", [](M, S s) { return as_number(s.floor_sign_up); }),
      number("bucket_kg", "in the wash bucket", [](M, S s) { return machine::bucket_kg(s.bucket); }),
      number("bucket_strength_norm", "active substance in the wash bucket",
             [](M, S s) { return machine::strength_norm(s.bucket); }),
      text("bucket_holds",
           "the chemical in the wash bucket: none, alkaline, acid, chlorine, or mixed (acid and chlorine)",
           bucket_holds),
      number("bucket_alkaline_norm", "active substance in a bucket of alkaline cleaner alone, else 0",
             [](M m, S s) { return strength_of(m, s, "alkaline"); }),
      number("bucket_acid_norm", "active substance in a bucket of acid alone, else 0",
             [](M m, S s) { return strength_of(m, s, "acid"); }),
      number("bucket_chlorine_norm", "active substance in a bucket of chlorine alone, else 0",
             [](M m, S s) { return strength_of(m, s, "chlorine"); }),
      number("bucket_irritant_norm", "at or above 1 the bucket irritates skin and eyes",
             [](M, S s) { return machine::irritant_index(s.bucket); }),
      number("bucket_corrosive_norm", "at or above 1 it burns them",
             [](M, S s) { return machine::corrosive_index(s.bucket); }),
      number("chlorine_gas_ppm", "gas from acid and chlorine in one bucket, in a small closed kitchen",
             [](M, S s) { return machine::chlorine_gas_ppm(s.bucket); }),
      flag("harm_live_terminals", "an electric shock", harmed<HarmId::live_terminals>),
      flag("harm_slipped", "a fall on a wet floor", harmed<HarmId::slipped>),
      flag("harm_chemical_gas", "poison gas from mixed chemicals", harmed<HarmId::chemical_gas>),
      flag("harm_chemical_burn", "skin or eyes burnt by a chemical", harmed<HarmId::chemical_burn>),
      flag("harm_hose_pressure", "sprayed by a hose under pressure", harmed<HarmId::hose_pressure>),
      flag("harm_valve_spring", "hit by the valve's spring", harmed<HarmId::valve_spring>),
      flag("harm_refrigerant", "hurt by refrigerant", harmed<HarmId::refrigerant>),
      flag("harm_colleague_hurt", "a colleague hurt", harmed<HarmId::colleague_hurt>),
  };
  list.insert(list.end(), more.begin(), more.end());
}

}  // namespace

void add_safe_work_signals(std::vector<Signal>& list) {
  add_locks(list);
  add_steps(list);
  add_floor_and_wear(list);
}

}  // namespace stirbench::signals
