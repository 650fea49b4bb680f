#include "sim_core/identification/words.h"

#include <cmath>

namespace stirbench::identification {

namespace {

std::string per_cent(double share) { return std::to_string(std::lround(100.0 * share)) + " %"; }

std::string tied_words(const Tied& tied) {
  const QuantityEntry& one = entry(tied.one);
  const QuantityEntry& other = entry(tied.other);
  return std::string(one.title) + " and " + std::string(other.title) + " are told apart badly (correlation " +
         per_cent(tied.correlation) +
         "): one may be larger for the other. It would help: " + std::string(one.helps) + ".";
}

}  // namespace

std::string spells_words(SpellsFrom from) {
  switch (from) {
    case SpellsFrom::events: return "the log's column of events";
    case SpellsFrom::heater_power: return "the elements' power; chilling from the curve";
    case SpellsFrom::power: return "the machine's power";
    case SpellsFrom::curve: return "the curve alone";
    case SpellsFrom::actions: return "the actions file";
  }
  return "";
}

std::vector<std::string> identifiability_words(const FitRequest& request, const Fit& fit) {
  std::vector<std::string> out;
  if (!request.mass_known && !request.power_known)
    out.emplace_back(
        "Neither mass nor power was measured: only their ratio is in a curve of temperature. The power holds "
        "for the mass as stated, and losses and chiller scale with it. Weigh the batch or measure the "
        "power.");
  for (const NotFound& one : fit.not_found)
    out.push_back(std::string(entry(one.quantity).title) + " cannot be told: " + one.why +
                  ". It keeps its value. It would help: " + std::string(entry(one.quantity).helps) + ".");
  for (const Tied& one : fit.tied) out.push_back(tied_words(one));
  out.emplace_back(
      "Losses stand for lid, wall and standing vapour together: one coasting slope cannot part them. Holds "
      "at "
      "two temperatures, or a spell with the lid off, would.");
  if (request.log.ambient_degC.empty())
    out.emplace_back(
        "The room's temperature is not in the log: an error of it goes into losses and start temperature.");
  out.emplace_back(
      "An error of the probe itself is not searched: it cannot be told from start temperature, room and "
      "refrigerant. Check it in ice water.");
  return out;
}

}  // namespace stirbench::identification
