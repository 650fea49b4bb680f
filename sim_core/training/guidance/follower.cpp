#include "sim_core/training/guidance/follower.h"

namespace stirbench::training {

namespace {

constexpr int ticks_after_hand = 15;
constexpr int ticks_of_wait = 5;
constexpr int looks_a_card = 20;

void let_pass(LessonRun& run, int ticks) {
  for (int i = 0; i < ticks && !run.over(); ++i) run.step();
}

// The same hand again and again leads nowhere; neither do any hands, so often, for one goal.
class Patience {
 public:
  bool lost_with(const Advice& advice) {
    const bool new_goal = advice.goal != goal_;
    goal_ = advice.goal;
    if (new_goal) tries_ = 0;
    tries_ = advice.hand == last_ ? tries_ + 1 : tries_;
    last_ = advice.hand;
    hands_ = new_goal ? 0 : hands_ + 1;
    return tries_ > most_tries || hands_ > most_hands_a_goal;
  }

 private:
  hands::Action last_;
  std::size_t goal_ = 0;
  int tries_ = 0;
  int hands_ = 0;
};

Followed ended(LessonRun& run, Followed out, Followed::End end, std::string why) {
  out.card = run.card();
  out.end = end;
  out.why = std::move(why);
  return out;
}

Followed ended_by_card(LessonRun& run, const Followed& out) {
  const ScoreCard card = run.card();
  if (card.passed) return ended(run, out, Followed::End::passed, {});
  const Prospect prospect = run.prospect();
  if (!prospect.can_pass) return ended(run, out, Followed::End::said_lost, prospect.why);
  std::string why = "Ended without a pass, unforetold:";
  for (const CriterionResult& one : card.criteria) {
    if (!one.met) why += " " + one.id;
  }
  return ended(run, out, Followed::End::stranded, why);
}

}  // namespace

Followed follow(LessonRun& run, const TellHand& tell, const std::function<bool()>& stop) {
  Followed out;
  Patience patience;
  std::size_t known_missed = 0;
  for (int looks = 0; !run.over(); ++looks) {
    if (stop && stop()) return ended(run, out, Followed::End::stranded, "Stopped.");
    // In full now and then: a card is dear, and what is lost stays lost.
    const std::size_t missed = run.scorer().missed_so_far().size();
    if (missed != known_missed || looks % looks_a_card == 0) {
      known_missed = missed;
      const Prospect prospect = run.prospect();
      if (!prospect.can_pass) return ended(run, out, Followed::End::said_lost, prospect.why);
    }
    const Advice advice = run.advice();
    switch (advice.kind) {
      case Advice::Kind::told:
        return ended(run, out, Followed::End::stranded, "The lesson says its steps in words alone.");
      case Advice::Kind::stuck:
        return ended(run, out, Followed::End::stranded, "Stuck at \"" + advice.now + "\": " + advice.trouble);
      case Advice::Kind::finished: return ended_by_card(run, out);
      case Advice::Kind::wait: let_pass(run, ticks_of_wait); break;
      case Advice::Kind::act:
        if (patience.lost_with(advice))
          return ended(run, out, Followed::End::stranded, "In vain again and again: " + advice.now);
        if (tell) tell(run.state(), advice);
        run.act(advice.hand);
        ++out.hands;
        let_pass(run, ticks_after_hand);
        break;
    }
  }
  return ended_by_card(run, out);
}

}  // namespace stirbench::training
