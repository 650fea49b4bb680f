#include "sim_core/training/scorer.h"

#include <algorithm>
#include <optional>

#include "sim_core/training/guidance/fault_guidance.h"
#include "sim_core/training/guidance/step_follower.h"
#include "sim_core/training/monitors.h"
#include "sim_core/training/occasion.h"
#include "sim_core/training/words.h"

namespace stirbench::training {

namespace {

// Rounding of sums such as 0.1 + 0.2 must not cost a pass.
constexpr double points_slack = 1.0e-9;

// "hot_wall", "injury" or "" (any harm): a person is hurt; "bushing_worn" is damage.
bool names_injury(std::string_view key) {
  if (key.empty() || key == "injury") return true;
  for (std::size_t i = 0; i < machine::harm_count; ++i) {
    const auto harm = static_cast<machine::HarmId>(i);
    if (machine::harm_key(harm) == key) return machine::harm_is_injury(harm);
  }
  return false;
}

// Whether a criterion is about a person being hurt.
bool speaks_of_injury(const Condition& c) {
  constexpr std::string_view prefix = "harm_";
  if (c.op == Op::event && c.event == machine::EventKind::harm && names_injury(c.text)) return true;
  if (c.signal != nullptr && c.signal->name.starts_with(prefix) &&
      names_injury(c.signal->name.substr(prefix.size())))
    return true;
  return std::any_of(c.parts.begin(), c.parts.end(), speaks_of_injury);
}

// What every lesson asks without saying it. Its words come from the harm itself.
CriterionResult injury_result(const machine::State& state) {
  const machine::Harm& harm = state.harms[static_cast<std::size_t>(state.injury)];
  CriterionResult result;
  result.id = std::string(injury_criterion);
  result.title = "Nobody was hurt";
  result.must_pass = true;
  result.at_s = static_cast<double>(harm.tick) * machine::tick_s;
  result.why = std::string(machine::harm_text(state.injury)) + " (At " + clock_text(result.at_s) + ".)";
  return result;
}

bool is_empty(const Condition& c) { return c.op == Op::all && c.parts.empty(); }

}  // namespace

struct Scorer::Memory {
  explicit Memory(const Lesson& lesson)
      : guide(lesson.steps),
        goals(lesson.steps),
        can_follow(training::can_follow(lesson)),
        monitors(lesson.criteria.size()) {
    plans.reserve(lesson.criteria.size());
    for (const Criterion& criterion : lesson.criteria) {
      plans.emplace_back(criterion.monitor);
      occasions.emplace_back(criterion);
    }
    missed.reserve(lesson.criteria.size());
    if (lesson.guide) grounds.emplace(lesson.guide, lesson.reported);
  }

  StepFollower guide;
  Goals goals;
  bool can_follow = false;
  std::vector<CompiledMonitor> plans;
  std::vector<MonitorState> monitors;
  std::vector<Occasion> occasions;
  std::vector<int> missed;
  std::optional<Grounds> grounds;
  FaultGuidance fault_guidance;
  std::optional<BatchJudge> judge;  // made with the first moment, which knows the machine
  bool over = false;
};

Scorer::Scorer(const Lesson& lesson) : lesson_(&lesson), memory_(std::make_unique<Memory>(lesson)) {}
Scorer::Scorer(const Scorer& other)
    : lesson_(other.lesson_), memory_(std::make_unique<Memory>(*other.memory_)) {
  // A copied vector has no spare room; later misses must not allocate.
  memory_->missed.reserve(lesson_->criteria.size());
}
Scorer& Scorer::operator=(const Scorer& other) {
  if (this != &other) {
    Scorer copy(other);
    lesson_ = copy.lesson_;
    memory_ = std::move(copy.memory_);
  }
  return *this;
}
Scorer::~Scorer() = default;

void Scorer::see(const Moment& seen) {
  Memory& memory = *memory_;
  if (memory.over) return;
  if (!memory.judge) memory.judge.emplace(seen.machine);
  memory.judge->see(seen.state);
  if (memory.grounds) memory.grounds->see(seen);
  const Moment moment{seen.machine, seen.state, seen.events, &*memory.judge, grounds()};
  for (std::size_t i = 0; i < memory.monitors.size(); ++i) {
    memory.occasions[i].see(moment);
    if (feed_monitor(lesson_->criteria[i].monitor, memory.plans[i], memory.monitors[i], moment)) {
      memory.missed.push_back(static_cast<int>(i));
    }
  }
  memory.guide.see(lesson_->steps, moment);
  memory.goals.see(lesson_->steps, moment);
  const bool too_long = lesson_->limit_s > 0.0 && machine::time_s(moment.state) >= lesson_->limit_s;
  // An injury stops the run.
  memory.over = too_long || moment.state.injured || (!is_empty(lesson_->end) && holds(lesson_->end, moment));
}

const BatchJudge* Scorer::judge() const { return memory_->judge ? &*memory_->judge : nullptr; }

const Grounds* Scorer::grounds() const { return memory_->grounds ? &*memory_->grounds : nullptr; }

bool Scorer::lesson_over() const { return memory_->over; }
int Scorer::current_step() const { return memory_->guide.current(); }
const std::vector<int>& Scorer::missed_so_far() const { return memory_->missed; }

std::size_t Scorer::next_goal() const {
  return memory_->can_follow ? memory_->goals.next() : static_cast<std::size_t>(memory_->guide.current());
}

Advice Scorer::advice(const Moment& seen) const {
  if (!memory_->can_follow) return told(*lesson_, next_goal());
  const Moment moment{seen.machine, seen.state, seen.events, judge(), grounds()};
  const std::size_t goal = memory_->goals.next();
  const bool by_guide = goal < lesson_->steps.size() && lesson_->steps[goal].fault_work != FaultPhase::none;
  if (by_guide && memory_->grounds)
    return memory_->fault_guidance.advise(*lesson_, memory_->goals, *memory_->grounds, moment);
  return advise(*lesson_, memory_->goals, moment);
}

Prospect Scorer::prospect(const Moment& seen) const {
  const Moment moment{seen.machine, seen.state, seen.events, judge(), grounds()};
  return prospect_of(*lesson_, card(seen), memory_->missed, moment);
}

ScoreCard Scorer::card(const Moment& seen) const {
  const Moment moment{seen.machine, seen.state, seen.events, judge(), grounds()};
  ScoreCard card;
  double earned = 0.0;
  double all = 0.0;
  bool musts_met = true;
  bool injury_told = false;
  for (std::size_t i = 0; i < memory_->monitors.size(); ++i) {
    card.criteria.push_back(
        criterion_result(lesson_->criteria[i], memory_->monitors[i], memory_->occasions[i].came(), moment));
    const CriterionResult& result = card.criteria.back();
    earned += result.points;
    all += result.of;
    musts_met = musts_met && (result.met || !result.must_pass);
    injury_told = injury_told || (result.must_pass && is_missed(result) &&
                                  speaks_of_injury(lesson_->criteria[i].monitor.what));
  }
  if (moment.state.injured && !injury_told) {
    card.criteria.push_back(injury_result(moment.state));
    musts_met = false;
  }
  if (all > 0.0) {
    card.score_norm = earned / all;
  } else {
    card.score_norm = musts_met ? 1.0 : 0.0;
  }
  card.pass_norm = lesson_->pass_norm;
  card.injured = moment.state.injured;
  card.passed = musts_met && earned >= lesson_->pass_norm * all - points_slack;
  return card;
}

}  // namespace stirbench::training
