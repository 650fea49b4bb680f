#pragma once

#include <map>
#include <string>
#include <vector>

#include "app/library/library.h"

#include "sim_core/diagnosis/faulty_machine.h"
#include "sim_core/diagnosis/model.h"

// content/fault_guides/MACHINE.json: what people see, what they can check, how that is simulated, and how
// long everything takes; and content/evidence/MACHINE.json: how often each simulated fault gave each answer.
namespace stirbench::library {

struct GuideProtocol {
  std::string id;
  std::string title;
  std::vector<machine::StartSetup::Load> loaded;
  std::vector<std::string> actions;  // each an entry of an actions file
  double until_s = 60.0;
};

struct FaultGuide {
  std::string id;  // the machine's
  std::string note;
  double service_min = 240.0;
  double prove_min = 4.0;
  double pair_years = 0.02;
  double misuse_years = 0.02;
  double unknown_norm = 0.01;
  diagnosis::AccessCosts conditions;
  std::vector<GuideProtocol> protocol_texts;
  std::vector<diagnosis::Symptom> symptoms;
  std::vector<std::string> cause_ids;  // faults of content
  std::vector<diagnosis::Check> checks;
  // Filled by the loader.
  std::vector<faults::Fault> causes;  // by cause_ids
  std::vector<diagnosis::Protocol> protocols;
  std::string basis;  // hash of the files that the simulated answers depend on
};

struct LikelihoodRow {
  std::string cause;
  std::string label;
  double share = 1.0;
  std::string first;  // answers of its first machine, a digit each: what --verify simulates again
  std::vector<std::vector<double>> counts;  // by Evidence::questions and outcome
};
struct LikelihoodTable {
  std::string machine;
  std::string basis;
  int machines_each = 0;  // simulated for each row
  double seed = 1.0;
  std::vector<std::string> questions;  // ids of symptoms and checks
  std::vector<LikelihoodRow> rows;
};

// All guides with their evidence. `problems` as of library::load; a guide with a problem is not in the list.
struct FaultGuides {
  std::map<std::string, FaultGuide> guides;         // by machine id
  std::map<std::string, LikelihoodTable> evidence;  // by machine id; may be missing or stale
  std::vector<Problem> problems;
};
// The part of the library that a guide needs (cautions, ingredients, machines with their circuits, faults);
// loads in a fraction of the time.
LoadResult load_for_guide(const std::string& content_dir);

// content/fault_guides and content/evidence of a content folder whose other parts were loaded already.
FaultGuides load_guides(const std::string& content_dir, const Library& library);

// The diagnosis model of a machine with its simulated likelihoods.
struct GuideModel {
  diagnosis::Model model;
  bool simulated = false;  // there is evidence; without it only the rates count
  bool stale = false;      // content has changed since
  double machines = 0.0;   // simulated in all
};
// Questions that are not in the evidence have no counts and therefore say nothing.
GuideModel guide_model(const FaultGuide& guide, const LikelihoodTable* evidence);

// One row of the sample: severity range of a profile.
struct ProfilePlan {
  std::string label;
  double low = 0.0;
  double high = 1.0;
};
// Mild, middling, severe: thirds of the fault's severities; one whose changes are the same at every severity
// has one.
std::vector<ProfilePlan> profile_plan(const faults::Fault& fault);

// Errors that the guide's trees reveal: a fault that no symptom shows, a check that no tree uses, a tree that
// cannot be followed. Takes seconds. Empty without evidence that fits the content.
std::vector<Problem> judge_trees(const FaultGuide& guide, const LikelihoodTable* evidence);

std::string likelihood_text(const LikelihoodTable& evidence);  // the file, a row on a line, LF

}  // namespace stirbench::library
