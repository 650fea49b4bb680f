#include "sim_core/identification/course.h"

#include <algorithm>
#include <cmath>

#include "sim_core/bench/script.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/plant/pace.h"
#include "sim_core/plant/plant.h"

namespace stirbench::identification {

namespace {

using hands::TimedAction;

// Targets beyond every batch: with spells the log says when heating ended, not the controller.
constexpr double out_of_reach_hot_degC = 120.0;
constexpr double out_of_reach_cold_degC = -20.0;
constexpr double settled_s = 0.5;  // from a key to its target

TimedAction timed(double at_s, hands::Action action) {
  return {std::max(0.0, at_s), {}, 0.0, std::move(action)};
}

hands::Action key(const char* name) { return hands::press(name, 0.3); }

// Where a controller that tapered was going: it switches off where the probe, `heat_lead_s` ahead, meets the
// band's end. A little beyond, so that the log says when.
double heat_target_degC(const Spell& spell, const control::ControlSpec& control) {
  constexpr double beyond_K = 0.3;
  if (!spell.tapers || !(control.heat_taper_K > 0.0)) return out_of_reach_hot_degC;
  return spell.end_degC + control.heat_lead_s * spell.end_K_per_s - control.heat_hysteresis_K + beyond_K;
}

// What brings a spell about. The key before the target: the display takes a target for what is going on.
void begin(const Spell& spell, double at_s, const control::ControlSpec& control,
           std::vector<TimedAction>& out) {
  switch (spell.doing) {
    case Doing::heat:
      out.push_back(timed(at_s, key("heat")));
      out.push_back(timed(at_s + settled_s, hands::set_target(heat_target_degC(spell, control))));
      break;
    case Doing::chill:
      out.push_back(timed(at_s, key("chill")));
      out.push_back(timed(at_s + settled_s, hands::set_target(out_of_reach_cold_degC)));
      break;
    case Doing::stir: out.push_back(timed(at_s, key("stir"))); break;
    case Doing::rest: out.push_back(timed(at_s, key("stop"))); break;
  }
}

std::vector<TimedAction> actions_of(const Course& course, const control::ControlSpec& control) {
  std::vector<TimedAction> out;
  for (const Spell& spell : course.spells) begin(spell, spell.from_s, control, out);
  for (const BatchLog::LidMove& move : course.lid) {
    out.push_back(timed(move.t_s, move.open ? hands::open_lid() : hands::close_lid()));
    if (move.open) continue;
    // An open lid has stopped the machine: Stop clears that, and what was going on is started again.
    out.push_back(timed(move.t_s + 0.5, key("stop")));
    Spell going_on;
    for (const Spell& spell : course.spells)
      if (spell.from_s <= move.t_s) going_on = spell;
    begin(going_on, move.t_s + 1.5, control, out);
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const TimedAction& a, const TimedAction& b) { return a.at_s < b.at_s; });
  return out;
}

bool starts_work(const hands::Action& action) {
  return action.is(hands::press) && hands::first_text(action) != "stop";
}

const hands::Parameter& poured_kg() { return *hands::pour.find("kg"); }
const hands::Parameter& poured_degC() { return *hands::pour.find("degC"); }

// A pouring's temperature; nothing when the ingredient's usual one counts.
const double* degC_of(const hands::Action& action) {
  return std::get_if<double>(&action.value(poured_degC()));
}

// Calls act for what is poured before anything is switched on.
template <typename Actions, typename Act>
void for_first_pours(Actions& actions, Act&& act) {
  for (auto& one : actions) {
    if (starts_work(one.action)) return;
    if (one.action.is(hands::pour)) act(one);
  }
}

// The lid stays open, and its switch says that it is shut.
void leave_lid_open(Course& course) {
  course.start.faults.push_back({"lid_reed_stuck", 1.0});
  std::erase_if(course.actions, [](const TimedAction& one) {
    return one.at_phase.empty() && (one.action.is(hands::close_lid) || one.action.is(hands::open_lid));
  });
  course.actions.insert(course.actions.begin(), timed(0.0, hands::open_lid()));
  course.lid.clear();
}

// A batch that has stood in the machine before the log begins: the metal has its temperature.
void stand(plant::PlantState& plant, double degC) {
  plant.well_wall_degC = plant.vat_wall_degC = plant.element_degC = plant.evaporator_degC = degC;
  plant.probe_degC = plant.probe_pocket_degC = degC;
  plant::invalidate_pace(plant);
}

}  // namespace

Curves run(const machine::Machine& machine, const Course& course) {
  Curves out;
  Course done = course;
  const bool by_spells = course.actions.empty();
  if (by_spells) done.actions = actions_of(course, machine.control);
  if (course.lid_left_open) leave_lid_open(done);
  machine::Machine open_ended;
  if (by_spells) {
    open_ended = machine;
    open_ended.control.lowest_target_degC = out_of_reach_cold_degC;
    open_ended.control.highest_target_degC = out_of_reach_hot_degC;
  }
  const machine::Machine& used = by_spells ? open_ended : machine;

  machine::State state;
  const std::vector<machine::StartSetup::Load> loads = std::move(done.start.loaded);
  done.start.loaded.clear();
  out.why = bench::build_start(used, done.start, state);
  if (!out.why.empty()) return out;
  // Poured after the faults are in: some of them are faults of pouring.
  for (const auto& load : loads) {
    const int index = used.ingredient_index(load.ingredient);
    if (index < 0) {
      out.why = "there is no ingredient \"" + load.ingredient + "\"";
      return out;
    }
    plant::pour(used.plant, state.plant, used.ingredients[static_cast<std::size_t>(index)], load.kg,
                load.degC);
  }
  if (by_spells && !loads.empty()) stand(state.plant, loads.front().degC);
  if (course.deposit_kg_per_m2 > 0.0) state.plant.deposit_kg_per_m2 = course.deposit_kg_per_m2;

  bench::Run run(used, state);
  bench::ActionScript script(done.actions);
  const auto keep = [&](const machine::State& now, const std::vector<machine::Event>&) {
    if (now.tick % machine::ticks_per_second != 0) return;
    out.product_degC.push_back(plant::probe_reading_degC(now.plant));
    out.wall_degC.push_back(now.plant.well_wall_degC);
    out.element_degC.push_back(now.plant.element_degC);
    out.condensing_degC.push_back(now.plant.coefficients.condensing_degC);
  };
  keep(run.state(), {});
  const auto ticks = static_cast<std::uint64_t>(std::llround(course.until_s / machine::tick_s));
  bench::drive(
      run, script, [&] { return run.state().tick >= ticks; }, keep);
  out.whole = true;
  return out;
}

double at(const std::vector<double>& each_second, double t_s) {
  if (each_second.empty()) return 0.0;
  const double last = static_cast<double>(each_second.size() - 1);
  const double place = std::clamp(t_s, 0.0, last);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, each_second.size() - 1);
  const double share = place - static_cast<double>(below);
  return each_second[below] + share * (each_second[above] - each_second[below]);
}

double mass_kg(const Course& course) {
  double sum = 0.0;
  for (const auto& load : course.start.loaded) sum += load.kg;
  for (const TimedAction& one : course.actions)
    if (one.action.is(hands::pour)) sum += std::get<double>(one.action.value(poured_kg()));
  return sum;
}

void scale_mass(Course& course, double factor) {
  for (auto& load : course.start.loaded) load.kg *= factor;
  for (TimedAction& one : course.actions)
    if (one.action.is(hands::pour))
      one.action.set(poured_kg(), factor * std::get<double>(one.action.value(poured_kg())));
}

double start_degC(const Course& course) {
  for (const auto& load : course.start.loaded) return load.degC;
  double found = 5.0;
  bool any = false;
  for_first_pours(course.actions, [&](const TimedAction& pour) {
    if (any || degC_of(pour.action) == nullptr) return;
    found = *degC_of(pour.action);
    any = true;
  });
  return found;
}

double filled_s(const Course& course) {
  double last_s = 0.0;
  for_first_pours(course.actions, [&](const TimedAction& pour) { last_s = std::max(last_s, pour.at_s); });
  return last_s;
}

void set_start_degC(Course& course, double degC) {
  for (auto& load : course.start.loaded) load.degC = degC;
  if (!course.start.loaded.empty()) return;
  for_first_pours(course.actions, [&](TimedAction& pour) { pour.action.set(poured_degC(), degC); });
}

}  // namespace stirbench::identification
