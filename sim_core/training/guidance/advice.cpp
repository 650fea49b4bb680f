#include "sim_core/training/guidance/advice.h"

#include <algorithm>
#include <cmath>

#include "sim_core/control/controller.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/machine/number_words.h"

namespace stirbench::training {

namespace {

constexpr std::size_t deepest_plan = 16;
constexpr double least_pour_kg = 0.001;

// A condition in short, for authors: "lid_open is no", "mass_kg at least 21.9 and mode is running".
std::string words_of(const Condition& c);

std::string joined_parts(const Condition& c, const char* between) {
  std::string out;
  for (const Condition& part : c.parts) out += (out.empty() ? "" : between) + words_of(part);
  return c.parts.size() > 1 ? "(" + out + ")" : out;
}

std::string comparison(const Condition& c, const char* words) {
  return std::string(c.signal->name) + words + machine::plain_number(c.number);
}

const char* comparison_words(Op op) {
  switch (op) {
    case Op::at_least: return " at least ";
    case Op::above: return " above ";
    case Op::below: return " below ";
    default: return " at most ";
  }
}

std::string words_of(const Condition& c) {
  switch (c.op) {
    case Op::at_least:
    case Op::at_most:
    case Op::above:
    case Op::below: return comparison(c, comparison_words(c.op));
    case Op::grounds: return c.text + comparison_words(c.compare) + machine::plain_number(c.number);
    case Op::is_flag: return std::string(c.signal->name) + (c.flag ? " is yes" : " is no");
    case Op::is_text: return std::string(c.signal->name) + " is " + (c.text.empty() ? "none" : c.text);
    case Op::event:
      return std::string(machine::event_name(c.event)) + (c.text.empty() ? "" : " " + c.text) +
             (c.of.empty() ? "" : " of " + c.of);
    case Op::row_met: return "heat treatment " + c.text + " is met";
    case Op::cooling_is: return "cooling " + c.text + " is " + c.of;
    case Op::all: return joined_parts(c, " and ");
    case Op::any: return joined_parts(c, " or ");
    case Op::negate: return c.parts.empty() ? "never" : "not " + words_of(c.parts.front());
  }
  return {};
}

Condition flag_is(std::string_view signal, bool value) {
  Condition out;
  out.op = Op::is_flag;
  out.signal = signals::find_signal(signal);
  out.flag = value;
  return out;
}

double earlier_kg(const LessonStep& step, const hands::Action& hand) {
  const bool same = step.means.hand && step.means.amount == Amount::rest_of_poured &&
                    hands::first_text(*step.means.hand) == hands::first_text(hand);
  return same ? hands::asked_value(*step.means.hand) : 0.0;
}

// One search from one state. Allocates; meant to be asked a few times a second.
class Planner {
 public:
  Planner(const Lesson& lesson, const Goals& goals, const Moment& moment)
      : lesson_(lesson), goals_(goals), moment_(moment) {}

  bool pursue(const Means& means, Advice& out) {
    for (const Condition& need : means.needs) {
      if (!holds(need, moment_)) return reach(need, out);
    }
    if (!means.hand) {
      out.kind = Advice::Kind::wait;
      return true;
    }
    const hands::Action hand = with_amount(means);
    if (const Condition* need = first_need_of(hand, means.in_vain)) return reach(*need, out);
    out.refusal =
        means.in_vain ? hands::why_not(moment_.machine, moment_.state, hand) : refusal_of(moment_, hand);
    out.trouble = out.refusal;
    out.kind = out.trouble.empty() ? Advice::Kind::act : Advice::Kind::stuck;
    out.hand = hand;
    return out.trouble.empty();
  }

 private:
  // What this hand needs in every lesson and does not have: hands and valve free for it, then what the ways
  // say.
  const Condition* first_need_of(const hands::Action& hand, bool in_vain) const {
    static const Condition hands_free = flag_is("working", false);
    static const Condition valve_in = flag_is("draw_valve_out", false);
    if (!hand.hand()->frees_hands && !holds(hands_free, moment_)) return &hands_free;
    if (hand.hand()->needs_valve && !holds(valve_in, moment_)) return &valve_in;
    if (in_vain) return nullptr;
    for (const HandNeeds& row : known()) {
      if (!is_one_of(hand, row.hand)) continue;
      for (const Condition& need : row.needs) {
        if (!holds(need, moment_)) return &need;
      }
    }
    return nullptr;
  }

  const std::vector<HandNeeds>& known() const {
    static const std::vector<HandNeeds> none;
    return lesson_.shared_ways != nullptr ? lesson_.shared_ways->hands : none;
  }

  // Of `all` the first part that does not hold; of `any` the first that can be reached.
  bool reach(const Condition& need, Advice& out) {
    if (need.op == Op::all) {
      for (const Condition& part : need.parts) {
        if (!holds(part, moment_)) return reach(part, out);
      }
    }
    if (need.op == Op::any) {
      for (const Condition& part : need.parts) {
        if (reach(part, out)) return true;
      }
    }
    if (by_ways(lesson_.ways, need, out)) return true;
    if (lesson_.shared_ways != nullptr && by_ways(lesson_.shared_ways->ways, need, out)) return true;
    if (out.trouble.empty()) out.trouble = "No way is known to: " + words_of(need) + ".";
    out.kind = Advice::Kind::stuck;
    return false;
  }

  bool by_ways(const std::vector<Way>& ways, const Condition& need, Advice& out) {
    for (const Way& way : ways) {
      if (!serves(way.reaches, need) || under_way_.size() >= deepest_plan) continue;
      if (std::find(under_way_.begin(), under_way_.end(), &way) != under_way_.end()) continue;
      under_way_.push_back(&way);
      Advice found = out;
      found.way = way.id;
      found.now = way.now;
      found.why = way.why;
      found.hint = way.hint;
      found.point_at = way.point_at;
      found.trouble.clear();
      found.refusal.clear();
      const bool good = pursue(way.means, found);
      under_way_.pop_back();
      if (good) {
        out = std::move(found);
        return true;
      }
      if (out.trouble.empty()) out.trouble = found.trouble;
      if (out.refusal.empty()) out.refusal = found.refusal;
    }
    return false;
  }

  hands::Action with_amount(const Means& means) const {
    hands::Action hand = *means.hand;
    if (means.amount == Amount::given || !hand.is(hands::pour)) return hand;
    const double asked_kg = hands::asked_value(hand);
    double had_kg = moment_.state.plant.product.total_kg();
    if (means.amount == Amount::rest_of_poured) {
      had_kg = goals_.poured_kg(hands::first_text(hand));
      for (std::size_t i = 0; i < goals_.next(); ++i) had_kg -= earlier_kg(lesson_.steps[i], hand);
    }
    const double rest_kg = std::round((asked_kg - std::max(had_kg, 0.0)) * 1000.0) / 1000.0;
    if (rest_kg < asked_kg) hand.set(*hands::pour.find("kg"), std::max(rest_kg, least_pour_kg));
    return hand;
  }

  const Lesson& lesson_;
  const Goals& goals_;
  const Moment& moment_;
  std::vector<const Way*> under_way_;
};

// The rest is said when it is not what the step's words say.
void say_rest(const Moment& moment, const Means& means, Advice& out) {
  if (out.kind != Advice::Kind::act || !means.hand || !out.way.empty() || out.hand == *means.hand) return;
  const int index = moment.machine.ingredient_index(hands::first_text(out.hand));
  if (index < 0) return;
  out.now = "Pour the rest: " + machine::with_unit(hands::asked_value(out.hand), 2, "kg") + " of " +
            moment.machine.ingredients[static_cast<std::size_t>(index)].title + ".";
}

// Why the controller would refuse a key that starts something.
std::string_view refused_key(const Moment& moment, const hands::Action& action) {
  const int index = control::find_key(hands::first_text(action));
  if (!action.is(hands::press) || index < 0) return {};
  const auto key = static_cast<control::Key>(index);
  if (key == control::Key::stop) return {};
  const control::ControlState& controller = moment.state.control;
  const auto recipe = static_cast<std::size_t>(controller.recipe);
  const bool chosen = controller.recipe >= 0 && recipe < moment.machine.recipes.size();
  const std::string_view reason = control::why_not_start(controller);
  if (!reason.empty()) return reason;
  return control::why_not_key(chosen ? &moment.machine.recipes[recipe] : nullptr, controller, key);
}

}  // namespace

bool can_follow(const Lesson& lesson) {
  return std::all_of(lesson.steps.begin(), lesson.steps.end(), [](const LessonStep& step) {
    return step.means.hand.has_value() || step.waits || step.fault_work != FaultPhase::none;
  });
}

Advice led_to(const Lesson& lesson, const Goals& goals, const Moment& moment, Advice wanted) {
  Means means;
  means.hand = wanted.hand;
  means.in_vain = true;
  Planner(lesson, goals, moment).pursue(means, wanted);
  return wanted;
}

std::string refusal_of(const Moment& moment, const hands::Action& action) {
  std::string reason = hands::why_not(moment.machine, moment.state, action);
  if (reason.empty()) reason = refused_key(moment, action);
  return reason;
}

Advice told(const Lesson& lesson, std::size_t step) {
  Advice out;
  out.goal = step;
  out.kind = Advice::Kind::finished;
  if (step >= lesson.steps.size()) return out;
  const LessonStep& words = lesson.steps[step];
  out.kind = Advice::Kind::told;
  out.now = words.now;
  out.why = words.why;
  out.hint = words.hint;
  out.point_at = words.point_at;
  return out;
}

Advice advise(const Lesson& lesson, const Goals& goals, const Moment& moment) {
  Advice out = told(lesson, goals.next());
  if (out.kind == Advice::Kind::finished) return out;
  const LessonStep& step = lesson.steps[out.goal];
  if (step.for_s > 0.0 && holds(step.done, moment)) {
    out.kind = Advice::Kind::wait;
    return out;
  }
  Planner(lesson, goals, moment).pursue(step.means, out);
  say_rest(moment, step.means, out);
  return out;
}

}  // namespace stirbench::training
