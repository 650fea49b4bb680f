#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sim_core/diagnosis/next_check.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/plant/plant.h"
#include "sim_core/training/lesson_run.h"

// A technician at the simulated machine: brings it into the access state that a check needs, by the book, and
// makes the check by hands that a person has. Does what somebody decides: the fault guide, an order learnt,
// or chance.
namespace technician {

using namespace stirbench;
using diagnosis::Model;
using faults::AccessState;
using training::Spell;
using training::Taking;

inline std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t colon = std::min(text.find(':', at), text.size());
    out.emplace_back(text.substr(at, colon - at));
    at = colon + 1;
  }
  return out;
}

class Technician {
 public:
  explicit Technician(training::LessonRun& run) : run_(run) {}

  const machine::State& state() const { return run_.state(); }
  const machine::Machine& machine() const { return run_.session().machine(); }
  const training::Grounds& grounds() const { return *run_.scorer().grounds(); }
  const training::GroundsGuide& guide() const { return grounds().guide(); }
  faults::Who trade() const { return state().lockout.situation.trade; }

  void wait(double seconds) {
    const auto until = state().tick + static_cast<std::uint64_t>(seconds * machine::ticks_per_second);
    while (state().tick < until && !run_.over()) run_.step();
  }

  // Does it where it can be done, and lets two seconds go by.
  bool act(const hands::Action& action) {
    if (run_.over() || !hands::why_not(machine(), state(), action).empty()) return false;
    run_.act(action);
    wait(2.0);
    return true;
  }

  void press(const std::string& key) {
    act(hands::press(key, 0.2));
    wait(1.0);
  }

  bool panel_off() const { return state().lockout.panel_off; }
  bool isolated() const { return !state().plant.fittings.isolator_on; }

  void close_up() {
    lay_down();
    if (panel_off()) act(hands::put_panel_on());
    if (!isolated() || !locked_by_me()) return;
    act(hands::remove_tag("you"));
    act(hands::remove_lock("you"));
    act(hands::isolate(false));
    wait(5.0);
    press("stop");
    spell_ = Spell::stopped;
  }

  void lock_out() {
    if (locked_by_me()) return;
    lay_down();
    if (panel_off()) act(hands::put_panel_on());
    press("stop");
    act(hands::isolate(true));
    act(hands::fit_lock("you"));
    act(hands::take_key());
    act(hands::fit_tag("you"));
    spell_ = Spell::isolated;
  }

  void open_dead() {
    if (locked_by_me() && panel_off()) return;
    lock_out();
    wait(77.0);  // the capacitor
    act(hands::take_panel_off());
    for (const char* at : {"known_source", "terminals", "known_source"}) act(hands::measure(at));
  }

  void open_live() {
    if (!isolated() && panel_off()) return;
    close_up();
    act(hands::put_on("face_shield"));
    act(hands::take_panel_off());
  }

  void go_to(AccessState wanted) {
    switch (wanted) {
      case AccessState::isolated: return lock_out();
      case AccessState::open_isolated: return open_dead();
      case AccessState::open_live: return open_live();
      default:
        if (locked_by_me() || panel_off()) close_up();
    }
  }

  // Tells the machine what the check looks at, and waits until it shows.
  void bring_about(Spell wanted, double ripe_s) {
    if (wanted == Spell::rest) {
      if (spell_ != Spell::rest && spell_ != Spell::stopped && spell_ != Spell::isolated) {
        press("stop");
        spell_ = Spell::stopped;
      }
      return;
    }
    // What is cold already has to be warmed, so that the chiller has something to do.
    if (wanted == Spell::chilling &&
        plant::probe_reading_degC(state().plant) < state().control.chill_target_degC + 3.0) {
      press("stop");
      press("heat");
      spell_ = Spell::warming;
      wait(120.0);
    }
    if (spell_ != wanted) {
      if (spell_ != Spell::stopped && spell_ != Spell::rest) press("stop");
      since_ = state().tick;
      press(wanted == Spell::chilling ? "chill" : wanted == Spell::warming ? "heat" : "stir");
      spell_ = wanted;
    }
    const double gone_s = static_cast<double>(state().tick - since_) * machine::tick_s;
    wait(std::max(2.0, ripe_s + 2.0 - gone_s));
  }

  static bool can_bring_about(Spell spell) {
    return spell == Spell::rest || spell == Spell::stirring || spell == Spell::warming ||
           spell == Spell::chilling;
  }

  // Makes a check of the guide; false when it cannot be made here.
  bool make(std::size_t question) {
    const training::GroundsQuestion& how = guide().questions()[question];
    const diagnosis::Check& check = guide().model().check(question);
    if (!faults::may_do(trade(), check.who) || !can_bring_about(how.spell)) return false;
    if (how.taking == Taking::meter) return measure_all(how, check);
    if (how.taking == Taking::sample && how.spell != Spell::rest) return false;
    go_to(how.taking == Taking::check ? check.needs : AccessState::running);
    bring_about(how.spell, how.ripe_s);
    switch (how.taking) {
      case Taking::check: return act(hands::make_check(check.id));
      case Taking::display: return how.spell != Spell::rest;
      case Taking::sample:
        return act(hands::open_lid()) && act(hands::take_sample()) && act(hands::close_lid());
      case Taking::gauges: {
        act(hands::take_tool("gauge_set"));
        const bool done = act(hands::connect_gauges());
        wait(10.0);
        act(hands::look_at_reading());
        act(hands::take_gauges_off());
        lay_down();
        return done;
      }
      case Taking::thermometer: return hold_thermometer(how);
      default: return false;
    }
  }

  // The reading between two terminals, as it stands.
  bool measure(const std::string& function, const std::string& a, const std::string& b) {
    act(hands::take_tool(function == "insulation" ? "insulation_tester" : "multimeter"));
    if (function != "insulation") act(hands::set_meter(function));
    const bool done = act(hands::red_probe(a)) && act(hands::black_probe(b));
    act(hands::probes_off());
    return done;
  }

  // Names it, has it repaired by who may, and gives the machine back.
  void name(const std::string& cause) { act(hands::name_cause(cause)); }
  void mend(const std::string& cause) {
    const faults::Fault& fault = machine().faults[static_cast<std::size_t>(machine().fault_index(cause))];
    if (!faults::may_do(trade(), fault.who)) {
      hand_over(cause);
      return;
    }
    go_to(fault.repair_needs);
    if (fault.kind == faults::FaultKind::misuse)
      put_right(fault);
    else
      act(hands::repair(cause));
  }
  // With all that was found in the report; the colleague is waited for.
  void hand_over(const std::string& cause) {
    lock_out();
    if (!act(hands::hand_off(cause))) return;
    while (!run_.over() && state().work.hand_over.stage != machine::HandOverStage::given_back) wait(10.0);
  }
  // What had failed runs for a minute and more; says so.
  void prove(const std::string& key) {
    if (state().plant.circuit.gear.tripped != 0U) {
      open_dead();
      for (const auto& part : machine().plant.circuit.parts) act_if(hands::reset_breaker(part.id), part.kind);
    }
    act(hands::reset_overload());
    close_up();
    press("stop");
    act(hands::reset_overload());
    press("stop");
    if (key == "chill") {  // what is cold already would not show it
      press("heat");
      wait(90.0);
      press("stop");
    }
    press(key);
    wait(64.0);
    act(hands::prove());
    spell_ = Spell::other;
  }

 private:
  bool locked_by_me() const { return isolated() && machine::isolator_held(state().lockout); }
  void act_if(const hands::Action& action, electrics::CircuitPartKind kind) {
    if (kind == electrics::CircuitPartKind::breaker) act(action);
  }
  void lay_down() {
    act(hands::probes_off());
    act(hands::take_tool("none"));
  }

  void put_right(const faults::Fault& fault) {
    for (const faults::Change& change : fault.changes) {
      if (change.target == faults::FaultTarget::isolator_off) {
        act(hands::tell_people("restart"));
        act(hands::isolate(false));
        wait(5.0);
      }
      if (change.target == faults::FaultTarget::lid_open) act(hands::close_lid());
      if (change.target == faults::FaultTarget::cover_open) act(hands::close_shaft_cover());
    }
  }

  bool hold_thermometer(const training::GroundsQuestion& how) {
    act(hands::take_tool("contact_thermometer"));
    bool done = false;
    for (const auto& source : how.reading.sources()) {
      if (source.name.starts_with("contact:"))
        done = act(hands::press_thermometer(source.name.substr(8))) || done;
      if (source.name == "part:own_air_K") done = act(hands::press_thermometer("condenser_air_on")) || done;
    }
    lay_down();
    return done;
  }

  bool measure_all(const training::GroundsQuestion& how, const diagnosis::Check& check) {
    go_to(check.needs);
    if (check.needs == AccessState::open_live) bring_about(how.spell, how.ripe_s);
    bool done = false;
    for (const auto& source : how.reading.sources()) {
      const std::vector<std::string> word = words_of(source.name);
      if (word.size() == 4) {
        std::vector<std::string> off;
        if (word[0] == "unplugged") off = unplug({word[2], word[3]});
        done = measure(word[1], word[2], word[3]) || done;
        for (const std::string& wire : off) act(hands::put_wire_on(wire));
      }
      if (word.size() == 3 && word[0] == "insulation") done = measure("insulation", word[1], word[2]) || done;
      if (word.size() == 2 && word[0] == "clamp") {
        act(hands::take_tool("clamp_meter"));
        done = act(hands::clamp_round(word[1])) || done;
        act(hands::probes_off());
      }
    }
    return done;
  }

  std::vector<std::string> unplug(const std::vector<std::string>& terminals) {
    std::vector<std::string> off;
    const electrics::Network& network = machine().plant.circuit;
    for (const std::string& name : terminals) {
      const auto at = static_cast<std::size_t>(network.terminal(name));
      for (const auto& wire : network.wires) {
        const int index = network.wire(wire.number);
        const auto& join = network.joins[static_cast<std::size_t>(index)];
        if (join.from != at && join.to != at) continue;
        const std::string number = std::to_string(wire.number);
        if (act(hands::take_wire_off(number))) off.push_back(number);
      }
    }
    return off;
  }

  training::LessonRun& run_;
  Spell spell_ = Spell::rest;
  std::uint64_t since_ = 0;  // tick of the key that began it
};

// The key that shows what a fault of this part of the machine does.
inline std::string key_of(const std::string& system) {
  if (system == "heating" || system == "sensing" || system == "supply") return "heat";
  return system == "chiller" ? "chill" : "stir";
}

// The fault guide's own way: the check that it proposes on what was found, until one cause is earned; then
// that cause is named, mended and proved. False when nothing that can be done here earns any.
inline bool follow_guide(training::LessonRun& run, std::size_t most_checks = 60) {
  Technician hands_on(run);
  std::vector<std::size_t> done;
  while (!run.over() && done.size() < most_checks) {
    const training::ProposedCheck advice = hands_on.grounds().advice(run.state(), done);
    if (!advice.earned.empty()) {
      const faults::Fault fault = run.session().machine().faults[static_cast<std::size_t>(
          run.session().machine().fault_index(advice.earned))];
      hands_on.name(fault.id);
      hands_on.mend(fault.id);
      done.clear();
      // That it still does not work, or does, is plain to see at the machine.
      if (machine::faults_left(run.session().machine(), run.state()) > 0) continue;
      hands_on.prove(key_of(fault.system));
      return run.over();
    }
    if (advice.question == Model::npos) return false;
    done.push_back(advice.question);
    hands_on.make(advice.question);
  }
  return false;
}

}  // namespace technician
