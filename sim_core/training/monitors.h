#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "sim_core/training/lesson.h"

// One criterion's monitor as it runs beside the step.
//
// Time is counted in ticks; the moment of tick k stands for the tick_s seconds that end there. So a condition
// that is true in n moments in a row has been true for n * tick_s. Bounds:
//   happens    met at the first true moment; missed when the moment at within_s is not true either.
//   never      missed when true for LONGER than grace_s in a row (grace 0: at the first true moment).
//   always     missed when `when` is true and `what` is not, for longer than grace_s in a row. A moment
//   without `when` ends the
//              row. When `when` never came it is met, and the reason says that the moment never came.
//   held_for   met when true for AT LEAST duration_s; false moments in a row of up to grace_s do not break it
//   and do not
//              count towards it.
//   ordered    step i+1 is looked for from the moment in which step i became true on; one event serves one
//   step only. after      each moment `when` becomes true (each event of an event condition) opens a window
//   of within_s, ends included; `what`
//              true in it, also in the very moment, closes it. within_s 0: until the end. A window open at
//              the end is missed.
//   total      sum of event numbers; missed as soon as it is above high, else decided at the end, bounds
//   included. final_state looked at only at the end.
// A row of never or always that an injury cut short counts as missed, unless its grace is longer than must_pass_grace_s.
// grace_s is read by never, always and held_for; within_s by happens and after.
//
// In Signal Temporal Logic (Donze and Maler, FORMATS 2010): never = G not what, always = G (when -> what),
// happens = F what, after = G (when -> F[0,within] what), with windows clipped at the end of the trace. Where
// `what` is one comparison, the reading kept for the reason is the one with the extreme robustness, and {by}
// is its size. A missed `happens` quotes the nearest reading of its first comparison.
namespace stirbench::training {

enum class Verdict : unsigned char { open, met, missed };

// A reading that explains a verdict.
struct Evidence {
  const Condition* leaf = nullptr;  // number comparison; owned by the lesson
  double value = 0.0;
  double severity = 0.0;  // signed distance past the bound, in the direction that counts
  double sign = 1.0;      // severity = sign * robustness of the leaf
  std::uint64_t tick = 0;
};

// All that a monitor remembers. Copyable; allocates only when an event's name is kept.
struct MonitorMemory {
  Verdict verdict = Verdict::open;
  bool has_moment = false;
  std::uint64_t at_tick = 0;  // moment that decided it, or of the last thing that counted
  bool settled = false;       // nothing more to learn: not looked at again
  bool came_up = false;       // always, after: `when` has been true
  bool previous_when = false;
  bool window_open = false;  // after
  std::uint64_t window_tick = 0;
  std::uint64_t run_ticks = 0;  // length of the present row
  std::uint64_t run_start_tick = 0;
  std::uint64_t gap_ticks = 0;  // held_for
  std::uint64_t longest_ticks = 0;
  std::size_t next_step = 0;  // ordered
  double sum = 0.0;           // total
  bool has_event = false;     // an event explains the verdict
  bench::EventKind event_kind = bench::EventKind::acted;
  double event_number = 0.0;
  std::string event_name;
  Evidence extreme;  // of the whole run
  Evidence row;      // of the present row
};

// What can be worked out once for a monitor.
struct MonitorPlan {
  explicit MonitorPlan(const Monitor& monitor);
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
bool watch(const Monitor& monitor, const MonitorPlan& plan, MonitorMemory& memory, const Moment& moment);

// How far from the bound it was met (above 0) or missed (below 0): the robustness of monitors.h's formulas, not larger than 0 for
// a miss. Nothing where no number decides (events, flags) and for a `happens` that was met, which is not watched on.
struct Margin {
  bool known = false;
  double value = 0.0;
  std::string_view signal;  // what its unit is read from: a signal's name, "held_s", "event_kg"; empty: a count
};
Margin margin_of(const Criterion& criterion, const MonitorMemory& memory, const Moment& moment);
// The comparison whose reading a margin can be taken from: the first one outside of a `not`, or nullptr.
const Condition* first_number(const Condition& condition);

// The verdict with its reason as if the lesson ended at `moment`.
CriterionResult conclude(const Criterion& criterion, const MonitorMemory& memory, const Moment& moment);

}  // namespace stirbench::training
