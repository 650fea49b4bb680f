#pragma once

#include <string>
#include <vector>

#include "app/cli/common.h"
#include "sim_core/identification/fit.h"

namespace stirbench::cli {

struct FitOptions {
  std::string machine;
  std::string log;
  std::string actions;  // what was done; without it the log has to show it
  std::string ingredient = "whole_milk";
  double mass_kg = 0.0;          // weighed; 0: not
  double fill_kg = 0.0;          // taken, not weighed; 0: the log's fill, else the machine's working volume
  double power_W = 0.0;          // measured at the elements; 0: not
  double ambient_degC = -100.0;  // below -20: the log's, else 22
  double from_s = -1.0;          // of the log
  double until_s = -1.0;
  bool clock_unknown = false;
  bool causes = false;  // rank the faults even when the log fits
  std::string write;
  std::string id;  // of the machine that is written; empty: the file's name
  std::string title;
  std::string svg;
};

// `stirbench fit`: estimates from one batch's log what it can tell about a machine. 0: fitted; 1: the log
// does not fit this machine, with the faults that would explain it; 2: bad input. Files are written only with
// 0
// (--svg also with 1).
int fit(const CommonOptions& common, const FitOptions& options);

// What is fitted, from its options: the log read, the batch described. Throws Refusal.
identification::FitRequest fit_request_or_refuse(const FitOptions& options, const machine::Machine& machine);

}  // namespace stirbench::cli
