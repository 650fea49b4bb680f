#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim_core/journal/session.h"

// The journal's text form: one record a line,
//   {"r":N,"tick":T,"kind":"header|load|act|hash|end",...} #CHAIN
// where CHAIN is 16 hex digits of a 64-bit FNV-1a chain over the bodies of all lines so far (each byte step
// is a bijection, so a single changed byte always shows). Written and read here without a JSON library: flat
// objects, fixed key order, no blanks, exact round trip of doubles (std::to_chars shortest form).
//   header  record 0: format, program, content, machine, lesson, lesson_hash, mode, tick_ms, seed,
//           ambient_degC, humidity_norm, supply_norm, frequency_Hz (since format 2), what is unusual
//           (second_person_s, colleague_work_s, isolator_pole_stuck,
//           meter_broken, power_cut_at_s, power_cut_for_s, trade, plan_min), parts (how somebody left parts,
//           left out when all are sound), faults (how many fault records follow the loads, left out when
//           none), branch_of and branch_tick (left out when the run began at its beginning), recipe, loads
//           (how many load records follow)
//   load    contents of the vat at the start: ingredient, kg, degC
//   fault   a fault present at the start (since format 3): id, severity
//   act     an action at the beginning of the tick: do, then the action's own parameters (hands/hand.h)
//   hash    the state's hash after each simulated second (ticks 10, 20, 30 ...): hash
//   end     last tick and its state's hash: hash
// The chain reveals damage and edits by hand. It is not a signature: anyone who recomputes it can forge a
// journal, but not one whose state hashes agree with other inputs.
namespace stirbench::journal {

// Since 6 an act holds each parameter of its hand once, and only those that were given; since 7 the state has
// the white film, vanes, winding and the taper, and films, steam and cream go by other laws; since 8 milk
// stone, whipped air, unset fat, the probe's pocket and the shaft's seal, and a state's hash has four lanes;
// since 9 glazed vanes tear as they rub on, and coefficients keep their pace while the wall boils; since 10 a
// fault handed over is mended by a colleague in simulated time, and the state has who was called.
inline constexpr int journal_format = 10;
inline constexpr int oldest_journal_format = 1;  // without frequency_Hz; read as 50 Hz
// First format whose state hashes this program's runs can meet: the same fields, the same arithmetic to the
// last bit. Older journals are read and run, but their hashes cannot be compared: a replay says so and does
// not call them verified.
inline constexpr int first_comparable_format = 10;

struct JournalAct {
  std::uint64_t tick = 0;
  hands::Action action;
};
// A journal's actions as a source of inputs (run.h): each at its tick. They must outlive the source.
class KeptInputs {
 public:
  explicit KeptInputs(const std::vector<JournalAct>& acts) : acts_(&acts) {}
  const hands::Action* due(const State& state) {
    return next_ < acts_->size() && (*acts_)[next_].tick <= state.tick ? &(*acts_)[next_++].action : nullptr;
  }

 private:
  const std::vector<JournalAct>* acts_;
  std::size_t next_ = 0;
};

struct JournalHash {
  std::uint64_t tick = 0;
  std::uint64_t hash = 0;
};

struct Journal {
  int format = journal_format;
  SessionHeader header;
  std::string content_hash;
  std::vector<JournalAct> acts;
  std::vector<JournalHash> hashes;  // one each simulated second
  bool ended = false;
  std::uint64_t end_tick = 0;
  std::uint64_t end_hash = 0;
};

struct JournalProblem {  // empty message: none
  std::string message;   // names the record and line, expected and found
  std::uint64_t record = 0;
};

// Parses and checks the chain, the order of the records and every value. On an error, `journal` holds the
// good records before it. A journal without its end record (the program was killed) is an error too: "cut off
// after record N at tick T"; what was read can still be replayed. Never throws on bad text.
JournalProblem read_journal(std::string_view text, Journal& journal);

struct ReplayResult {
  bool verified = false;
  bool comparable = true;  // false: of an older format whose hashes say nothing about this program's states
  std::string message;     // first divergence: tick, expected and found hash; or why it could not run
  std::uint64_t tick = 0;  // last tick reached, or of the first difference
  State state;
};
// Runs the journal again on `machine` and compares each hash. When content or program differ from the
// journal's, the message says so, but only the hashes decide. A journal that was cut off is run to its last
// good hash. `watch` sees every state after its step with that tick's events (monitors, debrief); it may be
// empty.
using Watch = std::function<void(const State&, const std::vector<Event>&)>;
ReplayResult replay(const Machine& machine, const Journal& journal, const Watch& watch = {});

}  // namespace stirbench::journal
