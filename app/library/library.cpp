#include "app/library/library.h"

#include <stdexcept>

#include "sim_core/training/grounds_guide.h"

namespace stirbench::library {

std::string Problem::text() const {
  std::string out = file;
  // A key path begins with '/', so "FILE:/phases/2/kg"; a place in the text reads "FILE:line 7, column 3".
  if (!path.empty()) out += ":" + path;
  return out + ": expected " + expected + ", found " + found;
}

machine::Machine Library::machine(const std::string& id) const {
  const auto found = machines.find(id);
  if (found == machines.end()) throw std::out_of_range("there is no machine \"" + id + "\"");
  machine::Machine out;
  out.plant = found->second;
  out.control = controls.at(id);
  for (const auto& [name, ingredient] : ingredients) out.ingredients.push_back(ingredient);
  for (const auto& [name, chemical] : chemicals) {
    out.chemicals.push_back(chemical);
    if (out.plant.sanitiser.empty()) out.plant.sanitiser = chemical.lines;
  }
  for (const bool own : {false, true}) {
    for (const auto& [name, recipe] : recipes) {
      if ((own_recipes.count(name) != 0) == own) out.recipes.push_back(recipe);
    }
  }
  for (const auto& [name, fault] : faults) out.faults.push_back(fault);
  if (const auto guide = grounds.find(id); guide != grounds.end()) out.checks = guide->second->sense_checks();
  if (const auto body = bodies.find(id); body != bodies.end()) {
    for (const BodyPart& part : body->second.parts) out.body_parts.push_back(part.id);
  }
  out.rules = rules;
  const auto hash = machine_hashes.find(id);
  out.content_hash = hash == machine_hashes.end() ? content_hash : hash->second;
  return out;
}

const electrics::Network& Library::network(const std::string& id) const {
  const auto machine = machines.find(id);
  if (machine == machines.end() || machine->second.circuit.empty())
    throw std::out_of_range("there is no machine \"" + id + "\" with a circuit");
  return machine->second.circuit;
}

}  // namespace stirbench::library
