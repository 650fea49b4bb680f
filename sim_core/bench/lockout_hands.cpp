#include <cmath>

#include "sim_core/bench/lockout_parts.h"
#include "sim_core/bench/number_words.h"

// What hands do to locks, tags, covers and the meter.
namespace stirbench::bench {

namespace {

using K = ActionKind;
using L = LockoutStep;

Padlock& lock_of(Lockout& lockout, const Action& action) {
  return action.name == "colleague" ? lockout.colleagues : lockout.yours;
}
const Padlock& lock_of(const Lockout& lockout, const Action& action) {
  return action.name == "colleague" ? lockout.colleagues : lockout.yours;
}

std::string volts(double value_V) { return with_unit(value_V, 0, "V"); }

void begin(State& state) {
  if (state.lockout.began) return;
  state.lockout.began = true;
  state.lockout.began_tick = state.tick;
}

// Empty, or why the name is none that the action takes.
std::string wrong_name(const Action& action) {
  for (const ActionParameter& parameter : action_entry(action.kind).parameters) {
    const auto known = action_choices(parameter.name);
    if (known.empty() || choice_index(parameter.name, action.name) >= 0) continue;
    std::string list;
    for (const std::string_view word : known) list += (list.empty() ? "" : ", ") + std::string(word);
    return std::string(parameter.name) + " is one of: " + list + ".";
  }
  return {};
}

std::string why_not_lock(const State& state, const Action& action) {
  const Lockout& lockout = state.lockout;
  const Padlock& lock = lock_of(lockout, action);
  const bool off = lockout.neighbour_last ? lockout.neighbour_isolated : !state.plant.fittings.isolator_on;
  switch (action.kind) {
    case K::fit_lock:
      if (lock.on) return "That padlock is already on.";
      return off ? "" : "A padlock goes on an isolator that is off. Turn it off first.";
    case K::fit_tag:
      if (lock.tag) return "That tag is already on.";
      return off ? "" : "A tag goes on an isolator that is off. Turn it off first.";
    case K::remove_lock: return lock.on ? "" : "That padlock is not on.";
    case K::remove_tag: return lock.tag ? "" : "That tag is not on.";
    default: break;  // take_key
  }
  if (!lockout.yours.on) return "Your padlock is not on.";
  return lockout.yours.key_in ? "" : "You have the key in your pocket already.";
}

std::string why_not_release(const Machine& machine, const State& state, const Action& action) {
  const auto energy = static_cast<Energy>(choice_index("which", action.name));
  if (energy == Energy::hose && state.plant.flows.agitator_rpm > 5.0) return "The pump still turns and would press on.";
  if (energy == Energy::hose && state.plant.fittings.draw_opening_norm > 0.0) return "Shut the draw valve first.";
  if (energy == Energy::capacitor && terminals_V(machine, state) > touch_V) {
    return "It is fed: as long as there is supply, nothing can be let out.";
  }
  const bool waits = energy == Energy::heat || energy == Energy::capacitor;
  if (!waits || energy_left_norm(machine, state, energy) <= 0.0) return "";
  return "Still " + energy_words(machine, state, energy) +
         (energy == Energy::heat ? ". Let it cool below 48 °C." : ". The label says: wait 60 s after isolating.");
}

std::string why_not_covers(const State& state, const Action& action) {
  const Lockout& lockout = state.lockout;
  const plant::Fittings& fittings = state.plant.fittings;
  switch (action.kind) {
    case K::take_panel_off: return lockout.panel_off ? "The panel is already off." : "";
    case K::put_panel_on: return lockout.panel_off ? "" : "The panel is already on.";
    case K::begin_work:
      if (action.name == "panel") return lockout.panel_off ? "" : "The panel is on.";
      return fittings.lid_open ? "" : "The lid is closed.";
    case K::end_work: return lockout.working_at != WorkPlace::none ? "" : "Your hands are not in the machine.";
    case K::inspect:
      if (lockout.panel_off) return "The panel is still off.";
      if (fittings.lid_open) return "The lid is still open.";
      if (fittings.shaft_cover_open) return "The shaft cover is still off.";
      return lockout.valve_out ? "The draw valve is still out." : "";
    case K::take_valve_out:
      if (lockout.valve_out) return "The draw valve is already out.";
      if (fittings.hose != plant::HoseEnd::none) return "Take the hose off first.";
      return state.plant.product.total_kg() > 0.1 ? "The vat is not empty; it would all run on to the floor." : "";
    default: return lockout.valve_out ? "" : "The draw valve is already in.";  // put_valve_back
  }
}

std::string measure(const Machine& machine, State& state, const Action& action) {
  Lockout& lockout = state.lockout;
  const bool terminals = action.name == "terminals";
  const double fed_V = terminals_V(machine, state);
  const double behind_V = fed_V > 0.0 ? fed_V : lockout.capacitor_V;  // what is left there when nothing feeds it
  const double there_V = terminals ? behind_V : machine.plant.supply_V;
  lockout.meter_V = lockout.situation.meter_broken ? 0.0 : there_V;
  const bool live = lockout.meter_V > touch_V;
  if (action.name == "drive_terminals" || action.name == "heater_terminals") {
    // Behind a contactor: dead there says nothing about the supply, so it is no step of the procedure.
    const auto at = action.name == "drive_terminals" ? LoadTerminals::drive : LoadTerminals::heater;
    lockout.meter_V = lockout.situation.meter_broken ? 0.0 : load_terminals_V(machine, state, at);
    return "The meter shows " + volts(lockout.meter_V) + " behind the contactor.";
  }
  if (terminals) {
    note_terminals_reading(state, live);
    return "The meter shows " + volts(lockout.meter_V) + " at the terminals." + (live ? " They are live: stop here." : "");
  }
  const std::string judged = note_source_reading(state, live);
  return "The meter shows " + volts(lockout.meter_V) + " on a source known to be live. " + judged;
}

void release(State& state, const Action& action) {
  switch (static_cast<Energy>(choice_index("which", action.name))) {
    case Energy::heat: mark(state, L::heat_gone); break;
    case Energy::hose: state.plant.freezer.line_bar = 0.0; mark(state, L::hose_gone); break;
    case Energy::spring: state.lockout.spring_eased = true; mark(state, L::spring_eased); break;
    case Energy::capacitor: mark(state, L::capacitor_gone); break;
    case Energy::refrigerant: mark(state, L::refrigerant_left); break;
    case Energy::count: break;
  }
}

std::string locks(State& state, const Action& action) {
  Lockout& lockout = state.lockout;
  Padlock& lock = lock_of(lockout, action);
  const bool own = &lock == &lockout.yours;
  switch (action.kind) {
    case K::fit_lock:
      lock.on = true;
      lock.key_in = own;
      lock.borrowed = !own;
      lock.on_neighbour = lockout.neighbour_last;
      if (own && !lock.on_neighbour) mark(state, L::locked);
      return own ? "" : "It is not your padlock, and you do not have its only key.";
    case K::take_key:
      lock.key_in = false;
      mark(state, L::key_taken);
      break;
    case K::fit_tag:
      lock.tag = true;
      if (own && !lockout.neighbour_last) mark(state, L::tagged);
      break;
    case K::remove_tag:
      lock.tag = false;
      if (own) mark(state, L::tag_off);
      break;
    default:  // remove_lock
      lock = {.tag = lock.tag};
      if (!own) return "You cut off a padlock that is not yours.";
      if (!step_of(lockout, L::inspected).done) {
        unmark(state, L::locked);
        unmark(state, L::key_taken);
      }
      mark(state, L::lock_off);
  }
  return {};
}

}  // namespace

bool is_safe_work(ActionKind kind) { return kind >= K::read_energies && kind <= K::open_refrigerant; }

std::string why_not_safe_work(const Machine& machine, const State& state, const Action& action) {
  std::string wrong = wrong_name(action);
  if (!wrong.empty()) return wrong;
  switch (action.kind) {
    case K::fit_lock:
    case K::take_key:
    case K::fit_tag:
    case K::remove_tag:
    case K::remove_lock: return why_not_lock(state, action);
    case K::isolate_neighbour:
      if (action.on == !state.lockout.neighbour_isolated) return "";
      return action.on ? "That isolator is already off." : "That isolator is already on.";
    case K::release_energy: return why_not_release(machine, state, action);
    case K::measure: return action.name != "known_source" && !state.lockout.panel_off ? "The panel is on." : "";
    case K::read_energies:
    case K::tell_people:
    case K::open_refrigerant: return "";
    default: return why_not_covers(state, action);
  }
}

std::string why_not_beside(const State& state, const Action& action) {
  const Lockout& lockout = state.lockout;
  if (state.injured) return "This run has stopped: " + std::string(harm_title(state.injury)) + ".";
  if (lockout.working_at != WorkPlace::none && action.kind != K::end_work) {
    return "Your hands are in the machine. Take them out first.";
  }
  if (action.kind == K::isolate && !action.on) {
    for (const std::int32_t off : state.work.wires_off) {
      if (off != 0) return "Wires are off their terminals. Put them back first.";
    }
    if (lockout.yours.on && !lockout.yours.on_neighbour) return "Your padlock holds the isolator. Take it off first.";
    if (lockout.colleagues.on && !lockout.colleagues.on_neighbour) {
      return "Your colleague's padlock holds the isolator. Only they take it off.";
    }
  }
  const bool needs_valve =
      action.kind == K::turn_draw_valve || action.kind == K::fit_hose || action.kind == K::push_hose_on || action.kind == K::pour || action.kind == K::rinse;
  if (lockout.valve_out && needs_valve) return "The draw valve is out. Put it back first.";
  return {};
}

std::string do_safe_work(const Machine& machine, State& state, const Action& action) {
  Lockout& lockout = state.lockout;
  switch (action.kind) {
    case K::read_energies: mark(state, L::energies_read); break;
    case K::tell_people: mark(state, action.name == "lockout" ? L::people_told : L::people_told_back); break;
    case K::isolate_neighbour:
      lockout.neighbour_isolated = action.on;
      lockout.neighbour_last = true;
      if (action.on) begin(state);
      break;
    case K::release_energy: release(state, action); return energy_words(machine, state, static_cast<Energy>(choice_index("which", action.name)));
    case K::measure: return measure(machine, state, action);
    case K::take_panel_off:
      lockout.panel_off = true;
      begin(state);
      mark(state, L::panel_off);
      break;
    case K::put_panel_on: lockout.panel_off = false; break;
    case K::begin_work:
      lockout.working_at = action.name == "panel" ? WorkPlace::panel : WorkPlace::vat;
      begin(state);
      mark(state, L::work_begun);
      break;
    case K::end_work:
      lockout.working_at = WorkPlace::none;
      mark(state, L::work_ended);
      break;
    case K::inspect: mark(state, L::inspected); break;
    case K::take_valve_out:
      lockout.valve_out = true;
      begin(state);
      break;
    case K::put_valve_back:
      lockout.valve_out = false;
      lockout.spring_eased = false;
      break;
    case K::open_refrigerant: break;
    default: return locks(state, action);
  }
  return {};
}

void note_action(State& state, const Action& action) {
  Lockout& lockout = state.lockout;
  if (action.kind == K::isolate) {
    lockout.neighbour_last = false;
    if (action.on) {
      begin(state);
      isolator_turned_off(state);
    } else {
      isolator_turned_on(state);
    }
  }
  if (action.kind != K::press) return;
  if (action.name == "stop") mark(state, L::stopped);
  const bool starts = action.name != "stop";
  // Tried with the supply gone and nothing that answers.
  if (starts && !state.plant.fittings.isolator_on && !control::mode_moves(state.control.mode)) mark(state, L::start_tried);
}

}  // namespace stirbench::bench
