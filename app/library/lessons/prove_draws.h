#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "app/library/library.h"
#include "sim_core/training/trials/items.h"

// Whether a lesson's draws are parallel forms of one test, and what its items tell: each lesson taken on many
// draws by made-up people (training/trials/players.h).
namespace stirbench::library {

// Bounds, choices all. Of the follower's score and minutes over the draws: standard deviation.
inline constexpr double most_score_spread_norm = 0.05;
inline constexpr double most_minutes_spread = 0.35;  // of the mean
// Share of draws that a recording of another draw, or a shipped wrong run, may pass.
inline constexpr double most_recorded_norm = 0.10;
// Mean score of one who does nothing.
inline constexpr double most_idle_norm = 0.10;
// Of the hands of those who slip.
inline constexpr double slips_norm = 0.10;

struct DrawsSpread {
  double sum = 0.0, squares = 0.0, n = 0.0;
  void add(double x);
  double mean() const;
  double deviation() const;  // n - 1
};

enum class Taker : unsigned char { follows, slips, careless, recording, leaves_out, wrong_run, idle };
inline constexpr int taker_count = 7;
std::string_view taker_words(Taker taker);
bool taker_knows(Taker taker);

// One kind of made-up person in one lesson.
struct TakerRow {
  int plays = 0;
  int passed = 0;
  DrawsSpread score;                       // 0 .. 1
  std::map<std::string, int> shown;        // skill -> plays that showed it
  std::map<std::string, int> failed_must;  // skill -> plays that missed a must-pass item of it
};

struct LessonDraws {
  std::string lesson;
  int draws = 0;
  int lost = 0;      // of the follower's plays: its card said that the run could not pass
  int stranded = 0;  // of them: neither passed nor said so
  std::string why;   // of the last that did not pass
  DrawsSpread minutes;
  std::vector<TakerRow> takers = std::vector<TakerRow>(taker_count);
  std::vector<training::ItemFigures> items;  // in the order of the lesson's criteria
  double alpha = 0.0;

  const TakerRow& of(Taker taker) const { return takers[static_cast<std::size_t>(taker)]; }
};

// Called after each lesson, one call at a time.
using TellDraws = std::function<void(std::size_t done, std::size_t all)>;

// Plays each lesson of `ids` (empty: all that can be followed) on draws of seeds seed .. seed + draws - 1. A
// lesson whose guide cannot be followed has 0 draws. `threads` 0: as many as the computer has.
std::vector<LessonDraws> play_draws(const std::string& content_dir, const Library& library,
                                    const std::vector<std::string>& ids, int draws, std::uint64_t seed,
                                    unsigned threads = 0, const TellDraws& tell = {});

// What the figures hold against a lesson; each one sentence. The bar for recordings holds for lessons that
// judge a skill which some demand asks for.
std::vector<std::string> draws_problems(const Library& library, const LessonDraws& figures);

// A demand's skill: the measured chances of those who know and of those who do not in one test, and how often
// one series of tests would then end with "competent".
struct SkillOperating {
  std::string demand;
  std::string skill;
  int lessons = 0;  // measured, of those that judge it
  double knowing = 0.0, knowing_competent = 0.0, knowing_tests = 0.0;
  double slipping = 0.0, slipping_competent = 0.0;  // one hand in ten goes wrong, and is seen to
  double unknowing = 0.0, unknowing_competent = 0.0, unknowing_tests = 0.0;
  std::string by;  // which of those who do not know comes furthest
};
std::vector<SkillOperating> measured_operating(const Library& library, const std::vector<LessonDraws>& all);

}  // namespace stirbench::library
