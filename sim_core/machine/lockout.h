#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "sim_core/faults/who.h"
#include "sim_core/machine/fault_work.h"

// Lock-out and tag-out as people do it: padlocks and tags by person, stored energies, the meter, the steps
// done so far. The order is that of 29 CFR 1910.147(d) (prepare, stop, isolate, lock and tag, release stored
// energy, verify) and (e) (inspect, notify, each person removes their own lock, restore), with notifying
// people beforehand ((c)(9), from memory) and proving the meter before and after (common practice). A
// simulated machine to practise on: the site's own procedure and licensed people come first.
namespace stirbench::machine {

struct Machine;
struct State;

enum class StoredEnergy : std::uint8_t { heat, hose, spring, capacitor, refrigerant, count };
enum class PpeItem : std::uint8_t {
  heat_gloves,
  chemical_gloves,
  eye_protection,
  face_shield,
  apron,
  safety_shoes,
  count
};
enum class WorkPlace : std::uint8_t { none, vat, panel };

inline constexpr std::size_t energy_count = static_cast<std::size_t>(StoredEnergy::count);
inline constexpr std::size_t ppe_count = static_cast<std::size_t>(PpeItem::count);

// In the order of the procedure.
enum class LockoutStep : std::uint8_t {
  energies_read,  // which stored energies there are and how each is controlled
  people_told,
  stopped,  // in the orderly way, with the Stop key
  isolated,
  locked,  // own padlock
  key_taken,
  tagged,
  heat_gone,
  hose_gone,
  spring_eased,
  capacitor_gone,
  refrigerant_left,
  start_tried,  // a start key was pressed and nothing happened, with nothing but the isolator to hold it
  panel_off,
  meter_proved,  // on a source known to be live
  dead_measured,
  meter_proved_again,
  work_begun,
  work_ended,
  inspected,  // tools out, guards and panel back
  people_told_back,
  tag_off,
  lock_off,
  restored,
  count
};
inline constexpr std::size_t lockout_step_count = static_cast<std::size_t>(LockoutStep::count);
std::string_view lockout_step_key(LockoutStep step);    // "meter_proved"
std::string_view lockout_step_title(LockoutStep step);  // "Meter proved on a live source"

struct StepDone {
  bool done = false;
  bool in_order = false;  // everything that has to come before it had been done
  std::uint64_t tick = 0;
};

struct Padlock {
  bool on = false;
  bool tag = false;
  bool key_in = false;        // the key was left in it
  bool borrowed = false;      // not your own: another person has its key
  bool on_neighbour = false;  // it is on the isolator of the neighbouring machine
};

// What a lesson may set up around the machine; constant during a run.
struct Scenario {
  double second_person_s = -1.0;  // another person comes by this long after work began; negative: nobody does
  double colleague_work_s =
      0.0;  // a colleague adds their lock after yours and works this long; 0: you are alone
  bool isolator_pole_stuck = false;  // one pole stays closed when the isolator is turned off
  bool meter_broken = false;         // shows 0 V everywhere
  double power_cut_at_s = -1.0;      // the supply fails then; negative: never
  double power_cut_for_s = 0.0;      // and comes back so long after
  faults::Who trade =
      faults::Who::technician;  // what the person has learnt: which repairs and measurements are theirs
  double plan_min =
      0.0;  // minutes that the fault guide's own way to this fault and its repair takes; 0: not known
  friend bool operator==(const Scenario&, const Scenario&) = default;
};

struct Lockout {
  Scenario situation;
  Padlock yours;
  Padlock colleagues;
  bool neighbour_isolated = false;  // the neighbouring machine, whose isolator looks the same
  bool neighbour_last = false;      // the isolator turned last was the neighbour's
  bool panel_off = false;
  bool valve_out = false;  // the draw valve taken out for cleaning
  bool spring_eased = false;
  double capacitor_V = 0.0;  // on the motor's run capacitor
  double meter_V = 0.0;      // last reading
  WorkPlace working_at = WorkPlace::none;
  bool began = false;  // work has begun: the second person's time runs
  std::uint64_t began_tick = 0;
  bool second_came = false;
  bool colleague_working = false;
  bool colleague_done = false;
  std::uint64_t colleague_until_tick = 0;
  double supply_before_norm = 0.0;  // supply before the power cut that is under way; 0: there is none
  std::array<StepDone, lockout_step_count> steps{};
};

std::string_view ppe_key(PpeItem item);
std::string_view energy_key(StoredEnergy energy);

// True voltage between two poles of the supply terminals, behind the isolator [V]. With one pole stuck it is
// that pole's voltage to earth, U / sqrt(3).
double terminals_V(const Machine& machine, const State& state);
// The same behind the contactors, at the terminals of one load: live only while its contactor is closed or
// welded and the emergency stop allows it. An emergency stop makes these dead, but not the supply terminals.
enum class LoadTerminals : std::uint8_t { drive, heater };
double load_terminals_V(const Machine& machine, const State& state, LoadTerminals at);
// Whether a padlock really keeps this machine's isolator off: it is on it, and nobody else can get its key.
bool isolator_held(const Lockout& lockout);
bool any_lock_on(const Lockout& lockout);

// Share of a stored energy that remains, 0 .. 1: heat by the hottest part between 48 and 85 degC, pressure
// relative to 1 bar, the capacitor relative to the peak of the supply. Refrigerant is never released: 0 while
// its circuit is closed.
double energy_left_norm(const Machine& machine, const State& state, StoredEnergy energy);
// 1 when every stored energy is gone, 0 when the greatest is at its full value.
double energies_released_norm(const Machine& machine, const State& state);
// "71 °C on the hottest part" and the like.
std::string energy_words(const Machine& machine, const State& state, StoredEnergy energy);
// Hottest part within reach [degC].
double hottest_part_degC(const State& state);

// Known source, terminals, known source again, each with the required reading, and nothing switched since.
bool verified_dead(const Lockout& lockout);
const StepDone& step_of(const Lockout& lockout, LockoutStep step);

inline constexpr double released_degC = 48.0;  // ISO 13732-1, metal touched for 10 min (from memory)
inline constexpr double released_bar = 0.3;    // choice: above this a hose still spurts
inline constexpr double released_V = 60.0;     // IEC 60204-1, 6.2.4: residual voltage (from memory)
inline constexpr double touch_V = 50.0;        // extra-low voltage, alternating (IEC 61140, from memory)
// Run capacitor of 20 uF with a bleeder of 1 MOhm: time constant R C. Invented; the label on the cover says
// how long to wait.
inline constexpr double capacitor_tau_s = 20.0;
inline constexpr double capacitor_label_s = 60.0;

}  // namespace stirbench::machine
