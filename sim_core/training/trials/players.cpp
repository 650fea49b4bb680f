#include "sim_core/training/trials/players.h"

#include <algorithm>

#include "sim_core/hands/hand.h"
#include "sim_core/machine/random.h"

namespace stirbench::training {

namespace {

constexpr std::uint64_t waits_s = 3600;
constexpr int ticks_after_act = 15;
constexpr int ticks_of_look = 5;
constexpr int most_acts = 1500;

std::uint64_t last_tick(const Recording& recording) {
  return (recording.empty() ? 0 : recording.back().first) + waits_s * machine::ticks_per_second;
}

void pass_time(LessonRun& run, int ticks) {
  for (int i = 0; i < ticks && !run.over(); ++i) run.step();
}

double between(machine::Random& dice, double low, double high) { return low + (high - low) * dice.uniform(); }

// The same hand with its first number of a kilogram, a degree or the like taken wrong by up to a half.
hands::Action with_other_amount(hands::Action action, machine::Random& dice) {
  for (const hands::Parameter* one : action.hand()->takes()) {
    if (one->type != hands::Type::number || !action.has(*one)) continue;
    const double right = std::get<double>(action.value(*one));
    const double factor = dice.uniform() < 0.5 ? between(dice, 0.5, 0.9) : between(dice, 1.1, 1.5);
    action.set(*one, std::clamp(right * factor, one->low, one->high));
    return action;
  }
  return action;
}

enum class Slip : unsigned char { none, omission, commission, quantity };

Slip slip_of(const Slips& slips, machine::Random& dice) {
  if (dice.uniform() >= slips.rate_norm) return Slip::none;
  const double kind = 3.0 * dice.uniform();
  if (kind < 1.0) return Slip::omission;
  return kind < 2.0 && !slips.others.empty() ? Slip::commission : Slip::quantity;
}

// What is done instead of the right hand; not for omissions.
hands::Action done_instead(Slip slip, const hands::Action& right, const Slips& slips, machine::Random& dice) {
  if (slip == Slip::none) return right;
  if (slip == Slip::quantity) return with_other_amount(right, dice);
  return slips.others[static_cast<std::size_t>(dice.uniform() * static_cast<double>(slips.others.size()))];
}

}  // namespace

LessonRun trial_run(const machine::Machine& machine, const Lesson& lesson) {
  return {machine, lesson, "actions_file", "trial", lesson.start.seed};
}

Followed record_follower(LessonRun& run, std::vector<GuidedHand>& hands) {
  return follow(run, [&hands](const machine::State& state, const Advice& advice) {
    hands.push_back({state.tick, advice.goal, advice.hand});
  });
}

Recording recording_of(const std::vector<GuidedHand>& hands) {
  Recording out;
  for (const GuidedHand& one : hands) out.emplace_back(one.tick, one.hand);
  return out;
}

Recording recording_without(const std::vector<GuidedHand>& hands, std::size_t goal) {
  Recording out;
  for (const GuidedHand& one : hands)
    if (one.goal != goal) out.emplace_back(one.tick, one.hand);
  return out;
}

ScoreCard play_recording(LessonRun& run, const Recording& recording) {
  std::size_t next = 0;
  while (!run.over() && run.state().tick <= last_tick(recording)) {
    for (; next < recording.size() && recording[next].first <= run.state().tick; ++next)
      run.act(recording[next].second);
    run.step();
  }
  return run.card();
}

ScoreCard do_nothing(LessonRun& run) {
  play_to_end(run, {});
  return run.card();
}

ScoreCard play_with_slips(LessonRun& run, const Slips& slips) {
  machine::Random dice{slips.seed};
  for (int acts = 0; !run.over() && acts < most_acts;) {
    const Advice advice = run.advice();
    if (advice.kind == Advice::Kind::wait) {
      pass_time(run, ticks_of_look);
      continue;
    }
    if (advice.kind != Advice::Kind::act) break;
    ++acts;
    const Slip slip = slip_of(slips, dice);
    if (slip == Slip::omission)
      pass_time(run, static_cast<int>(between(dice, 20.0, 240.0) * machine::ticks_per_second));
    else
      run.act(done_instead(slip, advice.hand, slips, dice));
    pass_time(run, ticks_after_act);
  }
  return run.card();
}

Recording careless(const Recording& right, const Slips& slips) {
  machine::Random dice{slips.seed};
  Recording out;
  for (const auto& [tick, hand] : right) {
    const Slip slip = slip_of(slips, dice);
    if (slip != Slip::omission) out.emplace_back(tick, done_instead(slip, hand, slips, dice));
  }
  return out;
}

}  // namespace stirbench::training
