#include "app/library/tables.h"

// Steps of a lesson, which are goals with the means to reach them, and what cannot be mended.
namespace stirbench::library {

using training::LessonStep;

namespace {

Shape<training::FaultPhase> fault_phase() {
  using P = training::FaultPhase;
  return choice<P>({{"find", P::find}, {"mend", P::mend}, {"prove", P::prove}});
}

// The step as a goal: by which hand, with which needs.
void add_goal(Object<LessonStep>& t) {
  using S = LessonStep;
  using training::Means;
  t.field({"hand", "The hand that does it, as in an actions file.", "a hand", false, hand_shape(true).schema,
           [](Reader& reader, const Json& json, S& out) {
             hand_shape(true).read(reader, json, out.means.hand.emplace());
           }});
  const auto of_means = [&t]<class V>(const char* key, V Means::*member, const Shape<V>& shape,
                                      const char* doc) {
    t.field({key, doc, shape.expected, false, shape.schema,
             [member, read = shape.read](Reader& reader, const Json& json, S& out) {
               read(reader, json, out.means.*member);
             }});
  };
  of_means("in_vain", &Means::in_vain, flag(), "A key that is meant to be refused.");
  of_means("amount", &Means::amount, amount_shape(), "How much a pouring hand pours of its kg.");
  of_means("needs", &Means::needs, list(state_condition(), 0, 20),
           "What has to hold before the hand or the wait, in order.");
  t.may("fault_work", &S::fault_work, fault_phase(),
        "A step of a fault lesson, to which the machine's fault guide leads.")
      .may("wait", &S::waits, flag(), "No hand: the machine, or time, does it.")
      .may("for_s", &S::for_s, number(0.0, longest_lesson_s, "s"),
           "The goal is reached when done has held for so long without a break.");
  t.field({"undone", "When a goal that was reached is left again.", "a condition", false,
           state_condition().schema, [](Reader& reader, const Json& json, S& out) {
             state_condition().read(reader, json, out.undone.emplace());
           }});
  t.check([](Reader& reader, const S& one) {
    if (one.waits && one.means.hand) reader.problem("either a hand or a wait", "both", "/wait");
    if (one.fault_work != training::FaultPhase::none && (one.waits || one.means.hand))
      reader.problem("neither hand nor wait: the fault guide leads", "one of them", "/fault_work");
    if (!one.waits && !one.means.hand && (!one.means.needs.empty() || one.undone))
      reader.problem("a hand, or \"wait\": true, beside needs and undone", "neither");
  });
}

}  // namespace

Shape<LessonStep> step_shape() {
  using S = LessonStep;
  Object<S> t;
  t.need("id", &S::id, slug(), "Unique in its lesson.")
      .need("now", &S::now, text(1, 200), "The one thing to do.")
      .need("why", &S::why, text(0, 300), "Why, in one line.")
      .need("hint", &S::hint, text(0, 400), "Shown on request.")
      .need("point_at", &S::point_at, text(0, 80), "Id of the control that the hint points at.")
      .need("done", &S::done, condition_shape(), "When the step is done.")
      .may("skippable", &S::skippable, flag(), "A later step done first also ends this one.");
  add_goal(t);
  return t.shape();
}

Shape<training::Loss> loss_shape() {
  using S = training::Loss;
  Object<S> t;
  t.need("when", &S::when, state_condition(), "What cannot be mended any more.")
      .may("unmet", &S::unmet, slug(), "Id of a criterion: lost only while it is not met.")
      .may("text", &S::text, text(1, 300),
           "Why this run cannot pass now. Without it the criterion alone is missed for good.")
      .check([](Reader& reader, const S& one) {
        if (one.text.empty() && one.unmet.empty())
          reader.problem("a text, or a criterion", "neither", "/text");
      });
  return t.shape();
}

}  // namespace stirbench::library
