#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/screens/train/fault_hands.h"
#include "app/desk/screens/train/hand_grid.h"
#include "sim_core/faults/who.h"
#include "sim_core/hands/mending.h"
#include "sim_core/machine/fault_readings.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

using machine::HandOverStage;

// A row of the sheet: what it is about, and what is written there.
void sheet_row(kit::Ui& ui, const char* id, const std::string& label, const std::string& words) {
  caption(ui, label);
  text(ui, words, {.id = id});
}

// Each finding with its tick: what is not ticked is left out.
void draw_findings(kit::Ui& ui, const training::Grounds& grounds, std::vector<hands::Action>& out) {
  caption(ui, tr("What was seen, heard and measured"));
  if (grounds.findings().empty()) text(ui, tr("Nothing yet."), {.id = "hand.report.nothing"});
  std::size_t row = 0;
  for (const training::Found& one : grounds.findings()) {
    bool in = !grounds.left_out(one);
    const std::string label =
        one.tick == 0 ? tr("You were told: {what}", {{"what", tr(one.title)}})
                      : tr("{check}: {found}", {{"check", tr(one.title)}, {"found", tr(one.words)}});
    if (checkbox(ui, "hand.report.finding." + std::to_string(row++), label, in))
      out.push_back(hands::report_finding(one.title, in));
  }
}

// What may be suspected: nothing, what was named, and the cause that is looked at in the list above.
void choose_suspicion(kit::Ui& ui, FaultHandsState& state, const work::LiveRun& run) {
  std::vector<std::string> ids{""};
  std::vector<std::string> titles{tr("Not known")};
  for (const faults::Fault& one : run.machine().faults) {
    const auto& named = run.state().work.named;
    const bool is_named = std::find(named.begin(), named.end(), faults::fault_id_hash(one.id)) != named.end();
    if (!is_named && one.id != state.cause) continue;
    ids.push_back(one.id);
    titles.push_back(tr(one.title));
  }
  const auto at = std::find(ids.begin(), ids.end(), state.suspected);
  int chosen = at == ids.end() ? 0 : static_cast<int>(at - ids.begin());
  choice(ui, "hand.report.suspected", tr("Suspected cause"), titles, chosen);
  state.suspected = ids[static_cast<std::size_t>(chosen)];
}

void draw_report(kit::Ui& ui, FaultHandsState& state, const work::LiveRun& run,
                 std::vector<hands::Action>& out) {
  const machine::State& now = run.state();
  sheet_row(ui, "hand.report.machine", tr("Machine"), run.machine().plant.title);
  sheet_row(ui, "hand.report.from", tr("From"),
            tr(std::string(faults::who_title(now.lockout.situation.trade))));
  if (run.scorer() != nullptr && run.scorer()->grounds() != nullptr)
    draw_findings(ui, *run.scorer()->grounds(), out);
  const std::string unsafe = hands::why_not_safe(now);
  caption(ui, tr("Made safe, and how it is left"));
  status_mark(ui, unsafe.empty() ? kit::Status::good : kit::Status::due, tr(hands::left_words(now)),
              "hand.report.left");
  if (!unsafe.empty()) text(ui, tr(unsafe), {.type = kit::Type::caption, .id = "hand.report.unsafe"});
  choose_suspicion(ui, state, run);
  const hands::Action call =
      hands::hand_off(state.suspected.empty() ? hands::not_known : std::string_view(state.suspected));
  const std::string reason = hands::why_not(run.machine(), now, call);
  if (button(ui, "hand.report.call", tr("Call a colleague with this report"),
             {.enabled = reason.empty(), .reason = tr(reason), .place = {.w = -1.0F}})) {
    out.push_back(call);
    state.report_open = false;
  }
}

std::string minutes_left(const machine::State& state) {
  const auto& over = state.work.hand_over;
  const std::uint64_t left = over.next_tick > state.tick ? over.next_tick - state.tick : 0;
  return kit::plain_number(static_cast<double>(left) / machine::ticks_per_second / 60.0, 0);
}

// What they said when they came, or gave it back: the last of its name.
void tell(kit::Ui& ui, const work::LiveRun& run, const std::string& name) {
  const auto& history = run.history();
  const auto last = std::find_if(history.rbegin(), history.rend(),
                                 [&name](const machine::Event& one) { return one.name == name; });
  if (last != history.rend()) text(ui, tr(last->text), {.id = "hand.report.told"});
}

}  // namespace

void draw_hand_over(kit::Ui& ui, FaultHandsState& state, const work::LiveRun& run,
                    std::vector<hands::Action>& out) {
  switch (run.state().work.hand_over.stage) {
    case HandOverStage::called:
      status_mark(ui, kit::Status::info,
                  tr("A colleague was called and comes in {n} min.", {{"n", minutes_left(run.state())}}),
                  "hand.report.called");
      text(ui, tr("Leave it as you reported it. \"to my next step\" lets the time go by."),
           {.type = kit::Type::caption});
      return;
    case HandOverStage::here:
      status_mark(ui, kit::Status::due, tr("The colleague works behind their own padlock."),
                  "hand.report.here");
      tell(ui, run, "colleague_comes");
      return;
    case HandOverStage::given_back:
      status_mark(ui, kit::Status::good, tr("Given back to you"), "hand.report.given_back");
      tell(ui, run, "given_back");
      text(ui, tr("Tag and padlock off, isolator on: see it run before you say that it works."),
           {.type = kit::Type::caption});
      break;
    case HandOverStage::none:
    case HandOverStage::count: break;
  }
  if (button(ui, "hand.report.open", tr("Report for a colleague"),
             {.selected = state.report_open, .place = {.w = -1.0F}, .align = kit::Align::left}))
    state.report_open = !state.report_open;
  if (state.report_open) draw_report(ui, state, run, out);
}

}  // namespace stirbench::desk::screens
