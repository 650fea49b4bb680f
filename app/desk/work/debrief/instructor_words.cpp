#include "app/desk/work/debrief/instructor_words.h"

#include "app/desk/kit/text/text.h"
#include "sim_core/hands/action.h"
#include "sim_core/hands/handles.h"

namespace stirbench::desk::work {

using kit::tr;

std::string instructor_words(const machine::Event& event, const kit::UnitChoice& units) {
  if (is_of(event, hands::set_room))
    return tr("Instructor: room at {t}",
              {{"t", kit::show_text(kit::Quantity::temperature, event.number, units)}});
  if (is_of(event, hands::set_supply_voltage))
    return tr("Instructor: supply at {p} % of its voltage",
              {{"p", kit::plain_number(100.0 * event.number, 0)}});
  if (is_of(event, hands::set_delivery))
    return tr(
        "Instructor: {what} is delivered at {t}",
        {{"what", tr(event.text)}, {"t", kit::show_text(kit::Quantity::temperature, event.number, units)}});
  if (is_of(event, hands::set_fault))
    return event.number > 0.0 ? tr("Instructor: broken: {what}", {{"what", tr(event.text)}})
                              : tr("Instructor: put right: {what}", {{"what", tr(event.text)}});
  if (is_of(event, hands::freeze_run)) return tr("Instructor: the clock was stopped to talk");
  if (is_of(event, hands::hand_back)) return tr("Instructor: handed back");
  if (is_of(event, hands::mark_observation))
    return event.number > 0.5 ? tr("Well done: {what}", {{"what", event.text}})
                              : tr("To work on: {what}", {{"what", event.text}});
  return {};
}

}  // namespace stirbench::desk::work
