#pragma once

#include <map>
#include <string>

#include "app/library/library.h"
#include "app/reports/paper.h"
#include "sim_core/diagnosis/tree.h"

// A diagnostic tree on paper: cautions first, then numbered steps that a person can follow without the
// program.
namespace stirbench::reports {

struct GuideCard {
  const diagnosis::Model& model;
  const diagnosis::Tree& tree;
  std::string machine_title;
  std::string symptom;  // "Heats slowly"
  std::string who;      // "licensed electrician"
  const std::map<std::string, library::Caution>& cautions;
};

// PDF bytes. Every check is a step with what it needs, how, what a good machine shows, and where each answer
// leads; every end names the probable causes, the repair, its proof and who may do it. A step is not split
// between pages.
std::string guide_card_pdf(const GuideCard& card, Sheet sheet);

}  // namespace stirbench::reports
