#include "app/cli/lesson.h"

#include <cmath>
#include <memory>

#include "app/cli/judge.h"
#include "app/library/reading/paths.h"
#include "app/records/store.h"
#include "sim_core/bytes/hash64.h"
#include "sim_core/training/guidance/follower.h"
#include "sim_core/training/lesson_run.h"
#include "sim_core/training/score_words.h"
#include "sim_core/training/skill_evidence.h"

namespace stirbench::cli {

namespace {

const training::Lesson& lesson_or_refuse(const library::Library& library, const std::string& id) {
  const auto found = library.lessons.find(id);
  if (found == library.lessons.end()) {
    throw Refusal("lesson: expected one of " + known_ids(library.lessons) + ", found \"" + id + "\"");
  }
  return found->second;
}

// The journal's mode for a run that a file played: never evidence of what a person can do.
constexpr const char* played_file = "actions_file";
constexpr const char* played_guide = "follower";

std::string content_folder(const CommonOptions& common) {
  return common.content_dir.empty() ? library::content_dir() : common.content_dir;
}

}  // namespace

int lesson_list(const CommonOptions& common) {
  const library::Library library = load_library(common);
  if (common.json) {
    nlohmann::json list = nlohmann::json::array();
    for (const auto& [id, lesson] : library.lessons) {
      list.push_back(
          {{"id", id}, {"title", lesson.title}, {"minutes", lesson.minutes}, {"skills", lesson.skills}});
    }
    print_json({{"lessons", list}});
    return exit_done;
  }
  for (const auto& [id, lesson] : library.lessons) {
    print(id + std::string(id.size() < 22 ? 22 - id.size() : 1, ' ') + lesson.title + ", about " +
          fixed(lesson.minutes, 0) + " min. " + lesson.summary);
  }
  return exit_done;
}

int lesson_show(const CommonOptions& common, const std::string& id) {
  const library::Library library = load_library(common);
  const training::Lesson& lesson = lesson_or_refuse(library, id);
  if (common.json) {
    nlohmann::json criteria = nlohmann::json::array();
    for (const auto& c : lesson.criteria) {
      if (c.everywhere) continue;
      criteria.push_back(
          {{"id", c.id}, {"title", c.title}, {"points", c.points}, {"must_pass", c.must_pass}});
    }
    nlohmann::json steps = nlohmann::json::array();
    for (const auto& s : lesson.steps) steps.push_back({{"id", s.id}, {"now", s.now}, {"why", s.why}});
    print_json({{"id", lesson.id},
                {"title", lesson.title},
                {"minutes", lesson.minutes},
                {"machine", lesson.machine},
                {"skills", lesson.skills},
                {"summary", lesson.summary},
                {"page", lesson.page},
                {"cautions", lesson.cautions},
                {"steps", steps},
                {"criteria", criteria},
                {"pass_norm", lesson.pass_norm}});
    return exit_done;
  }
  print(lesson.title + " (" + lesson.id + "), about " + fixed(lesson.minutes, 0) + " min, on " +
        lesson.machine);
  print("");
  print(lesson.page);
  for (const auto& key : lesson.cautions) print("Caution: " + library.cautions.at(key).text);
  print("");
  print("Steps");
  int number = 0;
  for (const auto& step : lesson.steps) print("  " + std::to_string(++number) + ". " + step.now);
  print("Scored on (" + fixed(100.0 * lesson.pass_norm, 0) + " % of the points and every must-pass item)");
  for (const auto& c : lesson.criteria) {
    if (c.everywhere) continue;
    print("  " + fixed(c.points, 0) + " points" + (c.must_pass ? ", must pass: " : ": ") + c.title);
  }
  return exit_done;
}

nlohmann::json card_json(const training::ScoreCard& card) {
  nlohmann::json criteria = nlohmann::json::array();
  for (const auto& c : card.criteria) {
    if (training::goes_without_saying(c)) continue;
    criteria.push_back({{"id", c.id},
                        {"title", c.title},
                        {"met", c.met},
                        {"occasion", c.occasion},
                        {"skill", c.skill},
                        {"must_pass", c.must_pass},
                        {"points", c.points},
                        {"of", c.of},
                        {"credit_norm", c.credit_norm},
                        {"margin", c.has_margin && std::isfinite(c.margin) ? nlohmann::json(c.margin)
                                                                           : nlohmann::json(nullptr)},
                        {"at_s", c.at_s < 0.0 ? nlohmann::json(nullptr) : nlohmann::json(c.at_s)},
                        {"why", c.why}});
  }
  return {{"passed", card.passed},
          {"score_norm", card.score_norm},
          {"pass_norm", card.pass_norm},
          {"criteria", criteria}};
}

void print_card(const training::ScoreCard& card) {
  for (const auto& c : card.criteria) {
    if (training::goes_without_saying(c)) continue;
    const std::string margin = training::margin_sentence(c);
    print(std::string(c.met        ? "met     "
                      : c.occasion ? "missed  "
                                   : "not due ") +
          fixed(c.points, c.points == std::floor(c.points) ? 0 : 1) + "/" + fixed(c.of, 0) +
          (c.must_pass ? "  must pass  " : "  ") + c.title +
          (c.at_s < 0.0 ? "" : "  [" + clock_text(c.at_s) + "]"));
    print("          " + c.why + (margin.empty() ? "" : " " + margin));
  }
  print(training::verdict_sentence(card));
}

namespace {

// Each advised hand as a line of an actions file, then how it ended.
training::Followed play_guide(training::LessonRun& run, bool quiet) {
  training::Followed end =
      training::follow(run, [quiet](const machine::State& state, const training::Advice& advice) {
        if (!quiet) print(library::write_action({machine::time_s(state), "", 0.0, advice.hand}));
      });
  run.session().end();
  return end;
}

std::string_view end_word(training::Followed::End end) {
  switch (end) {
    case training::Followed::End::passed: return "passed";
    case training::Followed::End::said_lost: return "said_lost";
    case training::Followed::End::stranded: break;
  }
  return "stranded";
}

void print_end(const training::Followed& end) {
  if (end.end == training::Followed::End::said_lost)
    print("The guide says that this run cannot pass: " + end.why);
  if (end.end == training::Followed::End::stranded) print("The guide strands: " + end.why);
}

}  // namespace

int lesson_run(const CommonOptions& common, const LessonRunOptions& options) {
  const library::Library library = load_library(common);
  const training::Lesson& usual = lesson_or_refuse(library, options.id);
  const training::Lesson lesson = *library.lesson(options.id, options.seed.value_or(usual.start.seed));
  const machine::Machine machine = machine_or_refuse(library, lesson.machine);
  if (options.follow && !training::can_follow(lesson))
    throw Refusal("lesson run --follow: expected a lesson whose steps all say their hand, found \"" +
                  lesson.id + "\", whose guide is in words alone");
  const std::string file = options.actions.empty()
                               ? content_folder(common) + "/lessons/" + lesson.id + "/right.jsonl"
                               : options.actions;
  std::vector<hands::TimedAction> actions;
  if (!options.follow) actions = actions_or_refuse(file, machine);

  std::unique_ptr<records::JournalFile> journal;
  journal::Session::Write write;
  if (!options.journal.empty()) {
    journal = std::make_unique<records::JournalFile>(options.journal);
    write = [&journal](std::string_view record) { journal->write(record); };
  }
  training::LessonRun run(machine, lesson, options.follow ? played_guide : played_file, STIRBENCH_VERSION,
                          lesson.start.seed, write);
  training::Followed followed;
  if (options.follow)
    followed = play_guide(run, common.json);
  else
    training::play_to_end(run, std::move(actions));
  const training::ScoreCard card = run.card();
  if (common.json) {
    nlohmann::json out = card_json(card);
    const training::BatchJudge* judge = run.scorer().judge();
    if (judge != nullptr) out.update(judge_json(*judge, run.session().state()));
    if (options.follow)
      out["follow"] = {{"end", end_word(followed.end)}, {"why", followed.why}, {"hands", followed.hands}};
    out["lesson"] = lesson.id;
    out["seed"] = lesson.start.seed;
    if (!lesson.drawn.empty()) out["drawn"] = lesson.drawn;
    nlohmann::json skills = nlohmann::json::array();
    for (const training::SkillMark& mark : training::skill_marks(lesson, card))
      skills.push_back({{"skill", mark.skill}, {"passed", mark.passed}, {"musts_missed", mark.musts_missed}});
    out["skills"] = std::move(skills);
    out["simulated_s"] = machine::time_s(run.session().state());
    out["state_hash"] = bytes::hex64(machine::state_hash(run.session().state()));
    print_json(out);
  } else {
    print(lesson.title);
    for (const std::string& one : lesson.drawn) print("Drawn: " + one);
    if (options.follow) print_end(followed);
    print_card(card);
    for (const training::SkillMark& mark : training::skill_marks(lesson, card))
      print("skill   " + mark.skill + (mark.passed ? ": shown" : ": not shown"));
    print("");
    if (run.scorer().judge() != nullptr) print_judge(*run.scorer().judge(), run.session().state());
  }
  return card.passed ? exit_done : exit_no;
}

}  // namespace stirbench::cli
