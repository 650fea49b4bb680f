#pragma once

#include <string>
#include <vector>

#include "app/cli/common.h"
#include "app/cli/fit/fit.h"

// causes, guide, evidence: finding out why a machine stopped.
namespace stirbench::cli {

struct CausesOptions {
  std::string machine;
  std::vector<std::string> symptoms;
  std::vector<std::string> findings;  // CHECK=OUTCOME, CHECK=OUTCOME@SURE
  std::string who = "technician";
  FitOptions log;  // of a batch; its machine is that of above
};
// Probable causes, the next checks and the repairs.
int causes(const CommonOptions& common, const CausesOptions& options);

struct GuideOptions {
  std::string machine;
  std::string symptom;
  std::string who = "technician";
  std::string dot;           // write the tree as a graph
  std::string cards;         // folder for PDF cards
  std::string paper = "a4";  // a4 or letter
};
// The diagnostic tree of a symptom.
int guide(const CommonOptions& common, const GuideOptions& options);

struct EvidenceOptions {
  std::string machine;
  bool verify = false;
  int machines_each = 120;
  unsigned threads = 0;
  std::string output;  // default: the content folder's evidence/MACHINE.json
  bool raw = false;    // print the readings of the good machine and of every fault, and write nothing
};
int evidence(const CommonOptions& common, const EvidenceOptions& options);

}  // namespace stirbench::cli
