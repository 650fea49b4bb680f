#pragma once

#include <string>
#include <vector>

#include "app/library/library.h"
#include "app/library/machine/own_machine.h"
#include "sim_core/hands/action.h"
#include "sim_core/identification/causes.h"
#include "sim_core/identification/fit.h"

namespace stirbench::fitting {

// What somebody says about the batch that a log is of, beside the log.
struct BatchWords {
  std::string ingredient = "whole_milk";
  double mass_kg = 0.0;  // weighed, 0.5 .. 1000; 0: not
  double fill_kg = 0.0;  // taken, not weighed; 0: the log's fill, else nine tenths of the working volume
  double power_W = 0.0;  // measured at the elements; 0: not
  double ambient_degC = -100.0;             // below -50: the log's, else 22
  std::vector<hands::TimedAction> actions;  // what was done; then they say what is poured
  bool clock_unknown = false;
};

// Machine, batch and log put together. `problem` is set, and nothing else good, for an ingredient that the
// machine's content does not have.
struct Request {
  identification::FitRequest fit;
  std::string problem;
};
Request request_of(const machine::Machine& machine, identification::BatchLog log, const BatchWords& words);

// Faults of content, an open lid and the library's other machines against the log.
identification::Explanations explanations_of(const library::Library& library,
                                             const identification::FitRequest& request,
                                             const std::function<bool(double)>& watch = {});

// The machine of the site's own that a fit found; id and title are left to the caller. `machine` is the one
// that was fitted; one of the site's own is made of what that is made of.
library::OwnMachine own_machine_of(const library::Library& library, const std::string& machine,
                                   const identification::Fit& fit, const std::string& log_file);

}  // namespace stirbench::fitting
