#pragma once

#include <algorithm>
#include <string>
#include <string_view>

#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/training/guidance/fault_guidance.h"
#include "sim_core/training/guidance/follower.h"
#include "sim_core/training/lesson_run.h"

// A technician at the simulated machine who does what somebody decides: an order learnt, a cheat, or chance.
// How a check is brought about by the book is the guide's own (training/guidance/fault_checks.h).
namespace technician {

using namespace stirbench;
using diagnosis::Model;

class Technician {
 public:
  explicit Technician(training::LessonRun& run) : run_(run) {}

  const machine::State& state() const { return run_.state(); }
  const machine::Machine& machine() const { return run_.session().machine(); }
  const training::Grounds& grounds() const { return *run_.scorer().grounds(); }
  const training::GroundsGuide& guide() const { return grounds().guide(); }
  faults::Who trade() const { return state().lockout.situation.trade; }

  void wait(double seconds) {
    const auto until = state().tick + static_cast<std::uint64_t>(seconds * machine::ticks_per_second);
    while (state().tick < until && !run_.over()) run_.step();
  }

  // Does it where it can be done, and lets two seconds go by.
  bool act(const hands::Action& action) {
    if (run_.over() || !hands::why_not(machine(), state(), action).empty()) return false;
    run_.act(action);
    wait(2.0);
    return true;
  }

  void press(const std::string& key) {
    act(hands::press(key, 0.2));
    wait(1.0);
  }

  void lock_out() {
    do_all(
        [this](const training::Moment& now) { return training::FaultAccess(now, grounds()).locked_out(); });
  }

  void open_dead() {
    do_all([this](const training::Moment& now) { return training::FaultAccess(now, grounds()).open_dead(); });
  }

  // Makes a check of the guide; false when it cannot be made here.
  bool make(std::size_t question) {
    if (!faults::may_do(trade(), guide().model().check(question).who)) return false;
    if (!training::FaultChecks(now(), grounds()).possible(question)) return false;
    do_all([this, question](const training::Moment& now) {
      return is_asked(question) ? training::NextHand() : training::FaultChecks(now, grounds()).make(question);
    });
    return true;
  }

  // The reading between two terminals, as it stands.
  bool measure(const std::string& function, const std::string& a, const std::string& b) {
    act(hands::take_tool(function == "insulation" ? "insulation_tester" : "multimeter"));
    if (function != "insulation") act(hands::set_meter(function));
    const bool done = act(hands::red_probe(a)) && act(hands::black_probe(b));
    act(hands::probes_off());
    return done;
  }

  void name(const std::string& cause) { act(hands::name_cause(cause)); }
  // Has it repaired by who may.
  void mend(const std::string& cause) {
    const faults::Fault& fault = machine().faults[static_cast<std::size_t>(machine().fault_index(cause))];
    do_all([this, &fault](const training::Moment& now) {
      return machine::is_left(now.state, fault) ? training::next_to_mend(now, grounds(), fault)
                                                : training::NextHand();
    });
  }
  // With all that was found in the report; the colleague is waited for.
  void hand_over(const std::string& cause) {
    lock_out();
    if (!act(hands::hand_off(cause))) return;
    while (!run_.over() && state().work.hand_over.stage != machine::HandOverStage::given_back) wait(10.0);
  }
  // What had failed runs for a minute and more; says so.
  void prove() {
    do_all([this](const training::Moment& now) {
      return now.state.work.to_prove == 0 || now.state.work.proved ? training::NextHand()
                                                                   : training::next_to_prove(now, grounds());
    });
  }

 private:
  training::Moment now() const {
    static const std::vector<machine::Event> quiet;
    return {machine(), state(), quiet, nullptr, &grounds()};
  }
  bool is_asked(std::size_t question) const {
    const auto& asked = grounds().asked();
    return std::find(asked.begin(), asked.end(), question) != asked.end();
  }
  // Hand after hand until none is left; gives up when it leads nowhere.
  template <typename Next>
  void do_all(Next next) {
    constexpr int most_hands = 120;
    constexpr double most_wait_s = 2400.0;
    double waited_s = 0.0;
    for (int hands = 0; hands < most_hands && waited_s < most_wait_s && !run_.over();) {
      const training::NextHand hand = next(now());
      if (!hand) return;
      if (hand->kind == training::Advice::Kind::wait) {
        wait(0.5);
        waited_s += 0.5;
        continue;
      }
      act(hand->hand);
      ++hands;
    }
  }

  training::LessonRun& run_;
};

// The key that shows what a fault of this part of the machine does.
inline std::string key_of(const std::string& system) {
  if (system == "heating" || system == "sensing" || system == "supply") return "heat";
  return system == "chiller" ? "chill" : "stir";
}

}  // namespace technician
