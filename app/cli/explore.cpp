#include "app/cli/explore.h"

#include <chrono>
#include <cmath>
#include <future>

#include "app/cli/trace.h"
#include "app/library/library.h"
#include "sim_core/explore/explore.h"
#include "sim_core/explore/promela.h"
#include "sim_core/faults/safety.h"
#include "sim_core/hands/hand.h"
#include "sim_core/plant/electrical_link.h"

namespace stirbench::cli {

namespace {

namespace ex = explore;
using nlohmann::json;

constexpr double begin_s = 1.0;

json actions_json(const machine::Machine& machine, const std::vector<ex::Move>& moves, bool& exact) {
  const std::string recipe = machine.recipes.empty() ? "" : machine.recipes.front().id;
  json list = json::array();
  // Ten ticks a second: one decimal is exact enough to mean that tick.
  const auto rounded = [](double value) { return static_cast<double>(std::llround(value * 10.0)) / 10.0; };
  for (const hands::TimedAction& entry : ex::as_actions(moves, recipe, begin_s, exact)) {
    json one{{"at_s", rounded(entry.at_s)}, {"do", entry.action.hand()->name}};
    for (const hands::Parameter* parameter : entry.action.hand()->takes()) {
      const hands::Action::Value& value = entry.action.value(*parameter);
      if (const auto* text = std::get_if<std::string>(&value)) one[std::string(parameter->name)] = *text;
      if (const auto* flag = std::get_if<bool>(&value)) one[std::string(parameter->name)] = *flag;
      if (const auto* number = std::get_if<double>(&value))
        one[std::string(parameter->name)] = rounded(*number);
    }
    list.push_back(std::move(one));
  }
  return list;
}

ex::ExplorationResult answer_for(const machine::Machine& machine, const faults::SafetyFault* fault,
                                 electrics::SwitchingTable& wiring) {
  ex::ExplorationRequest question;
  question.wiring = &wiring;
  if (fault == nullptr) return ex::explore(machine, question);
  // With a fault the recipe is left at rest: what falls, falls in this part already.
  question.scope = {.recipe = false, .fingers = 2, .wire = true};
  fault->apply(question.parts, 1.0);
  return ex::explore(machine, question);
}

json rows_json(const machine::Machine& machine, const ex::ExplorationResult& answer,
               const faults::SafetyFault* fault) {
  json rows = json::array();
  for (std::size_t i = 0; i < explore::invariant_count; ++i) {
    const auto invariant = static_cast<explore::Invariant>(i);
    const bool holds = answer.holds(invariant);
    json row{{"id", explore::invariant_id(invariant)},
             {"holds", holds},
             {"fault", nullptr},
             {"actions", nullptr},
             {"words", explore::invariant_words(invariant)}};
    if (fault != nullptr) row["fault"] = fault->id;
    if (!holds) {
      bool exact = true;
      row["actions"] = actions_json(machine, answer.sequences[i], exact);
      row["exact"] = exact;  // false: the sequence also needs a probe or a wire that no hand moves
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

struct Total {
  std::uint64_t states = 0;
  std::uint64_t transitions = 0;
  json invariants = json::array();
  json table = json::array();
  bool all_hold = true;
};

void add(Total& total, const machine::Machine& machine, const faults::SafetyFault* fault,
         const ex::ExplorationResult& answer, const CommonOptions& common) {
  if (!answer.complete)
    throw std::runtime_error("explore: the states did not end; this is a fault of the program");
  for (json& row : rows_json(machine, answer, fault)) total.invariants.push_back(std::move(row));
  if (fault == nullptr) {
    total.states = answer.states;
    total.transitions = answer.transitions;
    total.all_hold = answer.broken == 0;
  }
  json fallen = json::array();
  for (std::size_t i = 0; i < explore::invariant_count; ++i) {
    if (!answer.holds(static_cast<explore::Invariant>(i)))
      fallen.push_back(explore::invariant_id(static_cast<explore::Invariant>(i)));
  }
  if (!common.json) {
    print((fault == nullptr ? std::string("sound parts") : std::string(fault->id)) + ": " +
          std::to_string(answer.states) + " states, " + std::to_string(answer.transitions) +
          " transitions, " +
          (fallen.empty() ? "all " + std::to_string(explore::invariant_count) + " invariants hold"
                          : std::to_string(fallen.size()) + " fall"));
    for (const json& id : fallen) {
      print("    " + std::string(explore::invariant_words(
                         static_cast<explore::Invariant>(explore::find_invariant(id.get<std::string>())))));
    }
  }
  if (fault != nullptr) {
    total.table.push_back({{"fault", fault->id},
                           {"title", fault->title},
                           {"wiring", fault->wiring},
                           {"defeat", fault->defeat},
                           {"fall", fallen}});
  }
}

}  // namespace

int explore(const CommonOptions& common, const ExploreOptions& options) {
  const library::Library library = load_library(common);
  const machine::Machine machine = machine_or_refuse(library, options.machine);
  const faults::SafetyFault* only = nullptr;
  if (!options.fault.empty()) {
    only = faults::find_safety_fault(options.fault);
    std::string known;
    for (const auto& one : faults::safety_faults())
      known += (known.empty() ? "" : ", ") + std::string(one.id);
    if (only == nullptr)
      throw Refusal("--fault: expected one of " + known + ", found \"" + options.fault + "\"");
  }
  if (!options.promela.empty()) {
    const std::string text = explore::promela_model(options.without);
    if (text.empty())
      throw Refusal("--without: expected a rule of the model, found \"" + options.without + "\"");
    write_or_refuse(options.promela, text);
    return exit_done;
  }
  const auto began = std::chrono::steady_clock::now();
  Total total;
  if (only != nullptr) {
    electrics::SwitchingTable wiring = plant::switching_table(machine.plant);
    add(total, machine, only, answer_for(machine, only, wiring), common);
  } else {
    // The large exploration runs beside the many small ones: each is deterministic, and they are reported in
    // order. Each side asks the wiring for itself.
    std::future<ex::ExplorationResult> sound = std::async(std::launch::async, [&machine] {
      electrics::SwitchingTable wiring = plant::switching_table(machine.plant);
      return answer_for(machine, nullptr, wiring);
    });
    std::vector<ex::ExplorationResult> answers;
    electrics::SwitchingTable wiring = plant::switching_table(machine.plant);
    for (const auto& fault : faults::safety_faults()) answers.push_back(answer_for(machine, &fault, wiring));
    add(total, machine, nullptr, sound.get(), common);
    for (std::size_t i = 0; i < answers.size(); ++i)
      add(total, machine, &faults::safety_faults()[i], answers[i], common);
  }
  const double elapsed_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  if (!options.table.empty()) {
    const json document{{"format", 1}, {"faults", total.table}};
    write_or_refuse(options.table, document.dump(2) + "\n");
  }
  if (common.json) {
    print_json({{"machine", machine.plant.id},
                {"states", total.states},
                {"transitions", total.transitions},
                {"elapsed_s", elapsed_s},
                {"invariants", total.invariants}});
  } else {
    print("in " + fixed(elapsed_s, 1) + " s");
  }
  return total.all_hold ? exit_done : exit_no;
}

}  // namespace stirbench::cli
