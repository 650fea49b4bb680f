#include <doctest/doctest.h>

#include "app/desk/work/debrief/treatment_words.h"
#include "app/desk/work/debrief/why.h"

using namespace stirbench;
using namespace stirbench::desk::kit;
using namespace stirbench::desk::work;

namespace {

const UnitChoice celsius;
UnitChoice fahrenheit() {
  UnitChoice out;
  out.temperature = TemperatureUnit::degF;
  out.mass = MassUnit::pound;
  return out;
}

std::string plain(std::string words) {
  for (std::size_t at = words.find(narrow_gap); at != std::string::npos; at = words.find(narrow_gap))
    words.replace(at, std::string(narrow_gap).size(), " ");
  return words;
}

}  // namespace

TEST_CASE("rows and cooling rules in the person's units") {
  product::HeatRule row;
  row.temperature_degC = 79.444444;
  row.hold_s = 25.0;
  CHECK(plain(row_words(row, celsius)) == "Frozen dessert mix: 79.4 °C for 25 s");
  CHECK(plain(row_words(row, fahrenheit())) == "Frozen dessert mix: 175 °F for 25 s");
  row.hold_s = 0.05;
  row.kind = product::ProductKind::milk;
  CHECK(plain(row_words(row, celsius)) == "Milk: 79.4 °C for 0.05 s");
  product::CoolingRule rule;
  rule.from_degC = 57.0;
  rule.stages = {{21.0, 7200.0}, {5.0, 21600.0}};
  CHECK(plain(cooling_words(rule, celsius)) == "From 57 °C to 21 °C in 2 h, to 5 °C in 6 h");
  CHECK(plain(hold_words(5400.0)) == "1 h 30 min");
  CHECK(plain(hold_words(600.0)) == "10 min");
  CHECK(plain(hold_words(372.0)) == "6.2 min");
}

TEST_CASE("why a row is not met says by how much") {
  product::HeatRuleVerdict verdict;
  verdict.why = product::HeatRuleShortfall::too_cool;
  verdict.short_K = 1.5;
  CHECK(plain(row_why(verdict, celsius)) == "The coldest product stayed 1.5 °C below.");
  CHECK(plain(row_why(verdict, fahrenheit())) == "The coldest product stayed 2.7 °F below.");
  verdict.why = product::HeatRuleShortfall::too_short;
  verdict.held_s = 20.0;
  verdict.short_s = 5.0;
  CHECK(plain(row_why(verdict, celsius)) == "Held 20 s at most; 5 s missing.");
}

TEST_CASE("a criterion's reason follows the units, and keeps its words without them") {
  training::CriterionResult result;
  result.why = "At 12:31 the product was at 84.2 °C, 0.8 K short of 85.0 °C; 1.00 kg.";
  CHECK(why_in_units(result, fahrenheit()) == result.why);
  result.why_text = "At {time} the product was at {value}, {by} short of {bound}; {low}.";
  result.why_words.time = "12:31";
  result.why_figures = {{&training::Placeholders::value, "probe_degC", 84.2, false},
                        {&training::Placeholders::by, "probe_degC", -0.8, true},
                        {&training::Placeholders::bound, "probe_degC", 85.0, false},
                        {&training::Placeholders::low, "event_kg", 1.0, false}};
  CHECK(plain(why_in_units(result, fahrenheit())) ==
        "At 12:31 the product was at 183.6 °F, 1.4 °F short of 185.0 °F; 2.20 lb.");
  CHECK(plain(why_in_units(result, celsius)) ==
        "At 12:31 the product was at 84.2 °C, 0.8 °C short of 85.0 °C; 1.00 kg.");
}
