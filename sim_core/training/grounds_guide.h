#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "sim_core/diagnosis/faulty_machine.h"
#include "sim_core/diagnosis/model.h"
#include "sim_core/diagnosis/reading.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// How each question of a machine's fault guide is answered during a run, and what a reading of a meter says
// about each kind of cause. Constant; the library makes one for each machine with a guide.
namespace stirbench::training {

// What somebody has to do for an answer.
enum class Taking : std::uint8_t {
  told,         // a symptom that only those who use the machine can tell
  display,      // seen on the panel or at the agitator while a key is tried
  check,        // hands::make_check
  thermometer,  // the contact thermometer, at the place of the reading
  sample,       // a spoon of product and a thermometer, against the display
  gauges,       // the gauge set
  meter         // readings of meter, clamp or insulation tester: judged reading by reading
};

// What the machine was last told to do: the run of the guide that it is like.
enum class Spell : std::uint8_t { rest, stopped, isolated, stirring, warming, chilling, hot, drawing, other };

struct GroundsQuestion {
  Taking taking = Taking::told;
  diagnosis::ParsedReading reading;
  Spell spell = Spell::rest;
  double ripe_s = 0.0;   // the spell has to last so long before the answer counts
  double until_s = 0.0;  // and is followed so long
  bool any_key = false;  // shows with whatever key is pressed: guards
  bool at_once = false;  // an answer that a good machine does not give counts at its first moment
};

// P(outcome) by profile. Outcome 0: as a sound machine shows it; 1: as it was read; 2: otherwise.
struct ReadingOdds {
  std::string title;
  std::vector<std::array<double, 3>> p;
};

class GroundsGuide {
 public:
  // Throws std::invalid_argument for a reading that cannot be taken on this machine.
  GroundsGuide(const machine::Machine& machine, diagnosis::Model model,
               const std::vector<diagnosis::Protocol>& protocols);

  const diagnosis::Model& model() const { return model_; }
  const std::vector<GroundsQuestion>& questions() const { return questions_; }
  // The checks that make_check offers.
  std::vector<machine::SenseCheck> sense_checks() const;

  // The reading that the instrument in hand gives, judged under each kind of cause; `outcome` goes out.
  ReadingOdds odds_of(const machine::Machine& machine, const machine::State& state,
                      std::size_t& outcome) const;
  // The check that has to be made before a misuse of a position (isolator, lid, cover, draw handle) is named:
  // nobody names what they did not look at. npos for every other cause.
  std::size_t look_for(std::size_t cause) const;
  // Causes that this trade's checks cannot tell from `cause`, itself included: answers overlap by half or
  // more (diagnosis::ambiguity_groups), and no meter tells them apart where the trade may use one.
  std::vector<std::size_t> like(std::size_t cause, faults::Who trade) const;

 private:
  diagnosis::Model model_;
  std::vector<GroundsQuestion> questions_;
};

}  // namespace stirbench::training
