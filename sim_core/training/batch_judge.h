#pragma once

#include <string_view>

#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"
#include "sim_core/product/cooling_watch.h"
#include "sim_core/product/growth.h"
#include "sim_core/product/heat_rule_watch.h"
#include "sim_core/product/lethality.h"
#include "sim_core/product/quality.h"

// Watches one run beside the step and judges the batch: heat-treatment rules, lethality, cooling, growth,
// storage, ageing, quality. It only reads the state, so a replay of a journal gives the same verdicts.
// Copyable.
//
// Heat-treatment rules are checked each tick; what moves slowly (lethality, cooling, growth) once a simulated
// second and at every addition. When the vat has been emptied the verdicts stay, whatever it is rinsed with,
// until something is poured in: then a new batch begins.
namespace stirbench::training {

class BatchJudge {
 public:
  // The machine must outlive the judge and its copies.
  explicit BatchJudge(const machine::Machine& machine);

  // Every state in order, from the start or from the first step on.
  void see(const machine::State& state);

  const machine::Machine& machine() const { return *machine_; }
  const product::HeatRuleWatch& rows() const { return rows_; }
  const product::LethalityWatch& lethality() const { return lethality_; }
  const product::CoolingWatch& cooling() const { return cooling_; }
  const product::GrowthWatch& growth() const { return growth_; }
  product::QualityReport quality(const machine::State& state) const;

  // Whether the rule of this id is met; false for an unknown id.
  bool row_met(std::string_view id) const;
  // The rule's state as a word: waiting, running, kept, missed or does_not_apply; empty for an unknown id.
  std::string_view cooling_state(std::string_view id) const;

 private:
  const machine::Machine* machine_;
  product::HeatRuleWatch rows_;
  product::LethalityWatch lethality_;
  product::CoolingWatch cooling_;
  product::GrowthWatch growth_;
  bool emptied_ = false;
  bool had_batch_ = false;
  double poured_kg_ = 0.0;
  double brought_kg_ = 0.0;
};

std::string_view cooling_word(product::CoolingState state);
product::VatSample sample_of(const machine::State& state);

}  // namespace stirbench::training
