#include "sim_core/training/guidance/fault_access.h"

#include <algorithm>

#include "sim_core/hands/handles.h"
#include "sim_core/hands/procedure.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/plant/plant.h"

namespace stirbench::training {

namespace {

using faults::AccessState;
using machine::Lockout;
using L = machine::LockoutStep;

constexpr double panel_wakes_s = 6.0;   // after the isolator (choice)
constexpr double cold_K = 3.0;          // so near its target the chiller may rest (choice)
constexpr double warmed_K = 8.0;        // so far above it there is something to chill (choice)
constexpr double warming_most_s = 420;  // one does not warm longer than that for it (choice)
constexpr double ripe_margin_s = 2.0;
constexpr double relay_cool_norm = 0.78;  // the strip lets itself be reset below that (content/ways)
constexpr double cutout_cool_degC = 125.0;

bool starts_machine(Spell spell) {
  return spell == Spell::stirring || spell == Spell::warming || spell == Spell::chilling;
}

// An alarm that Stop clears: latched, its cause gone.
bool can_be_cleared(const control::ControlState& controller) {
  const auto& alarms = controller.alarms;
  const auto index = [&](const control::Alarm& one) {
    return static_cast<control::AlarmId>(&one - alarms.data());
  };
  return control::any_latched(controller) && std::none_of(alarms.begin(), alarms.end(), [&](const auto& one) {
           return one.active && control::alarm_latches(index(one));
         });
}

bool face_covered(const machine::State& state) {
  return state.wearing.has(machine::PpeItem::face_shield) ||
         state.wearing.has(machine::PpeItem::eye_protection);
}

NextHand take_down_probes(const machine::FaultWork& work) {
  const bool placed = work.red >= 0 || work.black >= 0 || work.round >= 0 || work.point >= 0;
  if (placed)
    return do_hand(hands::probes_off(), "Take the probes off.", "Nothing stays on the terminals.",
                   "train.wiring");
  return {};
}

NextHand press_stop(std::string why) {
  return do_hand(hands::press("stop", 0.2), "Press Stop.", std::move(why), "panel.key.stop");
}

}  // namespace

NextHand do_hand(hands::Action hand, std::string now, std::string why, std::string point_at) {
  Advice out;
  out.kind = Advice::Kind::act;
  out.way = std::string(hand.hand()->name);
  out.now = std::move(now);
  out.why = std::move(why);
  out.point_at = std::move(point_at);
  out.hand = std::move(hand);
  return out;
}

NextHand wait_until(std::string now, std::string why) {
  Advice out;
  out.kind = Advice::Kind::wait;
  out.way = "wait";
  out.now = std::move(now);
  out.why = std::move(why);
  out.point_at = "speed.next";
  return out;
}

NextHand FaultAccess::at(AccessState wanted) const {
  switch (wanted) {
    case AccessState::isolated: return locked_out();
    case AccessState::open_isolated: return open_dead();
    case AccessState::open_live: return open_live();
    default: return closed_up();
  }
}

bool FaultAccess::own_lock_holds() const {
  const machine::Padlock& yours = state().lockout.yours;
  return isolated() && yours.on && !yours.on_neighbour && !yours.key_in;
}

bool FaultAccess::found_isolated() const { return isolated() && !grounds_.has_moved("isolated"); }

NextHand FaultAccess::hands_empty() const {
  const machine::FaultWork& work = state().work;
  if (work.gauges_on)
    return do_hand(hands::take_gauges_off(), "Take the gauge set off.", "It was read.", "train.wiring");
  if (NextHand next = take_down_probes(work)) return next;
  if (work.tool != machine::Instrument::none)
    return do_hand(hands::take_tool("none"), "Lay the instrument down.", "Both hands are wanted.",
                   "train.wiring");
  return {};
}

NextHand FaultAccess::panel_closed() const {
  if (!state().lockout.panel_off) return {};
  if (NextHand next = hands_empty()) return next;
  return do_hand(hands::put_panel_on(), "Put the panel back.", "Behind it are live parts.",
                 "hand.lockout.put_panel_on");
}

// Only on a machine that is dead.
NextHand FaultAccess::wires_back(const Wires& but) const {
  const auto& off = state().work.wires_off;
  const auto left = std::find_if(off.begin(), off.end(), [&but](std::int32_t one) {
    return one != 0 && std::find(but.begin(), but.end(), one) == but.end();
  });
  if (left == off.end()) return {};
  if (NextHand next = take_down_probes(state().work)) return next;
  if (NextHand next = open_dead()) return next;
  const auto index = static_cast<std::size_t>(*left - 1);
  const std::string number = std::to_string(moment_.machine.plant.circuit.wires[index].number);
  return do_hand(hands::put_wire_on(number), "Put wire " + number + " back.", "It was measured behind it.",
                 "train.wiring");
}

NextHand FaultAccess::closed_up() const {
  if (state().work.gauges_on) return hands_empty();
  if (NextHand next = wires_back()) return next;
  if (NextHand next = panel_closed()) return next;
  if (!isolated()) {
    const bool dark = state().control.mode == control::Mode::off;
    if (dark && grounds_.spell() == Spell::rest && grounds_.spell_s(state().tick) < panel_wakes_s &&
        grounds_.has_moved("isolated"))
      return wait_until("Wait a moment.", "The panel wakes after the isolator.");
    return {};
  }
  if (found_isolated() && !state().lockout.yours.on) return {};
  const Lockout& lockout = state().lockout;
  if (lockout.yours.tag)
    return do_hand(hands::remove_tag("you"), "Take your tag off.", "The work is done.",
                   "hand.lockout.remove_tag");
  if (lockout.yours.on)
    return do_hand(hands::remove_lock("you"), "Take your own padlock off.", "It holds the isolator off.",
                   "hand.lockout.remove_lock");
  if (lockout.colleagues.on)
    return wait_until("Wait until your colleague has taken the own lock off.",
                      "Nobody takes another one's lock off.");
  return do_hand(hands::isolate(false), "Switch the isolator on.", "What comes next needs the supply.",
                 "hand.isolate");
}

NextHand FaultAccess::locked_out() const {
  const Lockout& lockout = state().lockout;
  if (state().work.gauges_on) return hands_empty();
  if (!own_lock_holds()) {
    if (NextHand next = panel_closed()) return next;
    if (control::mode_moves(state().control.mode)) return press_stop("An isolator is not opened under load.");
    if (state().plant.flows.agitator_rpm > 1.0)
      return wait_until("Wait until the agitator rests.", "It runs on for a moment.");
    if (!isolated())
      return do_hand(hands::isolate(true), "Switch the isolator off.", "What follows is done without supply.",
                     "hand.isolate");
    if (lockout.yours.on && lockout.yours.on_neighbour)
      return do_hand(hands::remove_lock("you"), "Take your padlock off that isolator.",
                     "It is the other machine's.", "hand.lockout.remove_lock");
    if (!lockout.yours.on)
      return do_hand(hands::fit_lock("you"), "Hang your own padlock on.", "Nobody else switches it on.",
                     "hand.lockout.fit_lock");
    return do_hand(hands::take_key(), "Pocket the key.", "A key in the lock holds nothing.",
                   "hand.lockout.take_key");
  }
  if (!lockout.yours.tag)
    return do_hand(hands::fit_tag("you"), "Hang your tag on.", "It says who works here.",
                   "hand.lockout.fit_tag");
  return {};
}

NextHand FaultAccess::proved_dead() const {
  const Lockout& lockout = state().lockout;
  if (machine::verified_dead(lockout)) return {};
  const bool proved = machine::step_of(lockout, L::meter_proved).done;
  if (proved && !machine::step_of(lockout, L::dead_measured).done)
    return do_hand(hands::measure("terminals"), "Measure the supply terminals.",
                   "Dead is what was measured dead.", "hand.lockout.measure_terminals");
  return do_hand(hands::measure("known_source"), "Prove the meter on a source known to be live.",
                 "A broken meter shows nothing on live parts too.", "hand.lockout.measure_source");
}

NextHand FaultAccess::open_dead() const {
  if (NextHand next = locked_out()) return next;
  if (state().lockout.capacitor_V > machine::touch_V)
    return wait_until("Wait until the capacitor is empty.", "The label says: 60 s after isolating.");
  if (!state().lockout.panel_off)
    return do_hand(hands::take_panel_off(), "Take the panel off.", "What comes next is behind it.",
                   "hand.lockout.take_panel_off");
  return proved_dead();
}

NextHand FaultAccess::open_live() const {
  if (isolated()) {
    if (NextHand next = closed_up()) return next;
  }
  if (!face_covered(state()))
    return do_hand(hands::put_on("face_shield"), "Put the face shield on.",
                   "Live parts: eyes and face are covered.", "hand.clean.wear_face_shield");
  if (!state().lockout.panel_off)
    return do_hand(hands::take_panel_off(), "Take the panel off.", "What comes next is behind it.",
                   "hand.lockout.take_panel_off");
  return {};
}

// What stands open or pressed by the person's own doing.
NextHand FaultAccess::tidy() const {
  const plant::Fittings& f = state().plant.fittings;
  if (state().plant.safety.emergency_stop_in)
    return do_hand(hands::release_emergency_stop(), "Release the emergency stop.",
                   "It holds everything off. Releasing starts nothing.", "panel.emergency_stop");
  if (f.draw_opening_norm > 0.0 && grounds_.has_moved("draw_opening_norm"))
    return do_hand(hands::turn_draw_valve(0.0), "Shut the draw valve.", "An open valve empties the vat.",
                   "hand.draw_shut");
  if (f.rinse_on)
    return do_hand(hands::rinse(false), "Shut the rinse water.", "It fills the vat.", "hand.rinse");
  if (f.lid_open && grounds_.has_moved("lid_open"))
    return do_hand(hands::close_lid(), "Close the lid.", "Nothing starts while it is open.",
                   "hand.close_lid");
  if (f.shaft_cover_open && grounds_.has_moved("shaft_cover_open"))
    return do_hand(hands::close_shaft_cover(), "Put the shaft cover back.", "Nothing starts while it is off.",
                   "hand.close_shaft_cover");
  return {};
}

NextHand FaultAccess::site_breaker() const {
  const electrics::Network& network = moment_.machine.plant.circuit;
  for (std::size_t i = 0; i < network.parts.size(); ++i) {
    const int part = static_cast<int>(i);
    if (network.parts[i].kind != electrics::CircuitPartKind::breaker) continue;
    if (!state().plant.circuit.gear.is_tripped(part) || !(network.parts[i].residual_A > 0.0)) continue;
    return do_hand(hands::reset_breaker(network.parts[i].id), "Switch the site's breaker on again.",
                   "All is dark without it.", "hand.fault.reset." + network.parts[i].id);
  }
  return {};
}

NextHand FaultAccess::breakers_on() const {
  if (state().plant.circuit.gear.tripped == 0U) return {};
  if (NextHand next = site_breaker()) return next;
  for (const auto& part : moment_.machine.plant.circuit.parts) {
    if (part.kind != electrics::CircuitPartKind::breaker) continue;
    if (!state().plant.circuit.gear.is_tripped(moment_.machine.plant.circuit.part(part.id))) continue;
    if (NextHand next = open_dead()) return next;
    return do_hand(hands::reset_breaker(part.id), "Switch breaker " + part.id + " on again.",
                   "It tripped; its cause is put right.", "hand.fault.reset." + part.id);
  }
  return {};
}

NextHand FaultAccess::relays_back() const {
  const plant::PlantState& plant = state().plant;
  if (plant.overload_tripped) {
    if (plant.motor_heat_norm > relay_cool_norm)
      return wait_until("Wait until the overload relay has cooled.", "Hot, it does not let itself be reset.");
    return do_hand(hands::reset_overload(), "Reset the overload relay.", "It holds the drive off.",
                   "hand.reset_overload");
  }
  if (!plant.cutout_tripped) return {};
  if (plant.well_wall_degC > cutout_cool_degC)
    return wait_until("Wait until the heated wall has cooled.", "Hot, the cut-out is not to be reset.");
  return do_hand(hands::reset_cutout(), "Reset the heater cut-out.", "It holds the heat off.",
                 "hand.reset_cutout");
}

NextHand FaultAccess::press(std::string_view key) const {
  if (NextHand next = tidy()) return next;
  if (NextHand next = site_breaker()) return next;
  if (NextHand next = relays_back()) return next;
  if (can_be_cleared(state().control)) return press_stop("The alarm's cause is gone; Stop clears it.");
  const std::string name = key == "heat" ? "Heat" : key == "chill" ? "Chill" : "Stir";
  return do_hand(hands::press(std::string(key), 0.2), "Press " + name + ".", "It shows what it does then.",
                 "panel.key." + std::string(key));
}

// What is cold already gives the chiller nothing to do.
NextHand FaultAccess::warmed() const {
  const double over_K = plant::probe_reading_degC(state().plant) - state().control.chill_target_degC;
  const bool warming = state().control.mode == control::Mode::heating;
  if (warming && over_K < warmed_K && grounds_.spell_s(state().tick) < warming_most_s)
    return wait_until("Let it warm up a little.", "What is cold already gives the chiller nothing to do.");
  if (!warming && over_K < cold_K) {
    if (control::mode_moves(state().control.mode)) return press_stop("Another key comes next.");
    return press("heat");
  }
  return {};
}

NextHand FaultAccess::told(Spell wanted, double ripe_s) const {
  const Spell spell = grounds_.spell();
  if (!starts_machine(wanted)) {
    const bool rests = spell == Spell::rest || spell == Spell::stopped || spell == Spell::isolated;
    return rests ? NextHand() : press_stop("This is looked at while nothing is asked of it.");
  }
  if (spell == wanted) {
    if (grounds_.spell_s(state().tick) < ripe_s + ripe_margin_s)
      return wait_until("Watch and listen.", "It has to run a while before it tells.");
    return {};
  }
  if (wanted == Spell::chilling) {
    if (NextHand next = warmed()) return next;
  }
  // What did not get warm in that time does not heat: then it is tried cold.
  const bool tried_to_warm = wanted == Spell::chilling && spell == Spell::warming;
  if (spell != Spell::rest && spell != Spell::stopped && !tried_to_warm)
    return press_stop("Another key comes next.");
  return press(wanted == Spell::chilling ? "chill" : wanted == Spell::warming ? "heat" : "stir");
}

}  // namespace stirbench::training
