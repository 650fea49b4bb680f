#include "app/desk/work/debrief/treatment_words.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"

namespace stirbench::desk::work {

using kit::tr;

namespace {

std::string kind_words(product::ProductKind kind) {
  switch (kind) {
    case product::ProductKind::milk: return tr("Milk");
    case product::ProductKind::rich_milk: return tr("Milk, rich or sweetened");
    case product::ProductKind::mix: return tr("Frozen dessert mix");
    case product::ProductKind::egg_mix: return tr("Egg mix or custard");
    case product::ProductKind::liquid_egg: return tr("Liquid egg");
  }
  return "";
}

// Enough digits for the shortest rows: 0.05 s.
std::string seconds_words(double seconds) {
  const int decimals = seconds < 1.0 ? 2 : seconds < 10.0 ? 1 : 0;
  const bool whole = seconds == std::floor(seconds);
  return kit::plain_number(seconds, whole ? 0 : decimals) + kit::narrow_gap + "s";
}

// Whole degrees without a decimal: short enough for one line.
std::string degrees(double t_degC, const kit::UnitChoice& units) {
  const double shown = to_shown(kit::Quantity::temperature, t_degC, units);
  const bool whole = std::fabs(shown - std::round(shown)) < 0.05;
  return show_text(kit::Quantity::temperature, t_degC, units, whole ? 0 : 1);
}

std::string taste_words(product::TasteWord taste) {
  switch (taste) {
    case product::TasteWord::clean: return tr("Taste: clean");
    case product::TasteWord::cooked: return tr("Taste: cooked, as is usual after high heat");
    case product::TasteWord::slightly_burnt: return tr("Taste: slightly burnt");
    case product::TasteWord::burnt: return tr("Taste: burnt");
  }
  return "";
}

std::string egg_words(product::EggWord egg) {
  switch (egg) {
    case product::EggWord::none: return "";
    case product::EggWord::liquid: return tr("Egg: still liquid");
    case product::EggWord::thickening: return tr("Egg: begins to thicken");
    case product::EggWord::set: return tr("Egg: thickened");
    case product::EggWord::curdling: return tr("Egg: begins to curdle");
    case product::EggWord::curdled: return tr("Egg: curdled");
  }
  return "";
}

}  // namespace

std::string hold_words(double seconds) {
  if (seconds < 120.0 || std::fmod(seconds, 6.0) != 0.0) return seconds_words(seconds);
  const double minutes = seconds / 60.0;
  if (minutes < 90.0)
    return kit::plain_number(minutes, minutes == std::floor(minutes) ? 0 : 1) + kit::narrow_gap + "min";
  const double hours = std::floor(minutes / 60.0);
  const double left = minutes - 60.0 * hours;
  return kit::plain_number(hours, 0) + kit::narrow_gap + "h" +
         (left > 0.0 ? " " + kit::plain_number(left, 0) + kit::narrow_gap + "min" : "");
}

std::string row_words(const product::HeatRule& row, const kit::UnitChoice& units) {
  const std::string what = kind_words(row.kind);
  const std::string heat = degrees(row.temperature_degC, units);
  std::string out = row.hold_s > 0.0
                        ? tr("{product}: {heat} for {time}",
                             {{"product", what}, {"heat", heat}, {"time", hold_words(row.hold_s)}})
                        : tr("{product}: {heat} reached", {{"product", what}, {"heat", heat}});
  if (row.air_space_K > 0.0)
    out += tr(", air above {more} hotter",
              {{"more", show_text(kit::Quantity::temperature_difference, row.air_space_K, units, 1)}});
  if (row.spread_K > 0.0)
    out += tr(", at most {spread} apart",
              {{"spread", show_text(kit::Quantity::temperature_difference, row.spread_K, units, 1)}});
  return out;
}

std::string row_why(const product::HeatRuleVerdict& verdict, const kit::UnitChoice& units) {
  using W = product::HeatRuleShortfall;
  switch (verdict.why) {
    case W::none:
      return tr("Met. Held {held} without a break.", {{"held", kit::show_duration(verdict.held_s)}});
    case W::added_after: return tr("It was met; what was added afterwards took that back.");
    case W::too_cool:
      return tr("The coldest product stayed {short} below.",
                {{"short", show_text(kit::Quantity::temperature_difference, verdict.short_K, units, 1)}});
    case W::air_space: return tr("The air above the product was too cool.");
    case W::spread:
      return tr("Well and vat were too far apart: {span}.",
                {{"span", show_text(kit::Quantity::temperature_difference, verdict.widest_K, units, 1)}});
    case W::not_stirred: return tr("The agitator did not turn all the time.");
    case W::too_short:
      return tr("Held {held} at most; {short} missing.",
                {{"held", seconds_words(verdict.held_s)}, {"short", seconds_words(verdict.short_s)}});
  }
  return "";
}

std::string cooling_words(const product::CoolingRule& rule, const kit::UnitChoice& units) {
  std::string stages;
  for (const product::CoolingStage& stage : rule.stages) {
    stages += (stages.empty() ? "" : ", ") + tr("to {to} in {time}", {{"to", degrees(stage.to_degC, units)},
                                                                      {"time", hold_words(stage.within_s)}});
  }
  switch (rule.start) {
    case product::CoolingStart::falls_below:
      return tr("From {from} {stages}", {{"from", degrees(rule.from_degC, units)}, {"stages", stages}});
    case product::CoolingStart::heat_ends: return tr("After heating: {stages}", {{"stages", stages}});
    case product::CoolingStart::made_cold: return tr("Made without heat: {stages}", {{"stages", stages}});
  }
  return "";
}

std::string cooling_why(const product::CoolingRule& rule, const product::CoolingVerdict& verdict,
                        const kit::UnitChoice& units) {
  std::string took;
  for (std::size_t i = 0; i < rule.stages.size() && verdict.took_s[i] >= 0.0; ++i) {
    took += " " + tr("{to} after {time}.", {{"to", degrees(rule.stages[i].to_degC, units)},
                                            {"time", kit::show_duration(verdict.took_s[i])}});
  }
  switch (verdict.state) {
    case product::CoolingState::waiting: return tr("The clock has not started.");
    case product::CoolingState::running: return tr("Still running.") + took;
    case product::CoolingState::kept: return tr("In time.") + took;
    case product::CoolingState::missed:
      return tr("Too slow: not at {to} in time.",
                {{"to",
                  degrees(rule.stages[std::min(verdict.stage, rule.stages.size() - 1)].to_degC, units)}}) +
             took;
    case product::CoolingState::does_not_apply: return tr("Does not apply: the batch was heated.");
  }
  return "";
}

std::string storage_why(const product::StorageRule& rule, const product::StorageVerdict& verdict,
                        const kit::UnitChoice& units) {
  if (verdict.cold_s < 0.0) return tr("Not that cold yet.");
  std::string out = verdict.above_s > 0.0
                        ? tr("Above it for {time} in all, {longest} at a stretch; up to {warmest}.",
                             {{"time", kit::show_duration(verdict.above_s)},
                              {"longest", kit::show_duration(verdict.longest_s)},
                              {"warmest", degrees(verdict.warmest_degC, units)}})
                        : tr("Never above it since.");
  if (rule.days > 0.0)
    out += " " + tr("Use within {days} days of making.", {{"days", kit::plain_number(rule.days, 0)}});
  return out;
}

std::string organism_words(const product::Inactivation& organism, const kit::UnitChoice& units) {
  return tr(
      "Taken: one decade in {time} at {heat}, ten times as fast each {z} more. Good to a factor of 2. "
      "{source}",
      {{"time", seconds_words(organism.D_s)},
       {"heat", degrees(organism.at_degC, units)},
       {"z", show_text(kit::Quantity::temperature_difference, organism.z_K, units, 1)},
       {"source", organism.source}});
}

std::string ageing_words(const product::AgeingRule& rule, const kit::UnitChoice& units) {
  return tr("Aged {time} at {limit} or below",
            {{"time", hold_words(rule.at_least_s)}, {"limit", degrees(rule.at_most_degC, units)}});
}

std::vector<std::string> quality_lines(const product::QualityReport& report, const kit::UnitChoice& units) {
  std::vector<std::string> out = {taste_words(report.taste)};
  switch (report.specks) {
    case product::SpeckWord::none: out.push_back(tr("Specks: none")); break;
    case product::SpeckWord::few: out.push_back(tr("Specks: a few")); break;
    case product::SpeckWord::many: out.push_back(tr("Specks: many")); break;
  }
  if (report.egg != product::EggWord::none) out.push_back(egg_words(report.egg));
  out.push_back(tr("Whey protein denatured: {share}",
                   {{"share", show_text(kit::Quantity::share, report.whey_denatured_norm, units)}}));
  out.push_back(report.aged ? tr("Aged") : tr("Not aged: the freezer will show it"));
  out.push_back(tr("Cleaning: about {minutes} min, {grams} g burnt on",
                   {{"minutes", kit::plain_number(report.cleaning_min, 0)},
                    {"grams", kit::plain_number(report.deposit_g, 1)}}));
  return out;
}

}  // namespace stirbench::desk::work
