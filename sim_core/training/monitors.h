#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "sim_core/training/lesson.h"

// One criterion's monitor as it runs beside the step.
//
// Time is counted in ticks. The moment of tick k stands for the tick_s seconds that end there, so a condition
// that is true in n consecutive moments has been true for n * tick_s.
//
// The scoring contract: what each kind looks at, and which bounds belong to it.
//
//   kind         looked at              met                              missed
//   -----------  ---------------------  -------------------------------  -------------------------------
//   happens      from the start until   at the first moment in which     when the moment at within_s is
//                within_s, included     `what` is true                   not true either; within_s 0: at
//                                                                        the end
//   never        from start to end      at the end                       when `what` was true for LONGER
//                                                                        than grace_s without a break
//                                                                        (grace_s 0: at its first moment)
//   always       moments in which       at the end                       when `what` was false for LONGER
//                `when` is true                                          than grace_s without a break
//   held_for     from start to end      when `what` has been true for    at the end
//                                       AT LEAST duration_s
//   ordered      from start to end;     in the moment of the last step   at the end
//                step i+1 from the
//                moment of step i on,
//                that one included
//   after        from each moment in    at the end, when no window is    when a window passes without
//                which `when` becomes   open                             `what`; at the end, when one is
//                true, for within_s,                                     still open
//                both ends included
//   total        from start to end      at the end, when the sum lies    as soon as the sum is above
//                                       in low .. high, both included    high; at the end, when below low
//   final_state  the last moment only   when `what` is true in it        when it is not
//
//   never, always  A break is a moment in which `what` is right again, or in which `when` is false. A run of
//                  wrong moments that an injury cuts short counts as missed, unless grace_s is longer than
//                  must_pass_grace_s.
//   held_for       False moments of up to grace_s without a break interrupt nothing and do not count.
//   ordered        One event serves one step only.
//   after          Each event of an event condition opens a window; `what` in the opening moment closes it
//                  too. One `what` closes every open window; the oldest passes first. within_s 0: until the
//                  end.
//   total          Sum of the events' numbers (kg poured ...), with 1e-9 of slack for rounding.
//
// grace_s is used by never, always and held_for; within_s by happens and after. What would be met, but was
// never at stake (occasion.h), is neither met nor missed.
//
// In Signal Temporal Logic (Donze and Maler, FORMATS 2010): never = G not what, always = G (when -> what),
// happens = F what, after = G (when -> F[0,within] what), with windows clipped at the end of the trace. Where
// `what` is one comparison, the reading kept for the reason is the one with the extreme robustness, and {by}
// is its size. A missed `happens` quotes the nearest reading of its first comparison.
namespace stirbench::training {

enum class Verdict : unsigned char { open, met, missed };

// A reading that explains a verdict.
struct DecisiveReading {
  const Condition* leaf = nullptr;  // number comparison; owned by the lesson
  double value = 0.0;
  double severity = 0.0;  // signed distance beyond the bound, in the direction that counts
  double sign = 1.0;      // severity = sign * robustness of the leaf
  std::uint64_t tick = 0;
};

// All that a monitor remembers. Copyable; allocates only when an event's name is kept.
struct MonitorState {
  Verdict verdict = Verdict::open;
  bool has_moment = false;
  std::uint64_t at_tick = 0;  // moment that decided it, or of the last thing that counted
  bool settled = false;       // nothing more to learn: not looked at again
  bool previous_when = false;
  bool window_open = false;  // after
  std::uint64_t window_tick = 0;
  std::uint64_t run_ticks = 0;  // length of the present run of moments
  std::uint64_t run_start_tick = 0;
  std::uint64_t gap_ticks = 0;  // held_for
  std::uint64_t longest_ticks = 0;
  std::size_t next_step = 0;  // ordered
  double sum = 0.0;           // total
  bool has_event = false;     // an event explains the verdict
  machine::EventKind event_kind = machine::EventKind::acted;
  double event_number = 0.0;
  std::string event_name;
  DecisiveReading extreme;  // of the whole run
  DecisiveReading row;      // of the present run of moments
};

// Sums of poured parts carry rounding: 0.1 + 0.2 must not miss a bound of 0.3.
constexpr double total_slack = 1.0e-9;

// What is computed once for a monitor.
struct CompiledMonitor {
  explicit CompiledMonitor(const Monitor& monitor);
  std::uint64_t duration_ticks = 0;
  std::uint64_t within_ticks = 0;
  std::uint64_t grace_ticks = 0;
  bool number_only = false;  // `what` is one comparison
  const Condition* aim =
      nullptr;  // happens: the comparison whose nearest reading is kept; owned by the lesson
  bool skips_quiet_ticks = false;  // nothing can change in a tick without events
  bool when_is_event = false;
  std::vector<unsigned char> step_needs_event;
};

// Feeds one moment. True when the monitor became missed in it.
bool feed_monitor(const Monitor& monitor, const CompiledMonitor& plan, MonitorState& memory,
                  const Moment& moment);

// How far from the bound it was met (above 0) or missed (below 0): the robustness by the formulas above, at
// most 0 for a miss. Unknown where no number decides (events, flags), and for a `happens` that was met, which
// is not watched any further.
struct Margin {
  bool known = false;
  double value = 0.0;
  std::string_view
      signal;         // its unit is the end of this name: a signal, "held_s", "event_kg"; empty: a count
  bool over = false;  // missed because the reading lies above the bound
};
Margin margin_of(const Criterion& criterion, const MonitorState& memory, const Moment& moment);
// The comparison whose reading a margin can be taken from: the first one outside a `not`, or nullptr.
const Condition* first_number(const Condition& condition);

// The verdict with its reason as if the lesson ended at `moment`. `occasion`: whether it was at stake so far.
CriterionResult criterion_result(const Criterion& criterion, const MonitorState& memory, bool occasion,
                                 const Moment& moment);

}  // namespace stirbench::training
