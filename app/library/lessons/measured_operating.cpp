#include <algorithm>

#include "app/library/lessons/prove_draws.h"
#include "sim_core/training/trials/operating.h"

namespace stirbench::library {

namespace {

// Over all lessons that judge the skill, each counting alike.
struct Chances {
  training::TestChances chances;
  int lessons = 0;
};

Chances chances_of(const std::string& skill, Taker taker, const std::vector<LessonDraws>& all) {
  Chances out;
  for (const LessonDraws& one : all) {
    const TakerRow& row = one.of(taker);
    const auto shown = row.shown.find(skill);
    if (row.plays == 0 || shown == row.shown.end()) continue;
    out.chances.passed += static_cast<double>(shown->second) / row.plays;
    out.chances.failed_must += static_cast<double>(row.failed_must.at(skill)) / row.plays;
    ++out.lessons;
  }
  if (out.lessons > 0) {
    out.chances.passed /= out.lessons;
    out.chances.failed_must = std::min(out.chances.failed_must / out.lessons, 1.0 - out.chances.passed);
  }
  return out;
}

SkillOperating operating_of(const training::Demand& demand, const std::string& skill,
                            const std::vector<LessonDraws>& all) {
  SkillOperating out{demand.id, skill};
  const auto judged = [&demand](const Chances& one) {
    return training::operating(demand.plan, one.chances, demand.must_pass_all, demand.tests_each);
  };
  const Chances knowing = chances_of(skill, Taker::follows, all);
  out.lessons = knowing.lessons;
  if (knowing.lessons == 0) return out;
  out.knowing = knowing.chances.passed;
  out.knowing_competent = judged(knowing).competent;
  out.knowing_tests = judged(knowing).mean_tests;
  const Chances slipping = chances_of(skill, Taker::slips, all);
  out.slipping = slipping.chances.passed;
  out.slipping_competent = judged(slipping).competent;
  for (const Taker taker : {Taker::recording, Taker::careless, Taker::idle}) {
    const Chances one = chances_of(skill, taker, all);
    if (!out.by.empty() && one.chances.passed <= out.unknowing) continue;
    out.by = std::string(taker_words(taker));
    out.unknowing = one.chances.passed;
    out.unknowing_competent = judged(one).competent;
    out.unknowing_tests = judged(one).mean_tests;
  }
  return out;
}

}  // namespace

std::vector<SkillOperating> measured_operating(const Library& library, const std::vector<LessonDraws>& all) {
  std::vector<SkillOperating> out;
  for (const auto& [id, demand] : library.demands)
    for (const std::string& skill : demand.skills) out.push_back(operating_of(demand, skill, all));
  return out;
}

}  // namespace stirbench::library
