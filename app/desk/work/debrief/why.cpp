#include "app/desk/work/debrief/why.h"

#include <array>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "sim_core/training/score_words.h"

namespace stirbench::desk::work {

using kit::tr;

namespace {

// What the ending of a signal's name means here, and the factor to SI.
struct Ending {
  std::string_view suffix;
  kit::Quantity quantity;
  double to_si;
};

// Longer endings first where one ends with another.
constexpr std::array<Ending, 5> endings{{{"_L_per_min", kit::Quantity::flow, 1.0e-3 / 60.0},
                                         {"_degC", kit::Quantity::temperature, 1.0},
                                         {"_kg", kit::Quantity::mass, 1.0},
                                         {"_L", kit::Quantity::volume, 1.0e-3},
                                         {"_W", kit::Quantity::power, 1.0}}};

std::string in_units(const training::QuotedNumber& figure, const kit::UnitChoice& units) {
  for (const Ending& ending : endings) {
    if (!figure.signal.ends_with(ending.suffix)) continue;
    kit::Quantity quantity = ending.quantity;
    if (figure.difference && quantity == kit::Quantity::temperature)
      quantity = kit::Quantity::temperature_difference;
    const double value = (figure.difference ? std::fabs(figure.value) : figure.value) * ending.to_si;
    // Small amounts on a scale: tenths of a kilogram would hide 20 g of stabiliser.
    return show_text(quantity, value, units, quantity == kit::Quantity::mass ? 2 : -1);
  }
  return {};
}

}  // namespace

std::string why_in_units(const training::CriterionResult& result, const kit::UnitChoice& units) {
  if (result.why_text.empty()) return result.why;
  training::Placeholders words = result.why_words;
  for (const training::QuotedNumber& figure : result.why_figures) {
    const std::string shown = in_units(figure, units);
    if (!shown.empty()) words.*figure.slot = shown;
  }
  return training::fill_placeholders(result.why_text, words);
}

std::string margin_in_units(const training::CriterionResult& result, const kit::UnitChoice& units) {
  if (!training::has_margin_words(result)) return {};
  const double size = std::fabs(result.margin);
  std::string shown = in_units({nullptr, result.margin_signal, size, true}, units);
  if (shown.empty() && result.margin_signal == "held_s") shown = kit::show_duration(size);
  if (shown.empty() && result.margin_signal.empty()) shown = kit::plain_number(size, 0);
  if (shown.empty()) shown = training::difference_text(result.margin_signal, size);
  const std::string words = tr(std::string(training::margin_words(result)), {{"size", shown}});
  if (result.met || result.credit_norm <= 0.0) return "(" + words + ".)";
  return tr("({margin}, so {p} % of the points.)",
            {{"margin", words}, {"p", kit::plain_number(100.0 * result.credit_norm, 0)}});
}

std::string verdict_words(const training::ScoreCard& card) {
  std::string words =
      tr("The pass mark is {mark} %.", {{"mark", kit::plain_number(100.0 * card.pass_norm, 0)}});
  const training::Decision decision = training::decision_of(card);
  if (decision.criteria.empty()) return words;
  std::string list;
  for (const training::CriterionResult* c : decision.criteria)
    list += (list.empty() ? "" : "; ") + tr(c->title);
  return words + " " +
         tr(decision.by_must_pass ? "Decided by must-pass items, whatever the points: {list}."
                                  : "What cost most: {list}.",
            {{"list", list}});
}

std::string missed_in_brief(const training::CriterionResult& result, const kit::UnitChoice& units) {
  std::string found = margin_in_units(result, units);
  if (found.size() > 2) {
    found = found.substr(1, found.size() - 2);  // without its brackets
  } else {
    found = why_in_units(result, units);
    const std::size_t end = found.find(". ");
    if (end != std::string::npos) found.resize(end + 1);
  }
  return tr("You missed: {what}. {found}", {{"what", tr(result.title)}, {"found", found}});
}

}  // namespace stirbench::desk::work
