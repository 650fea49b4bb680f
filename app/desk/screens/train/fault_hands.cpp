#include "app/desk/screens/train/fault_hands.h"

#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/screens/train/hand_grid.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/machine/fault_work.h"

namespace stirbench::desk::screens {

using kit::tr;
using kit::trc;

namespace {

const std::vector<std::string>& systems() {
  static const std::vector<std::string> list = {"heating", "sensing", "guards", "drive",   "pump",
                                                "chiller", "control", "supply", "hygiene", "use"};
  return list;
}

const faults::Fault* fault_of(const work::LiveRun& run, const std::string& id) {
  const int index = run.machine().fault_index(id);
  return index < 0 ? nullptr : &run.machine().faults[static_cast<std::size_t>(index)];
}

bool is_named(const work::LiveRun& run, const faults::Fault& fault) {
  const auto& list = run.state().work.named;
  return std::find(list.begin(), list.end(), faults::fault_id_hash(fault.id)) != list.end();
}

void draw_taken(kit::Ui& ui, const work::LiveRun& run, std::vector<hands::Action>& out) {
  const machine::State& state = run.state();
  text(ui,
       tr("Work so far: {n} min, {c} readings, {r} repairs.",
          {{"n", kit::plain_number(machine::work_min(state), 0)},
           {"c", std::to_string(state.work.checks)},
           {"r", std::to_string(state.work.repairs)}}),
       {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "hand.fault.taken"});
  for (const faults::Fault& one : run.machine().faults) {
    if (!is_named(run, one)) continue;
    status_mark(ui, kit::Status::info, tr("Named: {cause}", {{"cause", tr(one.title)}}),
                ("hand.fault.named." + one.id).c_str());
    const hands::Action back = hands::take_back_name(one.id);
    const std::string reason = hands::why_not(run.machine(), state, back);
    if (button(ui, "hand.fault.take_back." + one.id, tr("Take it back"),
               {.enabled = reason.empty(), .reason = tr(reason)}))
      out.push_back(back);
  }
  if (state.work.proved)
    status_mark(ui, kit::Status::good, tr("Seen working since the last repair"), "hand.fault.proved");
}

void choose_cause(kit::Ui& ui, FaultHandsState& state, const work::LiveRun& run) {
  std::vector<std::string> titles;
  for (const std::string& one : systems()) titles.push_back(trc("part of the machine", one));
  const int system = menu_button(ui, "hand.fault.system", trc("part of the machine", state.system), titles);
  if (system >= 0) {
    state.system = systems()[static_cast<std::size_t>(system)];
    state.cause.clear();
  }
  same_line(ui);
  std::vector<std::string> causes;
  std::vector<std::string> ids;
  for (const faults::Fault& one : run.machine().faults) {
    if (one.system != state.system) continue;
    causes.push_back(tr(one.title));
    ids.push_back(one.id);
  }
  const faults::Fault* chosen = fault_of(run, state.cause);
  const int cause = menu_button(ui, "hand.fault.cause",
                                chosen != nullptr ? tr(chosen->title) : tr("Choose a cause"), causes);
  if (cause >= 0) state.cause = ids[static_cast<std::size_t>(cause)];
}

void wide(kit::Ui& ui, const work::LiveRun& run, const std::string& id, const std::string& label,
          const hands::Action& action, std::vector<hands::Action>& out) {
  const std::string reason = hands::why_not(run.machine(), run.state(), action);
  if (button(ui, id, label,
             {.enabled = reason.empty(),
              .reason = tr(reason),
              .place = {.w = -1.0F},
              .align = kit::Align::left}))
    out.push_back(action);
}

// Checks by eye, ear and hand, and what the last one told.
void draw_checks(kit::Ui& ui, const work::LiveRun& run, std::vector<hands::Action>& out) {
  const std::vector<machine::SenseCheck>& checks = run.machine().checks;
  const training::Scorer* scorer = run.scorer();
  if (checks.empty() || scorer == nullptr || scorer->grounds() == nullptr) return;
  std::vector<std::string> titles;
  std::vector<std::size_t> shown;
  for (std::size_t i = 0; i < checks.size(); ++i) {
    if (!faults::may_do(run.state().lockout.situation.trade, checks[i].who)) continue;
    titles.push_back(tr(checks[i].title));
    shown.push_back(i);
  }
  const int chosen = menu_button(ui, "hand.fault.check", tr("Look, listen, feel"), titles);
  if (chosen >= 0) out.push_back(hands::make_check(checks[shown[static_cast<std::size_t>(chosen)]].id));
  const std::string& told = scorer->grounds()->last_words();
  if (!told.empty()) text(ui, tr(told), {.type = kit::Type::caption, .id = "hand.fault.told"});
  if (run.mode() == work::RunMode::test || scorer->grounds()->marks().empty()) return;
  const training::ProcessMark& mark = scorer->grounds()->marks().back();
  text(ui, tr("{check}: {why}", {{"check", tr(mark.check)}, {"why", tr(mark.why)}}),
       {.type = kit::Type::caption, .colour = kit::Token::due, .id = "hand.fault.mark"});
}

void draw_cause(kit::Ui& ui, const FaultHandsState& state, const work::LiveRun& run,
                std::vector<hands::Action>& out) {
  const faults::Fault* fault = fault_of(run, state.cause);
  if (fault == nullptr) return;
  gap(ui, 4.0F);
  text(ui, tr(fault->repair), {.type = kit::Type::caption});
  text(ui,
       tr("{n} min, {who}.", {{"n", kit::plain_number(fault->repair_min, 0)},
                              {"who", tr(std::string(faults::who_title(fault->who)))}}) +
           (fault->parts.empty() ? std::string() : " " + tr("Parts: {parts}", {{"parts", tr(fault->parts)}})),
       {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "hand.fault.repair_words"});
  wide(ui, run, "hand.fault.name", tr("This is the cause"), hands::name_cause(fault->id), out);
  wide(ui, run, "hand.fault.repair", tr("Repair it"), hands::repair(fault->id), out);
}

}  // namespace

void draw_fault_group(kit::Ui& ui, FaultHandsState& state, const work::LiveRun& run,
                      std::vector<hands::Action>& out) {
  draw_taken(ui, run, out);
  gap(ui, 4.0F);
  draw_checks(ui, run, out);
  gap(ui, 4.0F);
  choose_cause(ui, state, run);
  draw_cause(ui, state, run, out);
  gap(ui, 6.0F);
  draw_hand_over(ui, state, run, out);
  gap(ui, 6.0F);
  for (const auto& part : run.machine().plant.circuit.parts) {
    if (part.kind != electrics::CircuitPartKind::breaker) continue;
    const hands::Action reset = hands::reset_breaker(part.id);
    if (!hands::why_not(run.machine(), run.state(), reset).empty()) continue;
    wide(ui, run, "hand.fault.reset." + part.id, tr("Switch {part} on again", {{"part", part.id}}), reset,
         out);
  }
  wide(ui, run, "hand.fault.prove", tr("It works again: I saw it run"), hands::prove(), out);
  text(ui, tr("Instruments and terminals are in the wiring diagram. Panel, lock and proof are under Safety."),
       {.type = kit::Type::caption, .colour = kit::Token::ink2});
}

}  // namespace stirbench::desk::screens
