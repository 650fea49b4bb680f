#include "app/desk/screens/train/instructor_panel.h"

#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "sim_core/faults/fault.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

void sign_in(InstructorState& state, work::Desk& desk) {
  try {
    const std::optional<records::Person> person = desk.store->person_named(state.who);
    if (!person) throw records::StoreError(tr("There is nobody of this name."));
    const records::Access access = desk.store->sign_in(person->id, state.pin);
    const std::string denied = records::why_not(access, records::Right::instruct, desk.person.id);
    if (!denied.empty()) throw records::StoreError(denied);
    state.access = access;
    state.name = person->name;
    state.signed_in = true;
    state.problem.clear();
    desk.store->note(access, "instructs", desk.run->attempt() ? desk.run->attempt()->uid : "");
  } catch (const records::StoreError& error) {
    state.problem = error.text;
  }
  state.pin.clear();
}

void draw_sign_in(kit::Ui& ui, InstructorState& state, work::Desk& desk) {
  text(ui, tr("An instructor or a manager signs in. The run stays the learner's."),
       {.colour = kit::Token::ink2});
  text_field(ui, "instructor.who", tr("Name"), state.who);
  text_field(ui, "instructor.pin", tr("PIN or passphrase"), state.pin,
             {.error = state.problem, .password = true});
  gap(ui, 6.0F);
  const bool ready = !state.who.empty() && !state.pin.empty();
  const std::string reason = tr("Type name and PIN.");
  const bool go = button(ui, "instructor.go", tr("Sign in"),
                         {.kind = kit::ButtonKind::primary, .enabled = ready, .reason = reason});
  if (ready && (go || entered(ui, "instructor.pin"))) sign_in(state, desk);
}

void draw_notes(kit::Ui& ui, InstructorState& state, std::vector<hands::Action>& out) {
  text_field(ui, "instructor.note", tr("What you see now"), state.note,
             {.hint = tr("lifts the lid without looking")});
  const bool ready = state.note.find_first_not_of(' ') != std::string::npos;
  const std::string reason = tr("Write down what was seen.");
  const bool good = button(ui, "instructor.good", tr("Well done"),
                           {.icon = kit::Icon::check, .enabled = ready, .reason = reason});
  same_line(ui);
  const bool work = button(ui, "instructor.work", tr("To work on"),
                           {.icon = kit::Icon::warning, .enabled = ready, .reason = reason});
  if (!good && !work) return;
  out.push_back(hands::mark_observation(state.note, good));
  state.note.clear();
}

void draw_conditions(kit::Ui& ui, InstructorState& state, const machine::Machine& machine,
                     std::vector<hands::Action>& out) {
  quantity_field(ui, "instructor.room", tr("Room"), kit::Quantity::temperature, state.room_degC,
                 {.min_si = -20.0, .max_si = 60.0, .place = {.w = ui.em(200.0F)}});
  same_line(ui);
  if (button(ui, "instructor.room.set", tr("Set"))) out.push_back(hands::set_room(state.room_degC));
  number_field(
      ui, "instructor.supply", tr("Supply voltage, of nominal"), state.supply_percent,
      {.unit = "%", .min = 0.0, .max = 120.0, .step = 5.0, .decimals = 0, .place = {.w = ui.em(200.0F)}});
  same_line(ui);
  if (button(ui, "instructor.supply.set", tr("Set")))
    out.push_back(hands::set_supply_voltage(0.01 * state.supply_percent));
  if (machine.ingredients.empty()) return;
  std::vector<std::string> names;
  for (const auto& one : machine.ingredients) names.push_back(tr(one.title));
  choice(ui, "instructor.ingredient", tr("Delivered from now on"), names, state.ingredient);
  quantity_field(ui, "instructor.delivered", tr("at"), kit::Quantity::temperature, state.delivered_degC,
                 {.min_si = -2.0, .max_si = 100.0, .place = {.w = ui.em(200.0F)}});
  same_line(ui);
  if (button(ui, "instructor.delivered.set", tr("Set")))
    out.push_back(hands::set_delivery(machine.ingredients[static_cast<std::size_t>(state.ingredient)].id,
                                      state.delivered_degC));
}

void draw_faults(kit::Ui& ui, InstructorState& state, const work::LiveRun& run,
                 std::vector<hands::Action>& out) {
  const auto& faults = run.machine().faults;
  if (faults.empty()) return;
  std::vector<std::string> titles;
  titles.reserve(faults.size());
  for (const auto& one : faults) titles.push_back(tr(one.title));
  choice(ui, "instructor.fault", tr("Fault"), titles, state.fault);
  number_field(
      ui, "instructor.severity", tr("How bad"), state.severity_percent,
      {.unit = "%", .min = 1.0, .max = 100.0, .step = 10.0, .decimals = 0, .place = {.w = ui.em(200.0F)}});
  const std::string& id = faults[static_cast<std::size_t>(state.fault)].id;
  if (button(ui, "instructor.fault.set", tr("Break it")))
    out.push_back(hands::set_fault(id, 0.01 * state.severity_percent));
  same_line(ui);
  const hands::Action mend = hands::set_fault(id, 0.0);
  const std::string reason = tr(hands::why_not(run.machine(), run.state(), mend));
  if (button(ui, "instructor.fault.mend", tr("Put it right"), {.enabled = reason.empty(), .reason = reason}))
    out.push_back(mend);
  for (const auto& one : faults) {
    const auto mark = faults::fault_id_hash(one.id);
    const auto& in = run.state().plant.faults;
    if (std::any_of(in.begin(), in.end(), [mark](const auto& active) { return active.mark == mark; }))
      status_mark(ui, kit::Status::due, tr(one.title), "");
  }
}

}  // namespace

void open_instructor(InstructorState& state, work::Desk& desk) {
  state.open = true;
  const bool managed = desk.store && desk.store->managed();
  if (!managed) {
    // Records without a manager are open to everybody at them.
    state.signed_in = true;
    state.access = who_is_here(desk);
  } else if (const records::Access here = who_is_here(desk);
             here.person != 0 && here.person != desk.person.id &&
             records::why_not(here, records::Right::instruct, desk.person.id).empty()) {
    state.signed_in = true;
    state.access = here;
  }
  if (!desk.run) return;
  state.room_degC = desk.run->state().plant.environment.ambient_degC;
  state.supply_percent = 100.0 * desk.run->state().plant.environment.supply_norm;
}

std::vector<hands::Action> draw_instructor(kit::Ui& ui, InstructorState& state, work::Desk& desk,
                                           const kit::Rect& rect) {
  std::vector<hands::Action> out;
  kit::PanelScope panel(
      ui, "instructor", rect,
      {.caption = state.name.empty() ? tr("Instructor") : tr("Instructor") + " · " + state.name});
  const work::LiveRun& run = *desk.run;
  if (!state.signed_in) {
    draw_sign_in(ui, state, desk);
    return out;
  }
  if (run.frozen()) {
    if (button(ui, "instructor.hand_back", tr("Hand back"),
               {.kind = kit::ButtonKind::primary, .icon = kit::Icon::play, .place = {.w = -1.0F}}))
      out.push_back(hands::hand_back());
  } else if (button(ui, "instructor.freeze", tr("Stop the clock"),
                    {.icon = kit::Icon::pause, .place = {.w = -1.0F}})) {
    out.push_back(hands::freeze_run());
  }
  gap(ui, 6.0F);
  draw_notes(ui, state, out);
  if (run.mode() == work::RunMode::test) {
    gap(ui, 6.0F);
    text(ui, tr("A test is sealed: conditions and faults stay as they were drawn."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
    return out;
  }
  separator(ui);
  draw_conditions(ui, state, run.machine(), out);
  separator(ui);
  draw_faults(ui, state, run, out);
  return out;
}

}  // namespace stirbench::desk::screens
