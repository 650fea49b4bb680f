#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim_core/bench/step.h"
#include "sim_core/training/condition.h"
#include "sim_core/training/guidance/ways.h"
#include "sim_core/training/words.h"

namespace stirbench::training {

// How a criterion is judged; bounds, grace and windows to the tick in monitors.h.
enum class MonitorKind : unsigned char {
  happens,     // `what` becomes true at some moment (within `within_s` of the start, 0 = any time)
  never,       // `what` is never true for longer than grace_s without a break
  always,      // `what` is true whenever `when` is true, but for grace_s at most
  held_for,    // `what` is true for duration_s without a break
  ordered,     // `steps` become true one after another
  after,       // after each moment `when` becomes true, `what` becomes true within within_s
  total,       // sum of the numbers of events matching `what` (kg poured ...) lies in [low, high]
  final_state  // `what` is true at the end
};

struct Monitor {
  MonitorKind kind = MonitorKind::happens;
  Condition what;
  Condition when;                // always, after; empty = true
  std::vector<Condition> steps;  // ordered
  double duration_s = 0.0;
  double within_s = 0.0;
  double grace_s = 0.0;
  double low = 0.0, high = 0.0;  // total
  // Partial credit: a miss by this much earns nothing, a smaller one its share (robustness.h: credit_norm).
  // In the unit of what is compared: the signal's for happens, never, always and final_state, seconds for
  // held_for, kg or the event's number for total, steps for ordered. 0: all or nothing.
  double tolerance = 0.0;
};

// A must-pass item that watches a reading gets at least this much grace [s], so that nobody fails because a
// sensor flickered.
inline constexpr double must_pass_grace_s = 0.5;

struct Criterion {
  std::string id;
  std::string title;
  double points = 0.0;
  bool must_pass = false;
  std::string skill;  // of the lesson's skills, the one that it shows; empty: none
  // Asked in every lesson (content/conduct): without points, told of only where it was missed. These come
  // after the lesson's own.
  bool everywhere = false;
  Monitor monitor;
  // When it is at stake: until this was true in some moment the criterion earns nothing. Not given:
  // occasion.h says what takes its place.
  std::optional<Condition> chance;
  // May hold {time} {value} {bound} {by} {name} {held} {done} {low} {high}: words.h says what each is.
  std::string met_text;     // why it was met, one sentence
  std::string missed_text;  // what went wrong and what it costs
};

// What a step of a fault lesson belongs to; the machine's fault guide leads there
// (guidance/fault_guidance.h).
enum class FaultPhase : unsigned char {
  none,
  find,  // look, listen, measure, and name the cause that was earned
  mend,  // repair it, put it right or hand it off
  prove  // give it back, see it run, say that it works
};

struct LessonStep {
  std::string id;
  std::string now;       // the one thing to do
  std::string why;       // one line
  std::string hint;      // on request
  std::string point_at;  // widget id, "panel.key.run", "hand.open_lid" ...
  Condition done;
  bool skippable = false;  // doing a later step first ends this one too
  // The step as a goal (goals.h, advice.h).
  Means means;
  FaultPhase fault_work = FaultPhase::none;
  bool waits = false;               // no hand: the machine, or time, does it
  double for_s = 0.0;               // `done` has to hold for so long without a break
  std::optional<Condition> undone;  // a goal that was reached is left again when this is true
};

// What cannot be mended any more in this lesson, and why.
struct Loss {
  Condition when;     // of states alone
  std::string unmet;  // id of a criterion: lost only while it is not met; empty: always
  std::string text;
};

class GroundsGuide;

struct Lesson {
  std::string id;
  std::string title;
  double minutes = 0.0;
  std::vector<std::string> skills;
  std::string machine;  // id
  std::string summary;  // one line for the list
  std::string page;     // one short page: what and why, plain paragraphs ("# " headings, "- " items)
  std::vector<std::string> cautions;  // keys of caution texts shown before the start
  machine::StartSetup start;
  std::vector<std::string> drawn;     // what this run's seed has drawn, a sentence each; told afterwards only
  std::vector<std::string> reported;  // symptoms of the machine's fault guide that the page tells of
  // What naming a cause is judged by; null where nothing is to be found.
  std::shared_ptr<const GroundsGuide> guide;
  std::vector<std::string> at_hand;  // ids of the ingredients offered on the scale
  std::vector<LessonStep> steps;
  std::vector<Way> ways;  // means of this lesson alone, tried before the shared ones
  std::vector<Loss> lost;
  std::shared_ptr<const Ways> shared_ways;  // content/ways; may be null
  std::vector<Criterion> criteria;
  double pass_norm = 0.8;  // share of the points needed to pass, besides all must-pass items
  Condition end;           // the lesson ends by itself when true; empty: only at limit_s
  double limit_s = 0.0;    // and at this simulated time at the latest; 0: no limit
  std::string hash;        // content hash of the lesson's own file
};

struct CriterionResult {
  std::string id;
  std::string title;
  std::string skill;  // as the criterion's
  bool met = false;
  bool occasion = true;  // false: it was never at stake; then it is neither met nor missed, and earns nothing
  bool must_pass = false;
  bool everywhere = false;  // as the criterion's
  double points = 0.0;
  double of = 0.0;
  // How clearly it was met (above 0) or by how much it was missed (below 0), in the unit that `margin_signal`
  // ends with; without a unit when that is empty.
  bool has_margin = false;
  double margin = 0.0;
  std::string_view margin_signal;
  bool over = false;         // a miss with a margin: what was found lies above its bound, not below
  double credit_norm = 0.0;  // share of the points: 1 when met; between when missed within the tolerance
  double at_s = -1.0;        // simulated moment that decided it [s]; -1 when no single moment did
  std::string why;           // with the time and the value, numbers in SI
  // The same with its placeholders, for showing the numbers in other units; empty when `why` holds no
  // numbers.
  std::string why_text;
  Placeholders why_words;
  std::vector<QuotedNumber> why_figures;
};

struct ScoreCard {
  bool passed = false;
  double score_norm = 0.0;
  double pass_norm = 0.0;  // the pass mark
  bool injured = false;    // somebody was hurt: the run stopped there
  std::vector<CriterionResult> criteria;
};

// Nothing to tell people of: what is asked in every lesson, and was kept to.
inline bool goes_without_saying(const CriterionResult& result) { return result.everywhere && result.met; }

// A criterion that was at stake and not met.
inline bool is_missed(const CriterionResult& result) { return result.occasion && !result.met; }

}  // namespace stirbench::training
