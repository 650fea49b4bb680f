#include "app/desk/screens/train/lockout_board.h"

#include "app/desk/kit/signs/signs.h"
#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "sim_core/machine/lockout.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

using L = machine::LockoutStep;

std::string lock_words(const machine::Padlock& lock, const std::string& whose) {
  if (!lock.on)
    return lock.tag ? tr("{whose}: tag alone", {{"whose", whose}})
                    : tr("{whose}: nothing", {{"whose", whose}});
  std::string words = lock.tag ? tr("{whose}: padlock and tag", {{"whose", whose}})
                               : tr("{whose}: padlock, no tag", {{"whose", whose}});
  if (lock.key_in) words += ", " + tr("key in it");
  if (lock.on_neighbour) words += ", " + tr("on the other isolator");
  return words;
}

void lock_line(kit::Ui& ui, const machine::Padlock& lock, const std::string& whose, const char* id) {
  const bool good = lock.on && !lock.key_in && !lock.on_neighbour && !lock.borrowed;
  const kit::Status state = good                  ? kit::Status::good
                            : lock.on || lock.tag ? kit::Status::due
                                                  : kit::Status::not_yet;
  status_mark(ui, state, lock_words(lock, whose), id);
}

// The first step that is open, and how many are done: enough to know where one stands.
void next_step(kit::Ui& ui, const machine::Lockout& lockout) {
  int done = 0;
  int first_open = -1;
  for (std::size_t i = 0; i < machine::lockout_step_count; ++i) {
    if (lockout.steps[i].done)
      ++done;
    else if (first_open < 0)
      first_open = static_cast<int>(i);
  }
  if (done == 0) return;
  std::string words = tr("{n} of {all} steps done",
                         {{"n", std::to_string(done)}, {"all", std::to_string(machine::lockout_step_count)}});
  if (first_open >= 0)
    words += " · " + tr("open: {step}",
                        {{"step", tr(std::string(machine::lockout_step_title(static_cast<L>(first_open))))}});
  text(ui, words, {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "lockout.next"});
}

// Each stored energy as far as somebody looked: a tick when it was let out or seen gone.
void energy_line(kit::Ui& ui, const machine::Lockout& lockout) {
  struct Entry {
    L step;
    std::string words;
  };
  const std::array<Entry, 5> entries{{{L::heat_gone, tr("heat")},
                                      {L::hose_gone, tr("hose")},
                                      {L::spring_eased, tr("spring")},
                                      {L::capacitor_gone, tr("capacitor")},
                                      {L::refrigerant_left, tr("refrigerant")}}};
  std::string gone;
  std::string open;
  for (const Entry& entry : entries) {
    std::string& list = machine::step_of(lockout, entry.step).done ? gone : open;
    list += (list.empty() ? "" : ", ") + entry.words;
  }
  if (!gone.empty()) status_mark(ui, kit::Status::good, tr("Gone: {list}", {{"list", gone}}), "lockout.gone");
  if (!open.empty())
    status_mark(ui, kit::Status::not_yet, tr("Not looked at: {list}", {{"list", open}}), "lockout.open");
}

}  // namespace

void draw_lockout_board(kit::Ui& ui, const work::LiveRun& run) {
  const machine::State& state = run.state();
  const machine::Lockout& lockout = state.lockout;
  const bool off = !state.plant.fittings.isolator_on;
  status_mark(ui, off ? kit::Status::good : kit::Status::due,
              off ? tr("Isolator OFF") : tr("Isolator ON: the machine can start"), "lockout.isolator");
  lock_line(ui, lockout.yours, tr("You"), "lockout.yours");
  if (lockout.colleagues.on || lockout.colleagues.tag || lockout.situation.colleague_work_s > 0.0) {
    lock_line(ui, lockout.colleagues, tr("Colleague"), "lockout.colleagues");
  }
  energy_line(ui, lockout);
  const bool dead = machine::verified_dead(lockout);
  const bool tried = machine::step_of(lockout, L::start_tried).done;
  status_mark(ui,
              dead    ? kit::Status::good
              : tried ? kit::Status::due
                      : kit::Status::not_yet,
              dead    ? tr("Measured dead, meter proved twice")
              : tried ? tr("Start tried, not measured")
                      : tr("Nothing proved yet"),
              "lockout.proved");
  if (run.mode() != work::RunMode::test) next_step(ui, lockout);
}

}  // namespace stirbench::desk::screens
