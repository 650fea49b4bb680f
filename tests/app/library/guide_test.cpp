#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>

#include "app/library/guide/likelihood_simulation.h"
#include "app/library/guide/symptom_search.h"
#include "sim_core/diagnosis/posterior.h"
#include "tests/app/library/scratch.h"

using namespace stirbench;
using library_test::Scratch;
using library_test::shipped;
using test_support::TempFolder;

namespace {

const library::FaultGuides& shelf() {
  static const library::FaultGuides loaded = library::load_guides(library_test::content_dir(), shipped());
  return loaded;
}
const library::FaultGuide& guide() { return shelf().guides.at("hm-45"); }

// A scratch folder's guides, and what is wrong with them in one text.
library::FaultGuides shelf_of(const Scratch& scratch) {
  return library::load_guides(scratch.dir(), shipped());
}
std::string problems_of(const Scratch& scratch) { return library_test::joined(shelf_of(scratch).problems); }

// Two faults of content, one protocol, one symptom, one check on the shipped machine: seconds of simulated
// time.
void put_small_guide(const Scratch& scratch) {
  scratch.write("fault_guides/hm-45.json", R"({
  "format": 1, "id": "hm-45", "service_min": 120, "prove_min": 2, "pair_years": 0.01, "misuse_years": 0.001, "unknown_norm": 0.01,
  "conditions": {"start_min": 0.5, "stop_min": 0.2, "isolate_min": 4, "restore_min": 2, "covers_off_min": 5, "covers_on_min": 5, "make_live_min": 3},
  "protocols": [{"id": "warming", "title": "Heat pressed", "loaded": [{"ingredient": "water", "kg": 30, "degC": 10}],
                 "actions": [{"at_s": 1, "do": "press", "key": "heat"}], "until_s": 40}],
  "symptoms": [{"id": "cold", "title": "Heats weakly", "words": ["lukewarm"], "meaning": "It heats less than it should.",
                "reading": {"protocol": "warming", "signal": "mean:heaters_W"}, "high": 5000}],
  "causes": ["element_1_open", "lid_not_shut"],
  "checks": [{"id": "see-lid", "title": "Look at the lid", "kind": "look", "minutes": 0.2, "needs": "standing", "who": "anyone", "cautions": [],
              "how": "look", "expected": "shut", "reading": {"protocol": "warming", "signal": "lid_open"},
              "outcomes": [{"id": "shut", "title": "Shut", "high": 0.5}, {"id": "open", "title": "Open"}]}]
})");
  std::filesystem::remove_all(scratch.file("evidence"));
}

}  // namespace

TEST_CASE("shipped guide: consistent, enough of everything, precautions where they belong") {
  const library::GuideModel made = library::guide_model(guide(), &shelf().evidence.at("hm-45"));
  const diagnosis::Model& model = made.model;
  CHECK_NOTHROW(diagnosis::check_model(model));
  CHECK(made.simulated);
  CHECK_FALSE(made.stale);
  CHECK(model.causes.size() >= 45);
  CHECK(model.checks.size() >= 70);
  CHECK(std::count_if(model.causes.begin(), model.causes.end(),
                      [](const auto& c) { return c.kind == faults::FaultKind::misuse; }) >= 5);
  for (const diagnosis::Check& check : model.checks) {
    CAPTURE(check.id);
    // Whoever opens covers or works isolated is told about locking out; live work is the electrician's and
    // says so.
    const auto has = [&](const char* key) {
      return std::find(check.cautions.begin(), check.cautions.end(), key) != check.cautions.end();
    };
    if (check.needs == diagnosis::AccessState::isolated) CHECK(has("lock_out"));
    if (check.needs == diagnosis::AccessState::open_live) {
      CHECK(has("electricity"));
      CHECK(check.who == diagnosis::Who::electrician);
    }
    if (check.who == diagnosis::Who::refrigeration) CHECK(has("refrigerant_flammable"));
  }
}

TEST_CASE("shipped evidence: every fault shows as some symptom, every check distinguishes some causes") {
  const diagnosis::Model model = library::guide_model(guide(), &shelf().evidence.at("hm-45")).model;
  for (std::size_t c = 0; c < model.causes.size(); ++c) {
    double best = 0.0;
    for (std::size_t s = 0; s < model.symptoms.size(); ++s)
      best = std::max(best, diagnosis::cause_likelihood(model, c, s, 1));
    CHECK_MESSAGE(best > 0.3, model.causes[c].id << " shows as no symptom");
  }
  for (std::size_t q = model.symptoms.size(); q < model.question_count(); ++q) {
    double least = 1.0;
    for (std::size_t c = 0; c < model.causes.size(); ++c)
      least = std::min(least, diagnosis::cause_likelihood(model, c, q, 0));
    CHECK_MESSAGE(least < 0.5, model.question_title(q) << " answers alike for every cause");
  }
}

TEST_CASE("errors in a guide are reported with their place") {
  const Scratch scratch("guide-wrong");
  put_small_guide(scratch);
  CHECK(problems_of(scratch).empty());
  struct Row {
    const char *from, *to, *says;
  };
  for (const Row& row : {Row{"\"element_1_open\"", "\"element_1_opn\"", "did you mean \"element_1_open\""},
                         Row{"\"lid_not_shut\"", "\"element_1_open\"", "/causes"},
                         Row{"\"signal\": \"lid_open\"", "\"signal\": \"lid_opn\"",
                             "there is no signal, instrument or part \"lid_opn\""},
                         Row{"\"protocol\": \"warming\", \"signal\": \"lid_open\"",
                             "\"protocol\": \"warm\", \"signal\": \"lid_open\"", "no protocol \"warm\""},
                         Row{"\"key\": \"heat\"", "\"key\": \"haet\"", "/protocols/0/actions"},
                         Row{"mean:heaters_W", "when:heaters_W", "when:NAME>VALUE"},
                         Row{"mean:heaters_W", "odd(heaters_W, lid_open)", "odd joins three"},
                         Row{"mean:heaters_W", "clamp:99999", "clamp:99999"},
                         Row{"\"needs\": \"standing\", \"who\": \"anyone\", \"cautions\"",
                             "\"needs\": \"open_live\", \"who\": \"anyone\", \"cautions\"", "electrician"}}) {
    CAPTURE(row.says);
    put_small_guide(scratch);
    scratch.change("fault_guides/hm-45.json", row.from, row.to);
    CHECK(problems_of(scratch).find(row.says) != std::string::npos);
  }
}

TEST_CASE("shipped evidence: written again it is the same file") {
  for (const auto& [id, evidence] : shelf().evidence) {
    CAPTURE(id);
    CHECK(library::likelihood_text(evidence) ==
          test_support::read_file(library_test::content_dir() + "/evidence/" + id + ".json"));
  }
  CHECK(shelf().evidence.contains("hm-45"));
}

TEST_CASE(
    "evidence: the same file with any number of threads, resumes after a stop, is recognised as stale") {
  const Scratch scratch("evidence");
  put_small_guide(scratch);
  const library::FaultGuides content = shelf_of(scratch);
  REQUIRE(content.problems.empty());
  const TempFolder folder("evidence-kept");
  library::LikelihoodPlan plan{6, 3, 1, folder.file("kept")};
  const std::string one =
      library::likelihood_text(library::simulate_likelihoods(shipped(), content, "hm-45", plan));
  plan.threads = 3;
  plan.kept_file.clear();
  CHECK(library::likelihood_text(library::simulate_likelihoods(shipped(), content, "hm-45", plan)) == one);
  // Stopped after its first row, the second torn in the middle.
  const std::string kept = test_support::read_file(folder.file("kept"));
  const std::size_t first_end = kept.find('\n', kept.find('\n') + 1);
  test_support::write_file(folder.file("kept"), kept.substr(0, first_end + 25));
  plan.kept_file = folder.file("kept");
  std::size_t taken_over = 0;
  const library::LikelihoodTable again =
      library::simulate_likelihoods(shipped(), content, "hm-45", plan,
                                    [&](const library::LikelihoodProgress& p) { taken_over = p.taken_over; });
  CHECK(taken_over == 1);
  CHECK(library::likelihood_text(again) == one);
  // Another plan takes nothing over.
  plan.seed = 4;
  library::simulate_likelihoods(shipped(), content, "hm-45", plan,
                                [&](const library::LikelihoodProgress& p) { taken_over = p.taken_over; });
  CHECK(taken_over == 0);

  scratch.write("evidence/hm-45.json", one);
  const library::FaultGuides with = shelf_of(scratch);
  CHECK(library::verify_likelihoods(shipped(), with, "hm-45").empty());
  // The counts say what the physics does: an open element weakens the heating, an open lid stops it.
  const diagnosis::Model model =
      library::guide_model(with.guides.at("hm-45"), &with.evidence.at("hm-45")).model;
  CHECK(diagnosis::cause_likelihood(model, 0, 0, 1) > 0.8);
  CHECK(diagnosis::cause_likelihood(model, 1, 1, 1) > 0.8);
  scratch.change("fault_guides/hm-45.json", "\"degC\": 10", "\"degC\": 11");
  const library::FaultGuides changed = shelf_of(scratch);
  CHECK(library::guide_model(changed.guides.at("hm-45"), &changed.evidence.at("hm-45")).stale);
  CHECK_FALSE(library::verify_likelihoods(shipped(), changed, "hm-45").empty());
}

TEST_CASE("symptoms are found by plain words, misspelt ones too") {
  const diagnosis::Model model = library::guide_model(guide(), nullptr).model;
  const auto first = [&](const char* query) {
    const auto hits = library::search_symptoms(model, query);
    return hits.empty() ? std::string("nothing") : model.symptoms[hits.front().symptom].id;
  };
  CHECK(first("heats slowly") == "heats-slowly");
  CHECK(first("heets slowlly") == "heats-slowly");
  CHECK(first("slow heat") == "heats-slowly");
  CHECK(first("nothing works") == "display-dark");
  CHECK(first("black screen") == "display-dark");
  CHECK(first("ratle") == "knocks");
  CHECK(first("burnt taste") == "burnt-taste");
  CHECK(first("the machine does not stir") == "does-not-stir");
  CHECK(first("ovrload") == "alarm-overload");
  CHECK(first("pail fills slowly") == "draws-slowly");
  CHECK(first("qqqqzzzz") == "nothing");
  CHECK(library::search_symptoms(model, "").size() == model.symptoms.size());
}
