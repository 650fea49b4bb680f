#pragma once

#include <string>
#include <vector>

#include "sim_core/hands/action.h"
#include "sim_core/identification/batch_log.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/start.h"

// What was done with the machine in one batch, and the simulated machine doing it. The simulator itself is
// the forward model of the fit: the bench's loop with controller, circuit and plant.
namespace stirbench::identification {

struct Course {
  machine::StartSetup start;                // room, what is in the vat, faults
  std::vector<hands::TimedAction> actions;  // what people did, with the controller's own switching ...
  std::vector<Spell> spells;                // ... or, without actions, what the log shows was on and when
  std::vector<BatchLog::LidMove> lid;       // goes with the spells
  double until_s = 0.0;
  double deposit_kg_per_m2 = 0.0;  // on the heated wall at the start
  bool lid_left_open = false;      // with its switch defeated: a hypothesis about a bad batch
};

// The record that a logger at the machine would have made, once a second from 0 s on.
struct Curves {
  std::vector<double> product_degC;  // the probe as the display shows it
  std::vector<double> wall_degC;
  std::vector<double> element_degC;
  std::vector<double> condensing_degC;
  bool whole = false;  // false: the start is impossible (over the brim, an unknown fault); `why` says it
  std::string why;
};
Curves run(const machine::Machine& machine, const Course& course);

// Linear between the seconds, the ends held.
double at(const std::vector<double>& each_second, double t_s);

// kg in the vat at the start and poured by the actions.
double mass_kg(const Course& course);
// All of it times a factor.
void scale_mass(Course& course, double factor);
// The temperature of what is in the vat, or is poured first.
double start_degC(const Course& course);
// When the last of what is poured first is in [s].
double filled_s(const Course& course);
// Moves what is in at the start, or is poured before anything is switched on.
void set_start_degC(Course& course, double degC);

}  // namespace stirbench::identification
