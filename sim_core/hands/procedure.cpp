#include "sim_core/hands/procedure.h"

// Which step of the procedure is done, and whether what must come before it was.
namespace stirbench::hands {

namespace {

using machine::Lapse;
using machine::Lockout;
using machine::lockout_step_count;
using machine::StepDone;
using machine::WorkPlace;
using LockoutStep = machine::LockoutStep;
using L = LockoutStep;

constexpr std::uint32_t bit(L step) { return 1U << static_cast<unsigned>(step); }

constexpr std::uint32_t held = bit(L::isolated) | bit(L::locked);
constexpr std::uint32_t before_work = bit(L::energies_read) | bit(L::people_told) | bit(L::stopped) | held |
                                      bit(L::key_taken) | bit(L::tagged) | bit(L::heat_gone) |
                                      bit(L::hose_gone) | bit(L::start_tried);
constexpr std::uint32_t before_panel =
    bit(L::capacitor_gone) | bit(L::meter_proved) | bit(L::dead_measured) | bit(L::meter_proved_again);

std::uint32_t wanted_before(L step, WorkPlace place) {
  switch (step) {
    case L::energies_read:
    case L::people_told:
    case L::stopped:
    case L::meter_proved: return 0;
    case L::isolated: return bit(L::stopped);
    case L::locked:
    case L::tagged: return bit(L::isolated);
    case L::key_taken: return bit(L::locked);
    case L::heat_gone:
    case L::hose_gone:
    case L::spring_eased:
    case L::capacitor_gone:
    case L::refrigerant_left:
    case L::start_tried:
    case L::panel_off: return held;
    case L::dead_measured: return held | bit(L::panel_off) | bit(L::meter_proved);
    case L::meter_proved_again: return bit(L::dead_measured);
    case L::work_begun: return place == WorkPlace::panel ? before_work | before_panel : before_work;
    case L::work_ended: return bit(L::work_begun);
    case L::inspected: return bit(L::work_ended);
    case L::people_told_back: return bit(L::inspected);
    case L::tag_off:
    case L::lock_off: return bit(L::inspected) | bit(L::people_told_back);
    case L::restored: return bit(L::inspected) | bit(L::people_told_back) | bit(L::lock_off);
    case L::count: break;
  }
  return 0;
}

std::uint32_t done_bits(const Lockout& lockout) {
  std::uint32_t bits = 0;
  for (std::size_t i = 0; i < lockout_step_count; ++i) bits |= lockout.steps[i].done ? 1U << i : 0U;
  return bits;
}

}  // namespace

void mark(State& state, LockoutStep step) {
  Lockout& lockout = state.lockout;
  StepDone& entry = lockout.steps[static_cast<std::size_t>(step)];
  const std::uint32_t wanted = wanted_before(step, lockout.working_at);
  const bool in_order = (done_bits(lockout) & wanted) == wanted;
  if (entry.done && entry.in_order) return;
  entry = {true, in_order, state.tick};
}

void unmark(State& state, LockoutStep step) { state.lockout.steps[static_cast<std::size_t>(step)] = {}; }

void work_began(State& state) {
  if (state.lockout.began) return;
  state.lockout.began = true;
  state.lockout.began_tick = state.tick;
}

void isolator_turned_off(State& state) {
  Lockout& lockout = state.lockout;
  // A finished job is behind us: what was done for it does not count for the next one.
  const StepDone restored = step_of(lockout, L::restored);
  if (restored.done) {
    for (StepDone& entry : lockout.steps) {
      if (entry.tick <= restored.tick) entry = {};
    }
  }
  if (!control::mode_moves(state.control.mode) && state.plant.flows.agitator_rpm < 5.0)
    mark(state, L::stopped);
  else
    unmark(state, L::stopped);
  mark(state, L::isolated);
}

void isolator_turned_on(State& state) {
  const bool job_done = step_of(state.lockout, L::lock_off).in_order;
  mark(state, L::restored);
  state.work.dead_pairs = 0;
  if (job_done) return;
  // What was proved before says nothing about a machine that had its supply back.
  for (const L step : {L::isolated, L::stopped, L::start_tried, L::capacitor_gone, L::dead_measured,
                       L::meter_proved, L::meter_proved_again, L::restored}) {
    unmark(state, step);
  }
}

// What keeps the machine from starting besides its isolator: a try then proves nothing about the isolator.
static bool held_otherwise(const plant::PlantState& plant) {
  return plant.fittings.lid_open || plant.fittings.shaft_cover_open || plant.safety.emergency_stop_in;
}

void note_key(State& state, control::Key key) {
  if (key == control::Key::stop) mark(state, L::stopped);
  // Tried with the supply gone and nothing that answers.
  else if (!state.plant.fittings.isolator_on && !control::mode_moves(state.control.mode) &&
           !held_otherwise(state.plant))
    mark(state, L::start_tried);
}

void count_lapse(State& state, Lapse lapse) { ++state.work.lapses[static_cast<std::size_t>(lapse)]; }

void note_lapses_in_panel(State& state, bool work) {
  const bool isolated = !state.plant.fittings.isolator_on;
  if (isolated && !isolator_held(state.lockout)) count_lapse(state, Lapse::no_lock);
  if (work && !verified_dead(state.lockout)) count_lapse(state, Lapse::not_proved);
}

}  // namespace stirbench::hands
