#include "tests/golden/random_starts.h"

#include <algorithm>
#include <filesystem>

#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "tests/support/dice.h"

namespace stirbench::golden_test {

namespace {

using hands::Action;

constexpr std::size_t most_hands = 40;

// Hands whose one effect is an injury, and work that only an injury or its own end interrupts: drawn at
// random they end the run before the guide can speak.
bool only_hurts(const Action& action) {
  return action.is(hands::reach_in) || action.is(hands::touch_wall) || action.is(hands::touch_part) ||
         action.is(hands::open_refrigerant) || action.is(hands::scrub);
}

void add(std::vector<Action>& list, const Action& action) {
  if (action.hand() == nullptr || action.hand()->by_instructor || only_hurts(action)) return;
  if (std::find(list.begin(), list.end(), action) == list.end()) list.push_back(action);
}

void add_common(std::vector<Action>& list) {
  for (const Action& one :
       {hands::open_lid(), hands::close_lid(), hands::open_shaft_cover(), hands::close_shaft_cover(),
        hands::press("stop"), hands::press("stir"), hands::press("heat"), hands::press("chill"),
        hands::press("run"), hands::press_emergency_stop(), hands::release_emergency_stop(),
        hands::turn_draw_valve(0.1), hands::turn_draw_valve(0.0), hands::acknowledge("all")})
    add(list, one);
}

// Hash of the lesson's id, so that two lessons do not get the same row of hands.
std::uint64_t salt_of(const std::string& id) {
  std::uint64_t salt = 1469598103934665603ULL;
  for (const char c : id) salt = (salt ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return salt;
}

std::string count_end(const training::Followed& end, FollowCount& count) {
  using E = training::Followed::End;
  ++count.starts;
  if (end.end == E::passed) ++count.passed;
  if (end.end == E::said_lost) ++count.said_lost;
  if (end.end != E::stranded) return end.end == E::passed ? "" : "lost: " + end.why;
  ++count.stranded;
  count.why = end.why;
  return "STRANDED: " + end.why;
}

}  // namespace

Course::Course(const library::Library& library, const training::Lesson& lesson,
               const std::string& content_dir)
    : machine_(library.machine(lesson.machine)), lesson_(lesson) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(content_dir + "/lessons/" + lesson.id)) {
    if (entry.path().extension() == ".jsonl") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  for (const auto& file : files) {
    for (const auto& one : library::read_actions(file.string(), machine_).actions)
      add(vocabulary_, one.action);
  }
  for (const training::LessonStep& step : lesson.steps) {
    if (step.means.hand) add(vocabulary_, *step.means.hand);
  }
  add_common(vocabulary_);
}

FollowCount Course::follow_from_start() const {
  FollowCount count;
  training::LessonRun run(machine_, lesson_, "follower", "test", lesson_.start.seed);
  count_end(training::follow(run), count);
  return count;
}

std::string Course::follow_after_hands(std::uint64_t seed, FollowCount& count) const {
  test_support::Dice dice{seed ^ salt_of(lesson_.id)};
  training::LessonRun run(machine_, lesson_, "follower", "test", lesson_.start.seed);
  const std::size_t hands = dice.below(most_hands + 1);
  for (std::size_t i = 0; i < hands && !run.over(); ++i) {
    const Action& drawn = vocabulary_[dice.below(vocabulary_.size())];
    const std::size_t ticks = 5 + dice.below(116);
    if (!hands::why_not(machine_, run.state(), drawn).empty()) continue;
    run.act(drawn);
    for (std::size_t k = 0; k < ticks && !run.over(); ++k) run.step();
  }
  if (run.over()) {
    ++count.starts;
    ++count.ended;
    return "";
  }
  return count_end(training::follow(run), count);
}

}  // namespace stirbench::golden_test
