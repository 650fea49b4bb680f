#include <algorithm>
#include <charconv>

#include "sim_core/hands/hands.h"

// What texts may name on a machine.
namespace stirbench::hands {

namespace {

namespace w = electrics;

template <typename List>
std::vector<std::string> ids_of(const List& list) {
  std::vector<std::string> names;
  names.reserve(list.size());
  for (const auto& one : list) names.push_back(one.id);
  return names;
}

int number_in(std::string_view word) {
  int value = -1;
  const auto end = std::from_chars(word.data(), word.data() + word.size(), value);
  return end.ec == std::errc() && end.ptr == word.data() + word.size() ? value : -1;
}

bool is_breaker(const w::Network& network, const std::string& word) {
  const int part = network.part(word);
  return part >= 0 && network.parts[static_cast<std::size_t>(part)].kind == w::CircuitPartKind::breaker;
}

std::vector<std::string> of_circuit(const w::Network& network, Catalogue catalogue) {
  std::vector<std::string> names;
  if (catalogue == Catalogue::terminal) {
    for (const auto& one : network.terminals) names.push_back(one.name);
  } else if (catalogue == Catalogue::wire) {
    for (const auto& one : network.wires) names.push_back(std::to_string(one.number));
  } else {
    for (const auto& one : network.parts) {
      if (one.kind == w::CircuitPartKind::breaker) names.push_back(one.id);
    }
  }
  return names;
}

}  // namespace

std::vector<std::string> names_of(const Machine& machine, const Parameter& parameter) {
  switch (parameter.catalogue) {
    case Catalogue::words: {
      if (parameter.words == nullptr) return {};
      const Words known = parameter.words();
      return {known.begin(), known.end()};
    }
    case Catalogue::anything: return {};
    case Catalogue::ingredient: return ids_of(machine.ingredients);
    case Catalogue::recipe: return ids_of(machine.recipes);
    case Catalogue::chemical: return ids_of(machine.chemicals);
    case Catalogue::fault: return ids_of(machine.faults);
    case Catalogue::suspicion: {
      std::vector<std::string> names = ids_of(machine.faults);
      names.emplace_back(not_known);
      return names;
    }
    case Catalogue::check: return ids_of(machine.checks);
    case Catalogue::body_part: return machine.body_parts;
    case Catalogue::terminal:
    case Catalogue::wire:
    case Catalogue::breaker: return of_circuit(machine.plant.circuit, parameter.catalogue);
  }
  return {};
}

bool is_known(const Machine& machine, const Parameter& parameter, std::string_view word) {
  const std::string name(word);
  switch (parameter.catalogue) {
    case Catalogue::words: return index_of(parameter, word) >= 0;
    case Catalogue::anything: return !word.empty();
    case Catalogue::ingredient: return machine.ingredient_index(name) >= 0;
    case Catalogue::recipe: return machine.recipe_index(name) >= 0;
    case Catalogue::chemical: return machine.chemical_index(name) >= 0;
    case Catalogue::fault: return machine.fault_index(name) >= 0;
    case Catalogue::suspicion: return name == not_known || machine.fault_index(name) >= 0;
    case Catalogue::check: return machine.check_index(name) >= 0;
    case Catalogue::body_part:
      return std::find(machine.body_parts.begin(), machine.body_parts.end(), name) !=
             machine.body_parts.end();
    case Catalogue::terminal: return machine.plant.circuit.terminal(name) >= 0;
    case Catalogue::wire: return machine.plant.circuit.wire(number_in(word)) >= 0;
    case Catalogue::breaker: return is_breaker(machine.plant.circuit, name);
  }
  return false;
}

}  // namespace stirbench::hands
