#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sim_core/diagnosis/posterior.h"
#include "sim_core/training/grounds_guide.h"

// What a person knows of a machine's fault at each moment of a run, and whether the causes they named were
// earned by it. Watches beside the step like BatchJudge and is no part of the state, so a replay of a journal
// judges the same.
//
// A finding is what the person did something for: a key pressed with the display in view, a check by eye, ear
// or hand, a reading taken. Questions of the machine's fault guide are answered by its own thresholds; a
// reading of a meter anywhere is one more question, whose likelihoods come from the circuit solved with each
// kind of cause as the machine stands. A repair makes another machine of it: findings begin anew.
//
// At the moment of naming the guide's posterior over those findings alone decides ("proof gate", see the
// table below). Causes that no check permitted to this person tells apart count together.
namespace stirbench::training {

struct Moment;

// Both are choices: a bench of guesses and of the guide's own way is in tests/bench/grounds.cpp.
inline constexpr double earned_norm = 0.90;     // from here on a named cause is earned
inline constexpr double premature_norm = 0.50;  // from here on it is premature, below a guess

enum class Standing : std::uint8_t { guessed, premature, earned };
std::string_view standing_word(Standing standing);

struct Found {
  std::size_t question = 0;  // of Grounds::model()
  std::size_t outcome = 0;
  double sure = 1.0;
  std::string title;  // "Listen for the heater contactor", "V~ X2.1 X2.2"
  std::string words;  // "silent", "231 V~"
  std::uint64_t tick = 0;
};

struct Naming {
  std::string cause;
  double p = 0.0;  // the guide's, of it and of what cannot be told from it
  std::size_t own_findings = 0;
  Standing standing = Standing::guessed;
  std::uint64_t tick = 0;
  std::vector<Found> on{};  // what had been found
  bool taken_back = false;  // stays here, and counts as it was named
};

// A report with which the fault was handed to a colleague, judged at that moment.
struct Report {
  std::string suspected;         // id of a cause; empty: not known
  std::vector<Found> reported;   // the findings in it
  std::size_t own_findings = 0;  // of these the person's own
  double p = 0.0;                // of the suspicion, on the reported findings alone
  bool good = false;             // they bear the suspicion out, or there are some and none was stated
  std::string why;               // what it lacks, a sentence; empty: nothing
  std::uint64_t tick = 0;
};

// A check that a good order would have left out or put later.
struct ProcessMark {
  bool out_of_order = false;  // else its answer was known already
  std::string check;          // its title
  std::string why;            // a sentence
  std::uint64_t tick = 0;
};
inline constexpr double idle_bits = 0.01;  // a check that tells less was known already (choice)

// What to do next by the guide, on these findings alone. Never says which cause it is.
struct ProposedCheck {
  std::size_t question = diagnosis::Model::npos;  // the check that tells most for its minutes; npos: none
  std::string check;                              // its title
  std::string why;                                // what it is worth, in a sentence
  std::string earned;  // id of a cause that is earned already; for programs that play, not for people
};

class Grounds {
 public:
  // `reported`: ids of the symptoms that the person was told of.
  Grounds(std::shared_ptr<const GroundsGuide> guide, const std::vector<std::string>& reported);

  // Every moment in order.
  void see(const Moment& moment);

  const std::vector<Found>& findings() const { return findings_; }
  const std::vector<Naming>& namings() const { return namings_; }
  // What the last check by eye, ear or hand told, or why it told nothing; empty before the first.
  const std::string& last_words() const { return last_words_; }
  unsigned checks_repeated() const { return repeated_; }
  const std::vector<Report>& reports() const { return reports_; }
  const std::vector<ProcessMark>& marks() const { return marks_; }
  // What a report would say now: all that was found, less what was left out of it.
  std::vector<Found> draft() const;
  bool left_out(const Found& finding) const;

  // The guide's model with a question for each reading that was taken, and the findings in its terms.
  diagnosis::Model model() const;
  std::vector<diagnosis::Finding> as_findings() const;

  // `left_out`: questions that could not be answered here.
  ProposedCheck advice(const machine::State& state, const std::vector<std::size_t>& left_out = {}) const;
  const GroundsGuide& guide() const { return *guide_; }

  // For who plans the next hand (guidance/fault_guidance.h). What the machine was last told to do, and how
  // long ago [s].
  Spell spell() const { return spell_; }
  double spell_s(std::uint64_t tick) const;
  // Whether a key pressed at this moment would tell what the guide asks for: not on a machine that an earlier
  // key has made dark.
  bool key_tells(const machine::State& state) const {
    return pristine_ || state.control.mode != control::Mode::off;
  }
  // Whether the person has moved what this signal tells of: its position is no finding any more.
  bool has_moved(std::string_view signal) const;
  // Questions that were put to the machine as it stands, answered or not.
  const std::vector<std::size_t>& asked() const { return asked_; }
  // Whether that reading was taken of the machine as it stands, told to do this.
  bool has_read(const machine::FaultWork& work, Spell spell) const;
  // Whether a repair or a hand-off was made for this cause.
  bool has_acted_on(std::string_view cause) const;
  // Grows with each finding, and when they begin anew.
  std::uint64_t version() const { return version_; }

  // A count that conditions ask for; 0 for an unknown word (words: count_words).
  double count(std::string_view word) const;
  static const std::vector<std::string>& count_words();
  // What a count counts, for its reason on the score card: which names, checks or reports, and why; empty for
  // the others. The first three.
  std::string told(std::string_view word) const;

 private:
  void follow(const Moment& moment);
  void follow_key(const Moment& moment, std::string_view key);
  void follow_hand_off(const Moment& moment, const std::string& suspected);
  void turn_to(Spell spell, std::uint64_t tick);
  void watch_display(const Moment& moment);
  void take(const Moment& moment, Taking taking, const std::string& what);
  void take_reading(const Moment& moment);
  void answer(const Moment& moment, std::size_t question, double value);
  void follow_position(const Moment& moment, std::string_view hand, double number);
  void name(const Moment& moment, const std::string& cause);
  void take_back(const std::string& cause);
  void report(const Moment& moment, const std::string& suspected);
  void include(const std::string& finding, bool in);
  void mark_idle(const Moment& moment, std::size_t question);
  void mark_dead(const Moment& moment, const std::string& check);
  void mark_gauges(const Moment& moment, const std::string& check);
  void mark_reading(const Moment& moment, const std::string& check);
  void begin_anew(std::uint64_t tick);
  bool repeats(const std::string& what);
  std::size_t own_findings() const;
  bool is_looked_for(const Found& finding) const;
  bool has_looked(std::size_t cause) const;
  double p_of(std::size_t cause, const diagnosis::Posterior& known, faults::Who trade) const;
  void note_asked(std::size_t question);

  std::shared_ptr<const GroundsGuide> guide_;
  std::vector<Found> findings_;
  std::vector<ReadingOdds> odds_;  // of the readings, in the order of their questions
  std::vector<Naming> namings_;
  std::vector<diagnosis::RunningValue> display_;  // by GroundsGuide::questions
  std::vector<double> before_;                    // the same, of what a key changes at once
  std::vector<char> stood_;                       // an alarm that stood when the key was pressed
  std::vector<std::string> taken_;                // what was read or looked at since the last change
  std::vector<std::string> read_;                 // readings since the last repair, each with its spell
  std::vector<std::size_t> asked_;
  std::vector<std::string> acted_on_;
  std::uint64_t version_ = 0;
  Spell spell_ = Spell::rest;
  std::uint64_t spell_tick_ = 0;
  bool pristine_ = true;            // no key was pressed since the supply came
  bool warm_motor_ = false;         // when the key was pressed
  std::vector<std::string> moved_;  // signals of positions that the person has changed
  std::vector<Found> told_;
  bool put_right_ = false;  // a position that was found wrong
  unsigned repeated_ = 0;
  std::string last_words_;
  std::vector<Report> reports_;
  std::vector<ProcessMark> marks_;
  std::vector<std::string> left_out_;  // titles of findings
};

}  // namespace stirbench::training
