#include "app/library/lessons/prove_draws.h"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "app/library/lessons/prove_lessons.h"
#include "app/library/share_out.h"
#include "sim_core/hands/handles.h"
#include "sim_core/training/skill_evidence.h"
#include "sim_core/training/trials/players.h"

namespace stirbench::library {

namespace {

using training::Followed;
using training::Lesson;
using training::LessonRun;
using training::ScoreCard;

// What stays the same over the draws of one lesson.
struct Class {
  const machine::Machine& machine;
  std::vector<std::vector<hands::TimedAction>> wrong;
  std::vector<hands::Action> others;
  training::Recording recording;
  std::vector<training::Play> plays{};
};

std::vector<std::vector<hands::TimedAction>> wrong_actions(const std::string& folder,
                                                           const machine::Machine& machine) {
  const std::vector<std::string> files = wrong_runs(folder);
  std::vector<std::vector<hands::TimedAction>> out;
  out.reserve(files.size());
  for (const std::string& file : files) out.push_back(read_actions(file, machine).actions);
  return out;
}

std::vector<hands::Action> out_of_place(const std::vector<std::vector<hands::TimedAction>>& runs) {
  std::vector<hands::Action> out;
  for (const auto& run : runs)
    for (const hands::TimedAction& one : run)
      if (one.action.hand() != nullptr && !one.action.hand()->by_instructor &&
          std::find(out.begin(), out.end(), one.action) == out.end())
        out.push_back(one.action);
  return out;
}

double share_of(const training::CriterionResult& result) {
  if (result.of > 0.0) return result.points / result.of;
  return result.met ? 1.0 : 0.0;
}

void note(LessonDraws& out, Class& all, Taker taker, const Lesson& lesson, const ScoreCard& card) {
  TakerRow& row = out.takers[static_cast<std::size_t>(taker)];
  ++row.plays;
  row.passed += card.passed ? 1 : 0;
  row.score.add(card.score_norm);
  for (const training::SkillMark& mark : training::skill_marks(lesson, card)) {
    row.shown[mark.skill] += mark.passed ? 1 : 0;
    row.failed_must[mark.skill] += !mark.passed && mark.musts_missed > 0 ? 1 : 0;
  }
  training::Play play{taker_knows(taker), {}};
  // The lesson's own come first; what is asked everywhere is no item of it.
  for (std::size_t i = 0; i < lesson.criteria.size() && !lesson.criteria[i].everywhere; ++i)
    play.shares.push_back(share_of(card.criteria[i]));
  all.plays.push_back(std::move(play));
}

ScoreCard play_wrong(Class& all, const Lesson& lesson, std::uint64_t which) {
  LessonRun run = training::trial_run(all.machine, lesson);
  training::play_to_end(run, all.wrong[which % all.wrong.size()]);
  return run.card();
}

// Everything that is played on one draw, the follower first.
void play_draw(LessonDraws& out, Class& all, const Lesson& lesson) {
  const std::uint64_t seed = lesson.start.seed;
  ++out.draws;
  LessonRun followed_run = training::trial_run(all.machine, lesson);
  std::vector<training::GuidedHand> right;
  const Followed followed = training::record_follower(followed_run, right);
  out.lost += followed.end == Followed::End::said_lost ? 1 : 0;
  out.stranded += followed.end == Followed::End::stranded ? 1 : 0;
  if (followed.end != Followed::End::passed) out.why = "seed " + std::to_string(seed) + ": " + followed.why;
  out.minutes.add(machine::time_s(followed_run.state()) / 60.0);
  note(out, all, Taker::follows, lesson, followed.card);
  const auto play = [&](Taker taker, auto&& with) {
    LessonRun run = training::trial_run(all.machine, lesson);
    note(out, all, taker, lesson, with(run));
  };
  const training::Slips slips{slips_norm, seed, all.others};
  play(Taker::slips, [&](LessonRun& run) { return training::play_with_slips(run, slips); });
  play(Taker::careless, [&](LessonRun& run) {
    return training::play_recording(run, training::careless(training::recording_of(right), slips));
  });
  play(Taker::recording, [&](LessonRun& run) { return training::play_recording(run, all.recording); });
  play(Taker::leaves_out, [&](LessonRun& run) {
    const std::size_t hand = right.empty() ? 0 : seed % right.size();
    const std::size_t goal = right.empty() ? 0 : right[hand].goal;
    return training::play_recording(run, training::recording_without(right, goal));
  });
  play(Taker::idle, [](LessonRun& run) { return training::do_nothing(run); });
  if (!all.wrong.empty()) note(out, all, Taker::wrong_run, lesson, play_wrong(all, lesson, seed));
}

LessonDraws play_lesson(const std::string& content_dir, const Library& library, const Lesson& usual,
                        int draws, std::uint64_t seed) {
  LessonDraws out;
  out.lesson = usual.id;
  if (!training::can_follow(usual)) return out;
  const machine::Machine machine = library.machine(usual.machine);
  Class all{machine, wrong_actions(content_dir + "/lessons/" + usual.id, machine), {}, {}};
  all.others = out_of_place(all.wrong);
  LessonRun first = training::trial_run(machine, usual);
  std::vector<training::GuidedHand> hands;
  training::record_follower(first, hands);
  all.recording = training::recording_of(hands);
  for (int i = 0; i < draws; ++i)
    play_draw(out, all, *library.lesson(usual.id, seed + static_cast<std::uint64_t>(i)));
  std::vector<double> points;
  for (const training::Criterion& one : usual.criteria)
    if (!one.everywhere) points.push_back(one.points);
  out.items = training::item_figures(points, all.plays);
  out.alpha = training::alpha_of(points, all.plays);
  return out;
}

std::string per_cent(double norm) { return std::to_string(std::lround(100.0 * norm)) + " %"; }

}  // namespace

void DrawsSpread::add(double x) {
  sum += x;
  squares += x * x;
  n += 1.0;
}
double DrawsSpread::mean() const { return n > 0.0 ? sum / n : 0.0; }
double DrawsSpread::deviation() const {
  return n > 1.0 ? std::sqrt(std::max(0.0, squares - sum * sum / n) / (n - 1.0)) : 0.0;
}

std::string_view taker_words(Taker taker) {
  switch (taker) {
    case Taker::follows: return "follows the guide";
    case Taker::slips: return "slips in 1 hand of 10 and sees it";
    case Taker::careless: return "slips in 1 hand of 10 unseen";
    case Taker::recording: return "repeats another draw";
    case Taker::leaves_out: return "leaves one step out";
    case Taker::wrong_run: return "the lesson's wrong runs";
    case Taker::idle: break;
  }
  return "does nothing";
}

bool taker_knows(Taker taker) { return taker == Taker::follows || taker == Taker::slips; }

std::vector<LessonDraws> play_draws(const std::string& content_dir, const Library& library,
                                    const std::vector<std::string>& ids, int draws, std::uint64_t seed,
                                    unsigned threads, const TellDraws& tell) {
  std::vector<const Lesson*> lessons;
  for (const auto& [id, lesson] : library.lessons)
    if (ids.empty() || std::find(ids.begin(), ids.end(), id) != ids.end()) lessons.push_back(&lesson);
  std::vector<LessonDraws> out(lessons.size());
  std::mutex guard;
  std::size_t done = 0;
  share_out(lessons.size(), threads, [&](std::size_t i) {
    out[i] = play_lesson(content_dir, library, *lessons[i], draws, seed);
    const std::lock_guard<std::mutex> lock(guard);
    ++done;
    if (tell) tell(done, lessons.size());
  });
  return out;
}

std::vector<std::string> draws_problems(const Library& library, const LessonDraws& figures) {
  std::vector<std::string> out;
  const Lesson& lesson = library.lessons.at(figures.lesson);
  if (figures.draws == 0) return {"its guide cannot be followed: some steps are told in words alone"};
  const std::string of_draws = " of " + std::to_string(figures.draws) + " draws";
  const TakerRow& follower = figures.of(Taker::follows);
  if (follower.passed < figures.draws)
    out.push_back("the guide's follower passes " + std::to_string(follower.passed) + of_draws + "; " +
                  figures.why);
  if (follower.score.deviation() > most_score_spread_norm)
    out.push_back("the follower's score spreads by " + per_cent(follower.score.deviation()) +
                  " over the draws, more than " + per_cent(most_score_spread_norm));
  if (figures.minutes.deviation() > most_minutes_spread * figures.minutes.mean())
    out.push_back("the follower's minutes spread by " +
                  per_cent(figures.minutes.deviation() / figures.minutes.mean()) +
                  " over the draws, more than " + per_cent(most_minutes_spread));
  const std::vector<std::string> judged = training::judged_skills(lesson);
  const bool counts =
      std::any_of(library.demands.begin(), library.demands.end(), [&judged](const auto& entry) {
        return std::any_of(judged.begin(), judged.end(), [&entry](const std::string& skill) {
          const auto& asked = entry.second.skills;
          return std::find(asked.begin(), asked.end(), skill) != asked.end();
        });
      });
  const auto too_many = [&](Taker taker) {
    const TakerRow& row = figures.of(taker);
    // A single pass proves nothing where draws are few.
    if (row.passed > std::max(1.0, most_recorded_norm * row.plays))
      out.push_back("who " + std::string(taker_words(taker)) + " passes " + std::to_string(row.passed) +
                    " of " + std::to_string(row.plays));
  };
  if (counts) too_many(Taker::recording);
  too_many(Taker::idle);
  if (figures.of(Taker::idle).score.mean() > most_idle_norm)
    out.push_back("who does nothing scores " + per_cent(figures.of(Taker::idle).score.mean()) +
                  ", more than " + per_cent(most_idle_norm));
  return out;
}

}  // namespace stirbench::library
