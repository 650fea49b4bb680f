#include "app/cli/judge.h"

#include <map>

namespace stirbench::cli {

namespace {

using nlohmann::json;

json moment(double t_s) { return t_s < 0.0 ? json(nullptr) : json(t_s); }

const char* short_word(product::HeatRuleShortfall why) {
  switch (why) {
    case product::HeatRuleShortfall::none: return "met";
    case product::HeatRuleShortfall::added_after: return "added_after";
    case product::HeatRuleShortfall::too_cool: return "too_cool";
    case product::HeatRuleShortfall::air_space: return "air_space";
    case product::HeatRuleShortfall::spread: return "spread";
    case product::HeatRuleShortfall::not_stirred: return "not_stirred";
    case product::HeatRuleShortfall::too_short: return "too_short";
  }
  return "";
}

json heat_json(const training::BatchJudge& judge) {
  const product::Rules& rules = judge.machine().rules;
  json rows = json::array();
  for (std::size_t i = 0; i < rules.rows.size(); ++i) {
    const product::HeatRule& row = rules.rows[i];
    const product::HeatRuleVerdict verdict = judge.rows().verdict(i);
    rows.push_back({{"id", row.id},
                    {"jurisdiction", row.jurisdiction},
                    {"met", verdict.met},
                    {"at_s", moment(verdict.at_s)},
                    {"held_s", verdict.held_s},
                    {"span_K", {{"mean", verdict.mean_span_K}, {"widest", verdict.widest_K}}},
                    {"short_by", {{"s", verdict.short_s}, {"K", verdict.short_K}}},
                    {"why", short_word(verdict.why)},
                    {"undone_s", moment(verdict.undone_s)}});
  }
  json organisms = json::array();
  for (std::size_t i = 0; i < rules.inactivation.size(); ++i) {
    organisms.push_back({{"id", rules.inactivation[i].id}, {"log10", judge.lethality().log10(i)}});
  }
  return {{"rows", rows},
          {"organisms", organisms},
          {"caution", "The machine heat-treats; it is a pasteuriser only where it is approved as one."}};
}

json cooling_json(const training::BatchJudge& judge) {
  const product::Rules& rules = judge.machine().rules;
  const product::CoolingWatch& watch = judge.cooling();
  json list = json::array();
  for (std::size_t i = 0; i < rules.cooling.size(); ++i) {
    const product::CoolingVerdict verdict = watch.cooling(i);
    json stages = json::array();
    for (std::size_t s = 0; s < rules.cooling[i].stages.size(); ++s) {
      const product::CoolingStage& stage = rules.cooling[i].stages[s];
      stages.push_back(
          {{"to_degC", stage.to_degC}, {"within_s", stage.within_s}, {"took_s", moment(verdict.took_s[s])}});
    }
    list.push_back({{"id", rules.cooling[i].id},
                    {"jurisdiction", rules.cooling[i].jurisdiction},
                    {"state", training::cooling_word(verdict.state)},
                    {"start_s", moment(verdict.start_s)},
                    {"at_s", moment(verdict.at_s)},
                    {"stages", stages}});
  }
  json storage = json::array();
  for (std::size_t i = 0; i < rules.storage.size(); ++i) {
    const product::StorageVerdict verdict = watch.storage(i);
    storage.push_back({{"id", rules.storage[i].id},
                       {"jurisdiction", rules.storage[i].jurisdiction},
                       {"at_most_degC", rules.storage[i].at_most_degC},
                       {"cold_s", moment(verdict.cold_s)},
                       {"above_s", verdict.above_s},
                       {"longest_s", verdict.longest_s},
                       {"warmest_degC", verdict.cold_s < 0.0 ? json(nullptr) : json(verdict.warmest_degC)},
                       {"use_by_s", moment(verdict.use_by_s)}});
  }
  json ageing = json::array();
  for (std::size_t i = 0; i < rules.ageing.size(); ++i) {
    const product::AgeingVerdict verdict = watch.ageing(i);
    ageing.push_back(
        {{"id", rules.ageing[i].id}, {"aged_s", verdict.aged_s}, {"done_s", moment(verdict.done_s)}});
  }
  json growth = json::array();
  for (std::size_t i = 0; i < rules.growth.size(); ++i) {
    growth.push_back({{"id", rules.growth[i].id}, {"log10", judge.growth().grown_log10(i)}});
  }
  return {{"rules", list}, {"storage", storage}, {"ageing", ageing}, {"growth", growth}};
}

json quality_json(const product::QualityReport& q) {
  return {{"whey_denatured_norm", q.whey_denatured_norm},
          {"egg", product::word(q.egg)},
          {"egg_set_norm", q.egg_set_norm},
          {"egg_curd_norm", q.egg_curd_norm},
          {"burnt_g_per_kg", q.burnt_g_per_kg},
          {"specks", product::word(q.specks)},
          {"taste", product::word(q.taste)},
          {"deposit_g", q.deposit_g},
          {"cleaning_min", q.cleaning_min},
          {"aged", q.aged},
          {"age_norm", q.age_norm},
          {"hydration_norm", q.hydration_norm}};
}

std::string label(const std::string& words) {
  return words + std::string(words.size() < 17 ? 17 - words.size() : 1, ' ');
}

void print_rows(const training::BatchJudge& judge) {
  const auto& rows = judge.machine().rules.rows;
  std::map<std::string, std::pair<int, int>> met_of;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].kind == product::ProductKind::liquid_egg) continue;  // egg by itself is no batch
    auto& [met, all] = met_of[rows[i].jurisdiction];
    met += judge.rows().verdict(i).met ? 1 : 0;
    ++all;
  }
  for (const auto& [jurisdiction, counts] : met_of) {
    if (counts.first == 0) continue;
    print(label("rows met") + jurisdiction + ": " + std::to_string(counts.first) + " of " +
          std::to_string(counts.second));
  }
  if (judge.rows().met_count() == 0) print(label("rows met") + "none");
}

}  // namespace

json judge_json(const training::BatchJudge& judge, const machine::State& state) {
  return {{"heat_treatment", heat_json(judge)},
          {"cooling", cooling_json(judge)},
          {"quality", quality_json(judge.quality(state))}};
}

void print_judge(const training::BatchJudge& judge, const machine::State& state) {
  const product::Rules& rules = judge.machine().rules;
  print_rows(judge);
  for (std::size_t i = 0; i < rules.cooling.size(); ++i) {
    const product::CoolingVerdict verdict = judge.cooling().cooling(i);
    if (verdict.state == product::CoolingState::waiting ||
        verdict.state == product::CoolingState::does_not_apply)
      continue;
    print(label("cooling") + rules.cooling[i].title + ": " +
          std::string(training::cooling_word(verdict.state)) +
          (verdict.at_s < 0.0 ? "" : " at " + clock_text(verdict.at_s)));
  }
  const product::QualityReport q = judge.quality(state);
  print(label("quality") + "taste " + std::string(product::word(q.taste)) + ", specks " +
        std::string(product::word(q.specks)) + ", whey protein " + fixed(100.0 * q.whey_denatured_norm, 0) +
        " % denatured" +
        (q.egg == product::EggWord::none ? "" : ", egg " + std::string(product::word(q.egg))) +
        (q.aged ? ", aged" : ", not aged"));
  print(label("cleaning") + "about " + fixed(q.cleaning_min, 0) + " min, " + fixed(q.deposit_g, 1) +
        " g burnt on");
}

}  // namespace stirbench::cli
