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

// The number at the front of `text`; empty without one.
std::string_view number_at(std::string_view text) {
  std::size_t at = 0;
  if (text.starts_with("\u2212"))
    at = 3;
  else if (text.starts_with("-"))
    at = 1;
  const std::size_t digits = at;
  while (at < text.size() && text[at] >= '0' && text[at] <= '9') ++at;
  if (at == digits) return {};
  if (at + 1 < text.size() && text[at] == '.' && text[at + 1] >= '0' && text[at + 1] <= '9') {
    ++at;
    while (at < text.size() && text[at] >= '0' && text[at] <= '9') ++at;
  }
  return text.substr(0, at);
}

// What stands between a number and its unit.
std::size_t gap_at(std::string_view text) {
  for (const std::string_view gap : {" ", "\u2009", "\u202f", "\u00a0"}) {
    if (text.starts_with(gap)) return gap.size();
  }
  return 0;
}

struct WrittenUnit {
  std::string_view words;
  kit::Quantity quantity;
  double to_si;
};
constexpr std::array<WrittenUnit, 3> written{{{"°C", kit::Quantity::temperature, 1.0},
                                              {"kg", kit::Quantity::mass, 1.0},
                                              {"L", kit::Quantity::volume, 1.0e-3}}};

// The unit at the front, as a whole: no "kg/m³", no "Lid".
const WrittenUnit* unit_at(std::string_view text) {
  for (const WrittenUnit& one : written) {
    if (!text.starts_with(one.words)) continue;
    const char next = text.size() > one.words.size() ? text[one.words.size()] : ' ';
    const bool goes_on = next == '/' || (next >= 'a' && next <= 'z') || (next >= 'A' && next <= 'Z');
    if (!goes_on) return &one;
  }
  return nullptr;
}

kit::Shown shown_number(std::string_view number, const WrittenUnit& unit, const kit::UnitChoice& units) {
  double value = 0.0;
  kit::read_number(std::string(number), value);
  const std::size_t point = number.find('.');
  const int decimals = point == std::string_view::npos ? 0 : static_cast<int>(number.size() - point) - 1;
  return kit::show(unit.quantity, value * unit.to_si, units, decimals);
}

bool writes_otherwise(const WrittenUnit& unit, const kit::UnitChoice& units) {
  return kit::unit_label(unit.quantity, units) != unit.words;
}

// A figure with its unit, or two with "to" between them, at the front of `text`: what it reads in the
// person's units, and its length here. Length 0: none stands there.
struct Rewritten {
  std::string words;
  std::size_t length = 0;
};
Rewritten figure_at(std::string_view text, const kit::UnitChoice& units) {
  const std::string_view number = number_at(text);
  if (number.empty()) return {};
  std::string_view rest = text.substr(number.size());
  const std::size_t gap = gap_at(rest);
  const WrittenUnit* unit = gap > 0 ? unit_at(rest.substr(gap)) : nullptr;
  if (unit != nullptr && writes_otherwise(*unit, units))
    return {shown_number(number, *unit, units).text(), number.size() + gap + unit->words.size()};
  for (const std::string_view between : {" to ", "–", " and "}) {
    if (unit != nullptr || !rest.starts_with(between)) continue;
    const std::string_view second = number_at(rest.substr(between.size()));
    const std::string_view behind = rest.substr(between.size() + second.size());
    const std::size_t second_gap = gap_at(behind);
    const WrittenUnit* of = second.empty() || second_gap == 0 ? nullptr : unit_at(behind.substr(second_gap));
    if (of != nullptr && writes_otherwise(*of, units))
      return {shown_number(number, *of, units).number + std::string(between) +
                  shown_number(second, *of, units).text(),
              number.size() + between.size() + second.size() + second_gap + of->words.size()};
  }
  return {{}, 0};
}

bool joins_number(char before) {
  return (before >= '0' && before <= '9') || (before >= 'a' && before <= 'z') ||
         (before >= 'A' && before <= 'Z') || before == '.' || before == '-';
}

}  // namespace

std::string words_in_units(const std::string& text, const kit::UnitChoice& units) {
  std::string out;
  const std::string_view all = text;
  for (std::size_t at = 0; at < all.size();) {
    const bool starts = at == 0 || !joins_number(all[at - 1]);
    const Rewritten found = starts ? figure_at(all.substr(at), units) : Rewritten{};
    if (found.length > 0) {
      out += found.words;
      at += found.length;
    } else {
      out += all[at++];
    }
  }
  return out;
}

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
