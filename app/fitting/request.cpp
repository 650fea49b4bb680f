#include "app/fitting/request.h"

#include <algorithm>
#include <cstdio>
#include <filesystem>

#include "sim_core/product/properties.h"

namespace stirbench::fitting {

using namespace identification;

namespace {

// kg of the ingredient in the vat.
double load_kg(const BatchWords& words, const machine::Machine& machine, const BatchLog& log,
               const product::Ingredient& ingredient) {
  if (words.mass_kg > 0.0) return words.mass_kg;
  if (words.fill_kg > 0.0) return words.fill_kg;
  const double fill_L = log.fill_L.empty() ? 0.9 * machine.plant.vat.working_L : mean_of(log.fill_L);
  return fill_L * 1.0e-3 * product::density_kg_per_m3(ingredient.fraction, 20.0);
}

}  // namespace

Request request_of(const machine::Machine& machine, BatchLog log, const BatchWords& words) {
  Request out;
  FitRequest& fit = out.fit;
  fit.machine = machine;
  fit.mass_known = words.mass_kg > 0.0 || !words.actions.empty();
  fit.power_known = words.power_W > 0.0;
  fit.clock_unknown = words.clock_unknown;
  plant::Environment& room = fit.course.start.environment;
  if (words.ambient_degC > -50.0) {
    room.ambient_degC = words.ambient_degC;
  } else if (!log.ambient_degC.empty()) {
    room.ambient_degC = mean_of(log.ambient_degC);
  }
  if (!words.actions.empty()) {
    fit.course.actions = words.actions;
  } else {
    const int index = machine.ingredient_index(words.ingredient);
    if (index < 0) {
      out.problem = "expected an ingredient of content/ingredients, found \"" + words.ingredient + "\"";
      return out;
    }
    const product::Ingredient& ingredient = machine.ingredients[static_cast<std::size_t>(index)];
    fit.course.start.loaded = {{words.ingredient, load_kg(words, machine, log, ingredient),
                                std::clamp(log.samples.front().product_degC, -1.0, 99.0)}};
  }
  if (fit.power_known) {
    Trial trial{fit.machine, {}, 0.0};
    set_value(trial, Quantity::element_power, words.power_W);
    fit.machine = trial.machine;
  }
  fit.log = std::move(log);
  return out;
}

Explanations explanations_of(const library::Library& library, const FitRequest& request,
                             const std::function<bool(double)>& watch) {
  std::vector<machine::Machine> others;
  for (const auto& [id, spec] : library.machines)
    if (id != request.machine.plant.id) others.push_back(library.machine(id));
  Hypotheses hypotheses{&request, {}};
  hypotheses.watch = watch;
  for (const machine::Machine& other : others) hypotheses.others.push_back(&other);
  return explain(hypotheses);
}

library::OwnMachine own_machine_of(const library::Library& library, const std::string& machine,
                                   const Fit& fit, const std::string& log_file) {
  const auto own = library.own_machines.find(machine);
  const std::string of = own == library.own_machines.end() ? machine : own->second;
  library::OwnMachine out = library::difference(fit.trial.machine.plant, library.machines.at(of));
  out.note = "Fitted to " + std::filesystem::path(log_file).filename().string() + ":";
  for (const Found& found : fit.found) {
    const QuantityEntry& one = entry(found.quantity);
    char numbers[96];
    std::snprintf(numbers, sizeof numbers, " %.*f (%.*f .. %.*f) ", one.decimals, found.value, one.decimals,
                  found.low, one.decimals, found.high);
    out.note += " " + std::string(one.id) + numbers + std::string(one.unit) + ";";
  }
  out.note.back() = '.';
  return out;
}

}  // namespace stirbench::fitting
