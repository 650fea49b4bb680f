#include "app/desk/views/panel/alarm_sheet.h"

#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "sim_core/bench/step.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"

namespace stirbench::desk::views {

using kit::tr;

namespace {

using control::AlarmId;
using control::AlarmState;

std::string key_of(AlarmId id) { return std::string(control::alarm_key(id)); }
std::string title_of(AlarmId id) { return tr(std::string(control::alarm_title(id))); }

void act_button(kit::Ui& ui, const AlarmSheetInput& input, const std::string& id, const std::string& label,
                const hands::Action& action, std::vector<hands::Action>& out) {
  const std::string reason = hands::why_not(input.machine, input.state, action);
  if (button(ui, id, label, {.enabled = reason.empty(), .reason = tr(reason)})) out.push_back(action);
}

// One line for a text with its heading: "Cause: the lid is open."
void part(kit::Ui& ui, const std::string& heading, const std::string& words) {
  caption(ui, heading);
  text(ui, tr(words));
}

void shelving(kit::Ui& ui, const AlarmSheetInput& input, AlarmId id, const control::Alarm& alarm,
              std::vector<hands::Action>& out) {
  const control::AlarmRule& rule = input.machine.control.alarms[static_cast<std::size_t>(id)];
  if (!(rule.shelve_longest_s > 0.0)) return;
  same_line(ui);
  if (alarm.shelved_until_tick != 0) {
    act_button(ui, input, "alarms." + key_of(id) + ".unshelve", tr("Take off the shelf"),
               hands::unshelve(key_of(id)), out);
    return;
  }
  act_button(ui, input, "alarms." + key_of(id) + ".shelve",
             tr("Shelve for {time}", {{"time", kit::show_duration(rule.shelve_longest_s)}}),
             hands::shelve(key_of(id), rule.shelve_longest_s), out);
}

void standing(kit::Ui& ui, const AlarmSheetInput& input, AlarmId id, std::vector<hands::Action>& out) {
  const control::Alarm& alarm = input.state.control.alarms[static_cast<std::size_t>(id)];
  const control::AlarmRule& rule = input.machine.control.alarms[static_cast<std::size_t>(id)];
  const AlarmState life = control::alarm_state(rule, alarm);
  std::string words = title_of(id) + " · " + alarm_state_words(life);
  if (alarm.order == 1) words += " · " + tr("came first");
  status_mark(ui, alarm.active ? kit::Status::bad : kit::Status::due, words,
              ("alarms." + key_of(id)).c_str());
  const auto found = input.library.alarms.find(key_of(id));
  if (found != input.library.alarms.end()) {
    part(ui, tr("Why it may have come"), found->second.cause);
    part(ui, tr("What it means"), found->second.consequence);
    part(ui, tr("What to do"), found->second.action);
  }
  gap(ui, 4.0F);
  act_button(ui, input, "alarms." + key_of(id) + ".acknowledge", tr("Acknowledge"),
             hands::acknowledge(key_of(id)), out);
  shelving(ui, input, id, alarm, out);
  gap(ui, 8.0F);
  separator(ui);
}

// Those that stand or wait to be acknowledged, in the order in which they came.
std::vector<AlarmId> open_alarms(const AlarmSheetInput& input) {
  std::vector<AlarmId> open;
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    const auto id = static_cast<AlarmId>(i);
    const AlarmState life =
        control::alarm_state(input.machine.control.alarms[i], input.state.control.alarms[i]);
    if (life != AlarmState::normal && !control::alarm_is_prompt(id)) open.push_back(id);
  }
  std::stable_sort(open.begin(), open.end(), [&](AlarmId a, AlarmId b) {
    return input.state.control.alarms[static_cast<std::size_t>(a)].order <
           input.state.control.alarms[static_cast<std::size_t>(b)].order;
  });
  return open;
}

void load_figures(kit::Ui& ui, const signals::AlarmLog& log, std::uint64_t tick) {
  const signals::AlarmLoad load = log.load(tick);
  caption(ui, tr("Alarm load of this run"));
  text(ui,
       tr("{n} alarms in {time}; most in ten minutes: {peak}; never acknowledged: {open}.",
          {{"n", std::to_string(load.alarms)},
           {"time", kit::show_duration(load.shift_s)},
           {"peak", std::to_string(load.peak_10min)},
           {"open", std::to_string(load.unacknowledged)}}),
       {.id = "alarms.load"});
  if (load.alarms > 0) text(ui, tr(signals::load_words(load)), {.colour = kit::Token::ink2});
}

void journal(kit::Ui& ui, const signals::AlarmLog& log) {
  caption(ui, tr("Journal"));
  if (log.transitions().empty()) {
    text(ui, tr("No alarm so far."), {.colour = kit::Token::ink2, .id = "alarms.journal"});
    return;
  }
  kit::TableScope table(ui, "alarms.journal", {{tr("At"), -64.0F}, {tr("Alarm"), 1.2F}, {tr("Became"), 1.4F}},
                        false);
  table.header();
  constexpr std::size_t most_rows = 40;
  const auto& all = log.transitions();
  for (std::size_t i = 0; i < std::min(all.size(), most_rows); ++i) {
    const signals::AlarmTransition& step = all[all.size() - 1 - i];  // the latest first
    table.row("alarms.journal." + std::to_string(all.size() - 1 - i),
              {{kit::show_duration(static_cast<double>(step.tick) * machine::tick_s)},
               {title_of(step.id)},
               {alarm_state_words(step.to)}});
  }
}

}  // namespace

std::string alarm_state_words(AlarmState state) {
  switch (state) {
    case AlarmState::normal: return tr("normal");
    case AlarmState::unacknowledged: return tr("new, nobody has acknowledged it");
    case AlarmState::acknowledged: return tr("acknowledged, the cause is there");
    case AlarmState::returned_unacknowledged: return tr("gone again, nobody acknowledged it");
    case AlarmState::latched_unacknowledged: return tr("cause right, latched, not acknowledged");
    case AlarmState::latched_acknowledged: return tr("cause right, latched until Stop clears it");
    case AlarmState::shelved: return tr("shelved for a while");
    case AlarmState::suppressed: return tr("suppressed by design");
    case AlarmState::out_of_service: return tr("out of service");
  }
  return {};
}

bool draw_alarm_sheet(kit::Ui& ui, const AlarmSheetInput& input, std::vector<hands::Action>& out) {
  kit::DialogScope dialog(ui, "alarms", tr("Alarms"), 680.0F);
  const std::vector<AlarmId> open = open_alarms(input);
  if (open.empty()) {
    status_mark(ui, kit::Status::good, tr("No alarm stands."), "alarms.none");
  } else {
    for (const AlarmId id : open) standing(ui, input, id, out);
    text(ui,
         tr("To acknowledge says that you have seen it. It clears nothing: put the cause right, then press "
            "and let go Stop."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
  }
  gap(ui, 8.0F);
  if (open.size() > 1) {
    act_button(ui, input, "alarms.acknowledge", tr("Acknowledge all"), hands::acknowledge("all"), out);
    gap(ui, 8.0F);
  }
  load_figures(ui, input.log, input.state.tick);
  gap(ui, 8.0F);
  journal(ui, input.log);
  return !dialog.dismissed();
}

}  // namespace stirbench::desk::views
