#pragma once

#include <span>
#include <string>
#include <string_view>

#include "sim_core/identification/course.h"
#include "sim_core/machine/machine.h"

// What one batch can tell about a machine: where each quantity sits in the machine's description or in the
// batch, within which range a search may move it, and what is plausible for a sound machine of that kind.
namespace stirbench::identification {

enum class Quantity : std::uint8_t {
  element_power,  // all elements at their rated voltage
  mass,           // of the batch
  losses,         // vat and well through the insulation
  chiller,        // the compressor's displacement: capacity at given pressures
  condenser,      // refrigerant to the room's air
  probe_lag,
  wall_scale,  // deposit on the heated wall
  start,       // temperature of the batch when the log begins
  clock,       // of the log, over that of the actions
  count
};

// In what a search moves it, so that the curve follows nearly in proportion.
enum class Scale : std::uint8_t {
  factor,      // logarithm of its ratio to the machine's own value
  resistance,  // the machine's own value over it
  own          // itself
};

struct QuantityEntry {
  Quantity quantity = Quantity::count;
  std::string_view id;     // "element_power"
  std::string_view title;  // "Power of the elements"
  std::string_view unit;
  Scale scale = Scale::factor;
  double low = 0.0;  // range of the search: factors, else the unit's own
  double high = 0.0;
  double step = 0.0;     // of the differences: logarithm of a factor, else the unit's own
  bool compared = true;  // with the machine's own value
  // A sound machine of this kind lies within these (factors when compared): choice; heating elements
  // +5 -10 % by IEC 60335-1 (from memory), doubled for voltage and wiring.
  double plausible_low = 0.0;
  double plausible_high = 0.0;
  int decimals = 1;
  std::string_view helps;  // what measurement would find it, when the log cannot
};
std::span<const QuantityEntry> quantities();
const QuantityEntry& entry(Quantity quantity);

// A machine in a batch: what the fit moves.
struct Trial {
  machine::Machine machine;
  Course course;
  double clock_s = 0.0;  // the log's time less the batch's
};
double value(const Trial& trial, Quantity quantity);
void set_value(Trial& trial, Quantity quantity, double value);

}  // namespace stirbench::identification
