#include "app/desk/screens/debrief/treatment.h"

#include <algorithm>
#include <vector>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/work/debrief/treatment_words.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

bool wanted(const std::string& jurisdiction, const std::string& rules_of) {
  return rules_of.empty() || jurisdiction == rules_of;
}

struct Look {
  kit::Icon icon;
  kit::Token colour;
};
constexpr Look good{kit::Icon::check, kit::Token::ok};
constexpr Look bad{kit::Icon::cross, kit::Token::bad};
constexpr Look open{kit::Icon::dot, kit::Token::ink2};

// One line of the judge; pressed: its moment, else a negative value.
double line(kit::Ui& ui, const std::string& id, const std::string& words, const std::string& detail,
            const Look& look, double at_s) {
  kit::RowStyle row;
  row.title = words;
  row.detail = detail;
  row.right = at_s >= 0.0 ? kit::show_duration(at_s) : "";
  row.icon = look.icon;
  row.icon_colour = look.colour;
  row.enabled = at_s >= 0.0;
  row.reason = tr("No single moment decided this.");
  return list_row(ui, id, row) ? at_s : -1.0;
}

// What was met first, then what was taken back, then the rest; each in the order of the rules.
double draw_rows(kit::Ui& ui, const training::BatchJudge& judge, const std::string& rules_of) {
  const auto& rows = judge.machine().rules.rows;
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const bool of_a_batch = rows[i].kind != product::ProductKind::liquid_egg;  // egg by itself is no mix
    if (of_a_batch && wanted(rows[i].jurisdiction, rules_of)) order.push_back(i);
  }
  const auto rank = [&judge](std::size_t i) {
    const product::HeatRuleVerdict verdict = judge.rows().verdict(i);
    return verdict.met ? 0 : verdict.why == product::HeatRuleShortfall::added_after ? 1 : 2;
  };
  std::stable_sort(order.begin(), order.end(),
                   [&rank](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  double moment = -1.0;
  for (const std::size_t i : order) {
    const product::HeatRuleVerdict verdict = judge.rows().verdict(i);
    const double at_s = verdict.met ? verdict.at_s : verdict.undone_s;
    const double pressed = line(ui, "debrief.row." + rows[i].id, work::row_words(rows[i], ui.units),
                                tr(rows[i].jurisdiction) + " · " + work::row_why(verdict, ui.units),
                                verdict.met ? good : bad, at_s);
    moment = std::max(moment, pressed);
  }
  if (order.empty())
    text(ui, tr("No heat-treatment row is known for this choice."), {.colour = kit::Token::ink2});
  return moment;
}

// Beyond this a figure has lost its sense: nothing is left to count.
std::string decades(double log10) {
  constexpr double sense = 99.0;
  return log10 > sense ? tr("more than {n}", {{"n", kit::plain_number(sense, 0)}})
                       : kit::plain_number(log10, 1);
}

// One of the content's organisms, or all.
void choose_organism(kit::Ui& ui, const std::vector<product::Inactivation>& organisms, int& organism) {
  std::vector<std::string> labels = {tr("All organisms")};
  for (const product::Inactivation& one : organisms) {
    labels.push_back(tr("{organism}, {medium}", {{"organism", tr(one.title)}, {"medium", tr(one.medium)}}));
  }
  organism = std::clamp(organism, 0, static_cast<int>(organisms.size()));
  choice(ui, "debrief.organism", tr("Organism"), labels, organism);
}

void draw_lethality(kit::Ui& ui, const training::BatchJudge& judge, int& organism) {
  notice(ui, "debrief.pasteuriser", kit::Status::info,
         tr("The machine heat-treats; it is a pasteuriser only where it is approved as one. These figures "
            "teach; they release no batch."));
  const auto& organisms = judge.machine().rules.inactivation;
  choose_organism(ui, organisms, organism);
  for (std::size_t i = 0; i < organisms.size(); ++i) {
    if (organism > 0 && static_cast<std::size_t>(organism - 1) != i) continue;
    text(ui,
         tr("{organism} in {medium}: {decades} decades", {{"organism", tr(organisms[i].title)},
                                                          {"medium", tr(organisms[i].medium)},
                                                          {"decades", decades(judge.lethality().log10(i))}}),
         {.id = ("debrief.lethality." + organisms[i].id).c_str()});
    if (organism > 0)
      text(ui, work::organism_words(organisms[i], ui.units),
           {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "debrief.organism.data"});
  }
}

double draw_cooling(kit::Ui& ui, const training::BatchJudge& judge, const std::string& rules_of) {
  const product::Rules& rules = judge.machine().rules;
  double moment = -1.0;
  for (std::size_t i = 0; i < rules.cooling.size(); ++i) {
    const product::CoolingRule& rule = rules.cooling[i];
    if (!wanted(rule.jurisdiction, rules_of)) continue;
    const product::CoolingVerdict verdict = judge.cooling().cooling(i);
    const Look& look = verdict.state == product::CoolingState::kept     ? good
                       : verdict.state == product::CoolingState::missed ? bad
                                                                        : open;
    moment = std::max(moment, line(ui, "debrief.cooling." + rule.id, work::cooling_words(rule, ui.units),
                                   tr(rule.jurisdiction) + " · " + work::cooling_why(rule, verdict, ui.units),
                                   look, verdict.at_s));
  }
  for (std::size_t i = 0; i < rules.storage.size(); ++i) {
    const product::StorageRule& rule = rules.storage[i];
    if (!wanted(rule.jurisdiction, rules_of)) continue;
    const product::StorageVerdict verdict = judge.cooling().storage(i);
    const Look& look = verdict.cold_s < 0.0 ? open : verdict.above_s > 0.0 ? bad : good;
    moment = std::max(moment, line(ui, "debrief.storage." + rule.id,
                                   tr("Kept at {limit} or below",
                                      {{"limit", ui.shown(kit::Quantity::temperature, rule.at_most_degC)}}),
                                   tr(rule.jurisdiction) + " · " + work::storage_why(rule, verdict, ui.units),
                                   look, verdict.cold_s));
  }
  for (std::size_t i = 0; i < rules.ageing.size(); ++i) {
    const product::AgeingVerdict verdict = judge.cooling().ageing(i);
    moment = std::max(moment, line(ui, "debrief.ageing." + rules.ageing[i].id,
                                   work::ageing_words(rules.ageing[i], ui.units),
                                   tr("Aged {time} so far.", {{"time", kit::show_duration(verdict.aged_s)}}),
                                   verdict.done_s >= 0.0 ? good : open, verdict.done_s));
  }
  return moment;
}

void draw_growth(kit::Ui& ui, const training::BatchJudge& judge) {
  const auto& organisms = judge.machine().rules.growth;
  for (std::size_t i = 0; i < organisms.size(); ++i) {
    text(ui,
         tr("{organism}, as in {medium}: grown by {decades} decades since the heat",
            {{"organism", tr(organisms[i].title)},
             {"medium", tr(organisms[i].medium)},
             {"decades", kit::plain_number(judge.growth().grown_log10(i), 2)}}),
         {.id = ("debrief.growth." + organisms[i].id).c_str()});
  }
}

}  // namespace

double draw_treatment(kit::Ui& ui, const training::BatchJudge& judge, const machine::State& end,
                      const std::string& rules_of, int& organism, const kit::Rect& rect) {
  kit::PanelScope panel(ui, "debrief.treatment", rect, {.caption = tr("Heat treatment and cooling")});
  text(ui,
       tr("At the end of the run. Rules of: {place}",
          {{"place", rules_of.empty() ? tr("all places") : tr(rules_of)}}),
       {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "debrief.rules_of"});
  gap(ui, 6.0F);
  title(ui, tr("Quality"));
  for (const std::string& words : work::quality_lines(judge.quality(end), ui.units)) text(ui, words);
  gap(ui, 10.0F);
  title(ui, tr("Cooling and keeping"));
  double moment = draw_cooling(ui, judge, rules_of);
  gap(ui, 6.0F);
  draw_growth(ui, judge);
  gap(ui, 10.0F);
  title(ui, tr("Lethality, coldest product"));
  draw_lethality(ui, judge, organism);
  gap(ui, 10.0F);
  title(ui, tr("Published heat-treatment rows"));
  moment = std::max(moment, draw_rows(ui, judge, rules_of));
  return moment;
}

}  // namespace stirbench::desk::screens
