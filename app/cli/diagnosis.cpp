#include "app/cli/diagnosis.h"

#include "app/cli/diagnosis_internal.h"

#include <algorithm>
#include <charconv>

#include "app/fitting/log_finding.h"
#include "app/fitting/request.h"
#include "app/library/guide/symptom_search.h"
#include "app/library/reading/paths.h"
#include "sim_core/diagnosis/tree.h"

namespace stirbench::cli {

using namespace diagnosis;
using nlohmann::json;

library::FaultGuides guides_or_refuse(const CommonOptions& common, const library::Library& library,
                                      bool with_evidence) {
  library::FaultGuides shelf =
      library::load_guides(common.content_dir.empty() ? library::content_dir() : common.content_dir, library);
  if (!with_evidence)
    std::erase_if(shelf.problems,
                  [](const library::Problem& one) { return one.file.starts_with("evidence/"); });
  if (!shelf.problems.empty()) throw Refusal(join_problems(shelf.problems));
  return shelf;
}

library::GuideModel model_or_refuse(const CommonOptions& common, const library::Library& library,
                                    const std::string& machine) {
  machine_or_refuse(library, machine);
  const library::FaultGuides shelf = guides_or_refuse(common, library);
  const auto found = shelf.guides.find(machine);
  if (found == shelf.guides.end())
    throw Refusal("--machine: expected one with a fault guide (" + known_ids(shelf.guides) + "), found \"" +
                  machine + "\"");
  const auto evidence = shelf.evidence.find(machine);
  return library::guide_model(found->second, evidence == shelf.evidence.end() ? nullptr : &evidence->second);
}

library::Library guide_library_or_refuse(const CommonOptions& common) {
  library::LoadResult loaded =
      library::load_for_guide(common.content_dir.empty() ? library::content_dir() : common.content_dir);
  if (!loaded.problems.empty()) throw Refusal(join_problems(loaded.problems));
  return std::move(loaded.library);
}

namespace {

template <typename List>
std::string ids_of(const List& list) {
  std::string out;
  for (const auto& one : list) out += (out.empty() ? "" : ", ") + one.id;
  return out;
}

}  // namespace

std::size_t symptom_or_refuse(const Model& model, const std::string& text) {
  const std::size_t found = model.symptom_index(text);
  if (found != Model::npos) return found;
  // Plain words are good enough when they fit one symptom clearly better than the next.
  const auto hits = library::search_symptoms(model, text);
  if (!hits.empty() && hits[0].score >= 0.6 && (hits.size() == 1 || hits[0].score > hits[1].score + 0.15))
    return hits[0].symptom;
  throw Refusal("--symptom: expected one of " + ids_of(model.symptoms) + ", found \"" + text + "\"");
}

namespace {

Finding finding_or_refuse(const Model& model, const std::string& text) {
  const std::size_t equal = text.find('=');
  if (equal == std::string::npos) throw Refusal("--finding: expected CHECK=OUTCOME, found \"" + text + "\"");
  const std::string check = text.substr(0, equal);
  std::string outcome = text.substr(equal + 1);
  Finding finding;
  if (const std::size_t at = outcome.find('@'); at != std::string::npos) {
    const char* end = outcome.data() + outcome.size();
    const auto [stop, error] = std::from_chars(outcome.data() + at + 1, end, finding.sure);
    if (error != std::errc() || stop != end || !(finding.sure >= 0.0 && finding.sure <= 1.0))
      throw Refusal("--finding: expected how sure in 0 .. 1 after @, found \"" + text + "\"");
    outcome.resize(at);
  }
  finding.question = model.check_question(check);
  if (finding.question == Model::npos) finding.question = model.symptom_index(check);
  if (finding.question == Model::npos)
    throw Refusal("--finding: expected a check (" + ids_of(model.checks) + "), found \"" + check + "\"");
  finding.outcome = model.outcome_index(finding.question, outcome);
  if (finding.outcome == Model::npos) {
    const std::string known =
        model.is_symptom(finding.question) ? "no, yes" : ids_of(model.check(finding.question).outcomes);
    throw Refusal("--finding " + check + ": expected one of " + known + ", found \"" + outcome + "\"");
  }
  return finding;
}

}  // namespace

Who who_or_refuse(const std::string& text) {
  if (const std::optional<Who> who = faults::who_named(text)) return *who;
  std::string known;
  for (const std::string_view word : faults::who_words())
    known += (known.empty() ? "" : ", ") + std::string(word);
  throw Refusal("--who: expected one of " + known + ", found \"" + text + "\"");
}

json repair_json(const Model& model, const RepairAdvice& one) {
  const Cause& cause = model.causes[one.cause];
  return {{"cause", cause.id},
          {"p", one.p},
          {"minutes", one.minutes},
          {"before_call", one.before_call},
          {"who", who_word(cause.who)}};
}

namespace {

json causes_json(const Model& model, const Posterior& known, const std::vector<Finding>& findings,
                 const NextSteps& next) {
  json ranked = json::array();
  for (const Ranked& one : known.ranked()) {
    json why = json::array();
    for (const WeightOfEvidence& reason : weights_of_evidence(model, findings, one.cause)) {
      why.push_back({{"finding", model.question_title(findings[reason.finding].question)},
                     {"log10_ratio", reason.log10_ratio}});
    }
    const Cause& cause = model.causes[one.cause];
    ranked.push_back({{"id", cause.id},
                      {"title", cause.title},
                      {"p", one.p},
                      {"alone_p", known.single_p[one.cause]},
                      {"misuse", cause.kind == faults::FaultKind::misuse},
                      {"why", why}});
  }
  json pairs = json::array();
  for (const PairEntry& one : known.pairs)
    pairs.push_back({{"causes", {model.causes[one.first].id, model.causes[one.second].id}}, {"p", one.p}});
  json checks = json::array();
  for (const CheckAdvice& one : next.checks) {
    json outcomes = json::array();
    const Check& check = model.check(one.question);
    for (std::size_t o = 0; o < one.outcome_p.size(); ++o)
      outcomes.push_back({{"id", check.outcomes[o].id}, {"p", one.outcome_p[o]}});
    checks.push_back({{"id", check.id},
                      {"title", check.title},
                      {"minutes", one.minutes},
                      {"change_min", one.change_min},
                      {"saves_min", one.saves_min},
                      {"information_bits", one.information_bits},
                      {"needs", access_state_word(check.needs)},
                      {"who", who_word(check.who)},
                      {"cautions", check.cautions},
                      {"outcomes", outcomes}});
  }
  json repairs = json::array();
  for (const RepairAdvice& one : next.repairs) repairs.push_back(repair_json(model, one));
  json odd = json::array();
  for (std::size_t i = 0; i < known.fits.size(); ++i) {
    if (known.fits[i].contradicts)
      odd.push_back({{"finding", model.question_title(findings[i].question)},
                     {"p_given_rest", known.fits[i].p_given_rest}});
  }
  return {{"machine", model.machine},
          {"causes", ranked},
          {"pairs", pairs},
          {"pair_p", known.pair_p},
          {"unknown_p", known.unknown_p},
          {"contradictions", odd},
          {"next", checks},
          {"repair_now", next.repair_now},
          {"repairs", repairs},
          {"expected_min", next.expected_min},
          {"at_least_min", next.at_least_min},
          {"call_now_min", next.call_now_min}};
}

}  // namespace

std::string percent(double p) { return fixed(100.0 * p, p < 0.1 ? 1 : 0) + " %"; }

static void print_causes(const Model& model, const Posterior& known, const std::vector<Finding>& findings,
                         const NextSteps& next) {
  print("probable causes");
  for (const Ranked& one : known.ranked()) {
    if (one.p < 0.01) break;
    const auto reasons = weights_of_evidence(model, findings, one.cause);
    std::string why;
    if (!reasons.empty() && reasons.front().log10_ratio > 0.0) {
      const Finding& finding = findings[reasons.front().finding];
      why = "  (" + model.question_title(finding.question) +
            (model.is_symptom(finding.question)
                 ? ""
                 : ": " + model.outcome_title(finding.question, finding.outcome)) +
            ")";
    }
    print("  " + percent(one.p) + "  " + model.causes[one.cause].title + why);
  }
  if (known.unknown_p >= 0.01)
    print("  " + percent(known.unknown_p) + "  something that is not in this guide");
  if (known.pair_p >= 0.02) print("  " + percent(known.pair_p) + " for two causes at once");
  for (std::size_t i = 0; i < known.fits.size(); ++i) {
    if (!known.fits[i].contradicts) continue;
    print("  does not fit the rest: " + model.question_title(findings[i].question) + " (1 in " +
          fixed(1.0 / std::max(known.fits[i].p_given_rest, 1e-6), 0) + ")");
  }
  print(next.repair_now ? "next: repair, no check is worth its time" : "next check");
  for (std::size_t i = 0; i < next.checks.size() && i < 5 && !next.repair_now; ++i) {
    const Check& check = model.check(next.checks[i].question);
    print("  " + check.title + ": " + fixed(next.checks[i].minutes, 1) + " min, " +
          std::string(access_state_title(check.needs)) + ", " + std::string(who_title(check.who)) +
          ", saves " + fixed(next.checks[i].saves_min, 1) + " min");
  }
  print("repairs in order");
  for (std::size_t i = 0; i < next.repairs.size() && i < 4; ++i) {
    const RepairAdvice& one = next.repairs[i];
    if (one.p < 0.01) continue;
    print("  " + percent(one.p) + "  " + model.causes[one.cause].title + ": " + fixed(one.minutes, 0) +
          " min, " + std::string(who_title(model.causes[one.cause].who)) +
          (one.before_call ? "" : " (after calling service)"));
  }
  print("expected " + fixed(next.expected_min, 0) + " min to a working machine; no plan is under " +
        fixed(next.at_least_min, 0) + " min");
  print(
      "Usual cautions hold: isolate, lock, prove dead. Electrical and refrigerant work is for licensed "
      "people; local codes come first.");
}

void say_state(const library::GuideModel& guide) {
  if (!guide.simulated)
    say("There is no evidence for this machine yet: only the rates of the causes speak.");
  else if (guide.stale)
    say("The evidence is older than the content: run stirbench evidence.");
}

// The finding that a log is, and what it is made of on stderr.
static Finding log_finding_or_refuse(const library::Library& library, const CausesOptions& options,
                                     Model& model) {
  FitOptions log = options.log;
  log.machine = options.machine;
  const identification::FitRequest request =
      fit_request_or_refuse(log, machine_or_refuse(library, options.machine));
  const fitting::LogFinding found = fitting::log_finding(model, fitting::explanations_of(library, request));
  say(log.log + ": " + found.words + ".");
  return {fitting::add_log_question(model, found), 1};
}

int causes(const CommonOptions& common, const CausesOptions& options) {
  if (options.symptoms.empty() && options.log.log.empty())
    throw Refusal("--symptom: expected at least one, or a log of a batch by --log");
  const library::Library library = guide_library_or_refuse(common);
  library::GuideModel guide = model_or_refuse(common, library, options.machine);
  Model& model = guide.model;
  std::vector<Finding> findings;
  for (const std::string& text : options.symptoms) findings.push_back({symptom_or_refuse(model, text), 1});
  for (const std::string& text : options.findings) findings.push_back(finding_or_refuse(model, text));
  if (!options.log.log.empty()) findings.push_back(log_finding_or_refuse(library, options, model));
  const Constraints situation{who_or_refuse(options.who), AccessState::standing, {}};
  say_state(guide);
  const Posterior known = posterior(model, findings);
  const NextSteps next = next_checks(model, findings, situation);
  if (common.json) {
    json out = causes_json(model, known, findings, next);
    out["machines_simulated"] = guide.machines;
    out["stale"] = guide.stale;
    print_json(out);
  } else
    print_causes(model, known, findings, next);
  return exit_done;
}

}  // namespace stirbench::cli
