#include "app/cli/checking/check_draws.h"

#include <array>
#include <chrono>

#include "app/library/lessons/prove_draws.h"

namespace stirbench::cli {

namespace {

using library::LessonDraws;
using library::Taker;
using library::TakerRow;

constexpr std::array<Taker, library::taker_count> takers{
    Taker::follows,    Taker::slips,     Taker::careless, Taker::recording,
    Taker::leaves_out, Taker::wrong_run, Taker::idle};

std::string padded(std::string text, std::size_t width) {
  if (text.size() < width) text.append(width - text.size(), ' ');
  return text;
}

std::string right(const std::string& text, std::size_t width) {
  return (text.size() < width ? std::string(width - text.size(), ' ') : "") + text;
}

std::string per_cent(double norm) { return fixed(100.0 * norm, 0); }

std::string passed_of(const TakerRow& row) {
  return row.plays == 0 ? "-" : std::to_string(row.passed) + "/" + std::to_string(row.plays);
}

void print_lessons(const std::vector<LessonDraws>& all) {
  print("Passed by made-up people, the follower's score and minutes over the draws, and alpha:");
  print(padded("  lesson", 34) + right("follows", 9) + right("slips", 9) + right("careless", 9) +
        right("repeats", 9) + right("leaves", 9) + right("wrong", 9) + right("idle", 9) +
        right("score %", 13) + right("minutes", 15) + right("alpha", 7));
  for (const LessonDraws& one : all) {
    std::string line = padded("  " + one.lesson, 34);
    for (const Taker taker : takers) line += right(passed_of(one.of(taker)), 9);
    const library::DrawsSpread& score = one.of(Taker::follows).score;
    line += right(per_cent(score.mean()) + " +- " + per_cent(score.deviation()), 13) +
            right(fixed(one.minutes.mean(), 1) + " +- " + fixed(one.minutes.deviation(), 1), 15) +
            right(fixed(one.alpha, 2), 7);
    print(line);
  }
}

void print_items(const library::Library& library, const std::vector<LessonDraws>& all) {
  print(
      "Items, with difficulty (share earned by all), discrimination and gain (those who know over the "
      "rest):");
  for (const LessonDraws& one : all) {
    const auto& criteria = library.lessons.at(one.lesson).criteria;
    for (std::size_t i = 0; i < one.items.size(); ++i) {
      const training::ItemFigures& item = one.items[i];
      print(padded("  " + one.lesson, 34) + padded(criteria[i].id, 26) + right(fixed(item.difficulty, 2), 6) +
            right(fixed(item.discrimination, 2), 7) + right(fixed(item.gain, 2), 7) +
            (item.tells() ? "" : "   tells nothing"));
    }
  }
}

void print_operating(const std::vector<library::SkillOperating>& all) {
  print("Chance to show a skill in one test, and of \"competent\" in one series, measured:");
  print(padded("  demand", 20) + padded("skill", 18) + right("lessons", 8) + right("knows", 8) +
        right("competent", 11) + right("tests", 7) + right("slips", 8) + right("competent", 11) +
        right("not", 7) + right("competent", 11) + right("tests", 7) + "  who does not know");
  for (const library::SkillOperating& one : all)
    print(padded("  " + one.demand, 20) + padded(one.skill, 18) + right(std::to_string(one.lessons), 8) +
          right(fixed(one.knowing, 3), 8) + right(fixed(one.knowing_competent, 4), 11) +
          right(fixed(one.knowing_tests, 1), 7) + right(fixed(one.slipping, 3), 8) +
          right(fixed(one.slipping_competent, 4), 11) + right(fixed(one.unknowing, 3), 7) +
          right(fixed(one.unknowing_competent, 6), 11) + right(fixed(one.unknowing_tests, 1), 7) + "  " +
          one.by);
}

nlohmann::json lesson_json(const library::Library& library, const LessonDraws& one) {
  nlohmann::json players = nlohmann::json::array();
  for (const Taker taker : takers) {
    const TakerRow& row = one.of(taker);
    players.push_back({{"who", library::taker_words(taker)},
                       {"plays", row.plays},
                       {"passed", row.passed},
                       {"score_mean", row.score.mean()},
                       {"score_deviation", row.score.deviation()}});
  }
  nlohmann::json items = nlohmann::json::array();
  const auto& criteria = library.lessons.at(one.lesson).criteria;
  for (std::size_t i = 0; i < one.items.size(); ++i)
    items.push_back({{"criterion", criteria[i].id},
                     {"difficulty", one.items[i].difficulty},
                     {"discrimination", one.items[i].discrimination},
                     {"gain", one.items[i].gain},
                     {"tells", one.items[i].tells()}});
  return {{"lesson", one.lesson},
          {"draws", one.draws},
          {"passed", one.of(Taker::follows).passed},
          {"said_lost", one.lost},
          {"stranded", one.stranded},
          {"minutes_mean", one.minutes.mean()},
          {"minutes_deviation", one.minutes.deviation()},
          {"alpha", one.alpha},
          {"players", std::move(players)},
          {"items", std::move(items)}};
}

nlohmann::json operating_json(const library::SkillOperating& one) {
  return {{"demand", one.demand},
          {"skill", one.skill},
          {"lessons", one.lessons},
          {"knowing", one.knowing},
          {"knowing_competent", one.knowing_competent},
          {"knowing_tests", one.knowing_tests},
          {"slipping", one.slipping},
          {"slipping_competent", one.slipping_competent},
          {"unknowing", one.unknowing},
          {"unknowing_competent", one.unknowing_competent},
          {"unknowing_tests", one.unknowing_tests},
          {"unknowing_by", one.by}};
}

// A line a tenth of the lessons, with the time left at the pace so far.
library::TellDraws progress_of_lessons() {
  const auto began = std::chrono::steady_clock::now();
  return [began, told = std::size_t{0}](std::size_t done, std::size_t all) mutable {
    const std::size_t tenth = 10 * done / all;
    if (tenth <= told || done == all) return;
    told = tenth;
    const double elapsed_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
    const double left_s = elapsed_s * static_cast<double>(all - done) / static_cast<double>(done);
    say(std::to_string(done) + " of " + std::to_string(all) + " lessons, about " + clock_text(left_s) +
        " left");
  };
}

}  // namespace

std::vector<std::string> check_draws(const std::string& content_dir, const library::Library& library,
                                     const CheckDrawsOptions& options, nlohmann::json* json) {
  const std::vector<LessonDraws> all = library::play_draws(
      content_dir, library, options.lessons, options.draws, options.seed, 0, progress_of_lessons());
  std::vector<std::string> problems;
  for (const LessonDraws& one : all)
    for (const std::string& problem : library::draws_problems(library, one))
      problems.push_back("lessons/" + one.lesson + ": " + problem);
  const std::vector<library::SkillOperating> operating = library::measured_operating(library, all);
  if (json != nullptr) {
    nlohmann::json lessons = nlohmann::json::array();
    for (const LessonDraws& one : all) lessons.push_back(lesson_json(library, one));
    nlohmann::json rules = nlohmann::json::array();
    for (const auto& one : operating) rules.push_back(operating_json(one));
    *json = {{"lessons", std::move(lessons)}, {"operating", std::move(rules)}, {"problems", problems}};
    return problems;
  }
  print_lessons(all);
  print_items(library, all);
  if (options.lessons.empty()) print_operating(operating);
  return problems;
}

}  // namespace stirbench::cli
