#pragma once

#include <string>
#include <vector>

#include "app/desk/kit/text/units.h"
#include "sim_core/product/cooling_watch.h"
#include "sim_core/product/heat_rule_watch.h"
#include "sim_core/product/quality.h"

// The judge's verdicts in words and in the person's units.
namespace stirbench::desk::work {

std::string row_words(const product::HeatRule& row,
                      const kit::UnitChoice& units);  // "Frozen dessert mix: 79.4 °C for 25 s"
std::string row_why(const product::HeatRuleVerdict& verdict, const kit::UnitChoice& units);
std::string cooling_words(const product::CoolingRule& rule, const kit::UnitChoice& units);
std::string cooling_why(const product::CoolingRule& rule, const product::CoolingVerdict& verdict,
                        const kit::UnitChoice& units);
std::string storage_why(const product::StorageRule& rule, const product::StorageVerdict& verdict,
                        const kit::UnitChoice& units);
// What lethality takes of an organism: D, z and their source.
std::string organism_words(const product::Inactivation& organism, const kit::UnitChoice& units);
std::string ageing_words(const product::AgeingRule& rule, const kit::UnitChoice& units);
std::vector<std::string> quality_lines(const product::QualityReport& report, const kit::UnitChoice& units);

// "0.05 s", "25 s", "10 min", "1 h 30 min".
std::string hold_words(double seconds);

}  // namespace stirbench::desk::work
