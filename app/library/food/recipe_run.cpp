#include <algorithm>
#include <cmath>

#include "app/library/food/recipe_store.h"
#include "sim_core/bench/script.h"
#include "sim_core/hands/handles.h"
#include "sim_core/journal/session.h"

// The recipe as a prompt operator runs it.
namespace stirbench::library {

namespace {

// Hands: a few seconds for each move, longer for more to pour. Common practice; only the order matters to the
// machine.
constexpr double move_s = 2.0;
constexpr double pour_s = 5.0;

hands::TimedAction at(double at_s, hands::Action action) {
  return {.at_s = at_s, .action = std::move(action)};
}

// One addition in portions that the hand's row lets through, each taking its time.
void pour(std::vector<hands::TimedAction>& out, const control::Addition& addition, double& now_s) {
  const double most_kg = hands::pour.find("kg")->high;
  for (double left_kg = addition.kg; left_kg > 0.0;) {
    const double portion_kg = std::min(left_kg, most_kg);
    out.push_back(at(now_s, hands::pour(addition.ingredient, portion_kg)));
    left_kg -= portion_kg;
    now_s += pour_s;
  }
}

void press(std::vector<hands::TimedAction>& out, const char* key, double& now_s) {
  out.push_back(at(now_s, hands::press(key)));
  now_s += move_s;
}

}  // namespace

std::vector<hands::TimedAction> prompt_operator(const Library& library, const std::string& machine_id,
                                                const control::Recipe& recipe) {
  static_cast<void>(library);
  static_cast<void>(machine_id);
  std::vector<hands::TimedAction> out;
  double now_s = move_s;
  out.push_back(at(now_s, hands::open_lid()));
  now_s += move_s;
  for (const auto& one : recipe.start) pour(out, one, now_s);
  out.push_back(at(now_s, hands::close_lid()));
  now_s += move_s;
  out.push_back(at(now_s, hands::choose_recipe(recipe.id)));
  now_s += move_s;
  press(out, "run", now_s);
  for (const control::Phase& phase : recipe.phases) {
    if (phase.kind != control::PhaseKind::add) continue;
    std::vector<hands::TimedAction> visit;
    double after_s = move_s;
    visit.push_back(at(after_s, hands::open_lid()));
    after_s += move_s;
    for (const auto& one : phase.additions) pour(visit, one, after_s);
    visit.push_back(at(after_s, hands::close_lid()));
    after_s += move_s;
    // The lid stopped the machine: Stop clears, Run goes on, and the addition is confirmed.
    press(visit, "stop", after_s);
    press(visit, "run", after_s);
    visit.push_back(at(after_s, hands::confirm()));
    for (hands::TimedAction& one : visit) {
      one.after_s = one.at_s;
      one.at_s = 0.0;
      one.at_phase = phase.id;
      out.push_back(std::move(one));
    }
  }
  return out;
}

double estimate_finish_s(const Library& library, const std::string& machine_id,
                         const control::Recipe& recipe) {
  constexpr double longest_s = 12.0 * 3600.0;
  machine::Machine machine = library.machine(machine_id);
  // The draft may not be saved yet, or differ from what is: it is the only recipe of this machine.
  machine.recipes = {recipe};
  bench::Run run(machine, bench::initial_state(machine, {}));
  double finished_s = -1.0;
  const auto look = [&finished_s](const machine::State& state, const std::vector<machine::Event>& events) {
    for (const machine::Event& event : events) {
      if (event.kind == machine::EventKind::recipe_finished) finished_s = machine::time_s(state);
    }
  };
  const auto over = [&] { return finished_s >= 0.0 || machine::time_s(run.state()) >= longest_s; };
  bench::drive(run, bench::ActionScript(prompt_operator(library, machine_id, recipe)), over, look);
  return finished_s;
}

}  // namespace stirbench::library
