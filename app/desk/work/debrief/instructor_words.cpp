#include "app/desk/work/debrief/instructor_words.h"

#include "app/desk/kit/text/text.h"
#include "sim_core/bench/action.h"

namespace stirbench::desk::work {

using kit::tr;

std::string instructor_words(const bench::Event& event, const kit::UnitChoice& units) {
  using K = bench::ActionKind;
  switch (static_cast<K>(event.subject)) {
    case K::set_room: return tr("Instructor: room at {t}", {{"t", kit::show_text(kit::Quantity::temperature, event.number, units)}});
    case K::set_supply_voltage: return tr("Instructor: supply at {p} % of its voltage", {{"p", kit::plain_number(100.0 * event.number, 0)}});
    case K::set_delivery:
      return tr("Instructor: {what} is delivered at {t}", {{"what", tr(event.text)}, {"t", kit::show_text(kit::Quantity::temperature, event.number, units)}});
    case K::set_fault: return event.number > 0.0 ? tr("Instructor: broken: {what}", {{"what", tr(event.text)}}) : tr("Instructor: put right: {what}", {{"what", tr(event.text)}});
    case K::freeze_run: return tr("Instructor: the clock was stopped to talk");
    case K::hand_back: return tr("Instructor: handed back");
    case K::mark_observation: return event.number > 0.5 ? tr("Well done: {what}", {{"what", event.text}}) : tr("To work on: {what}", {{"what", event.text}});
    default: return {};
  }
}

}  // namespace stirbench::desk::work
