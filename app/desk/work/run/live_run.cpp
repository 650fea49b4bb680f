#include "app/desk/work/run/live_run.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>

#include "sim_core/bytes/hash64.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/training/skill_evidence.h"

namespace stirbench::desk::work {

namespace {

// How often it is asked whether the run can still pass, besides whenever something was missed: a card is
// dear.
constexpr std::uint64_t ticks_between_prospects = 10 * machine::ticks_per_second;

nlohmann::json criteria_json(const training::ScoreCard& card) {
  nlohmann::json list = nlohmann::json::array();
  for (const auto& c : card.criteria) {
    if (training::goes_without_saying(c)) continue;
    list.push_back({{"id", c.id},
                    {"title", c.title},
                    {"skill", c.skill},
                    {"met", c.met},
                    {"occasion", c.occasion},
                    {"everywhere", c.everywhere},
                    {"must_pass", c.must_pass},
                    {"points", c.points},
                    {"of", c.of},
                    {"at_s", c.at_s},
                    {"why", c.why},
                    {"credit_norm", c.credit_norm}});
  }
  return list;
}

}  // namespace

std::string run_mode_name(RunMode mode) {
  switch (mode) {
    case RunMode::guided: return "guided";
    case RunMode::practice: return "practice";
    case RunMode::test: return "test";
    case RunMode::free: return "free";
    case RunMode::retry: return "retry";
  }
  return "free";
}

LiveRun::LiveRun(Setup setup) : setup_(std::move(setup)) {
  if (setup_.store != nullptr && setup_.lesson && setup_.person != 0) {
    try {
      records::Attempt attempt;
      attempt.person = setup_.person;
      attempt.lesson = setup_.lesson->id;
      attempt.lesson_hash = setup_.lesson->hash;
      attempt.mode = run_mode_name(setup_.mode);
      attempt.machine = setup_.machine.plant.id;
      attempt.started_utc = setup_.started_utc;
      attempt_ = setup_.store->begin_attempt(attempt);
      journal_ = std::make_unique<records::JournalFile>(setup_.store->journal_path(*attempt_));
    } catch (const records::StoreError& error) {
      keeping_problem_ = error.text;
    }
  }
  const auto write = [this](std::string_view record) { keep(record); };
  if (setup_.lesson && setup_.branch) {
    lesson_run_ = std::make_unique<training::LessonRun>(setup_.machine, *setup_.lesson,
                                                        run_mode_name(setup_.mode), setup_.program,
                                                        setup_.lesson->start.seed, *setup_.branch, write);
    alarm_log_.see(lesson_run_->session().history());
    last_step_ = current_step();
    could_pass_tick_ = state().tick;
    missed_seen_ = lesson_run_->scorer().missed_so_far().size();
  } else if (setup_.lesson) {
    lesson_run_ =
        std::make_unique<training::LessonRun>(setup_.machine, *setup_.lesson, run_mode_name(setup_.mode),
                                              setup_.program, setup_.lesson->start.seed, write);
  } else {
    journal::SessionHeader header;
    header.machine = setup_.machine.plant.id;
    header.mode = run_mode_name(RunMode::free);
    header.program = setup_.program;
    header.start = setup_.free_start;
    if (setup_.branch) {
      header.branch_of = setup_.branch->of;
      header.branch_tick = setup_.branch->tick;
    }
    free_run_ = std::make_unique<journal::Session>(setup_.machine, header, write);
    if (setup_.branch) {
      training::play_up_to(*free_run_, setup_.branch->acts, setup_.branch->tick);
      alarm_log_.see(free_run_->history());
    }
  }
}

LiveRun::~LiveRun() = default;

journal::Session& LiveRun::session() { return lesson_run_ ? lesson_run_->session() : *free_run_; }
const journal::Session& LiveRun::session() const { return lesson_run_ ? lesson_run_->session() : *free_run_; }
const machine::State& LiveRun::state() const { return session().state(); }
const std::vector<machine::Event>& LiveRun::history() const { return session().history(); }
bool LiveRun::over() const { return state().injured || (lesson_run_ && lesson_run_->over()); }
int LiveRun::current_step() const {
  return lesson_run_ ? static_cast<int>(lesson_run_->scorer().next_goal()) : 0;
}

const LiveRun::Counsel& LiveRun::counsel() const {
  if (lesson_run_ && counsel_.tick != state().tick)
    counsel_ = {state().tick, lesson_run_->advice(), lesson_run_->prospect()};
  return counsel_;
}
const training::Advice& LiveRun::advice() const { return counsel().advice; }
const training::Prospect& LiveRun::prospect() const { return counsel().prospect; }

training::ScoreCard LiveRun::card() const {
  return lesson_run_ ? lesson_run_->card() : training::ScoreCard{};
}
const training::Scorer* LiveRun::scorer() const { return lesson_run_ ? &lesson_run_->scorer() : nullptr; }

void LiveRun::keep(std::string_view record) {
  journal_text_ += record;
  if (!journal_) return;
  try {
    journal_->write(record);
  } catch (const records::StoreError& error) {
    // The run goes on; what could not be kept is said once, on the screen.
    keeping_problem_ = error.text;
    journal_.reset();
  }
}

std::string LiveRun::act(const hands::Action& action) {
  if (finished_) return "This run has ended.";
  if (frozen_) return "The instructor has stopped the clock.";
  std::string reason = hands::why_not(setup_.machine, state(), action);
  if (!reason.empty()) return reason;
  session().act(action);
  if (action.is(hands::turn_draw_valve)) asked_opening_norm_ = asked_value(action);
  return reason;
}

bool LiveRun::hides_faults() const {
  if (setup_.faults_known) return false;
  // A lesson's fault is known once nothing of it is left to find; a fault that an instructor sets counts like
  // one of the start.
  const auto& faults = state().plant.faults;
  return std::any_of(faults.begin(), faults.end(),
                     [](const plant::ActiveFault& one) { return one.mark != 0; });
}

bool LiveRun::senses_only() const {
  if (setup_.faults_known) return false;
  const bool to_find = setup_.lesson.has_value() && setup_.lesson->guide != nullptr;
  return to_find || setup_.mode == RunMode::test || hides_faults();
}

std::string LiveRun::instruct(const hands::Action& action) {
  if (finished_) return "This run has ended.";
  const bool touches_nothing =
      action.is(hands::freeze_run) || action.is(hands::hand_back) || action.is(hands::mark_observation);
  if (setup_.mode == RunMode::test && !touches_nothing)
    return "A test is sealed: conditions and faults stay as they were drawn.";
  std::string reason = hands::why_not(setup_.machine, state(), action);
  if (!reason.empty()) return reason;
  session().act(action);
  instructed_ = true;
  if (action.is(hands::freeze_run)) frozen_ = true;
  if (action.is(hands::hand_back)) frozen_ = false;
  if (action.is(hands::set_delivery)) delivered_degC_[first_text(action)] = asked_value(action);
  return {};
}

double LiveRun::delivered_degC(const product::Ingredient& ingredient) const {
  const auto found = delivered_degC_.find(ingredient.id);
  return found == delivered_degC_.end() ? ingredient.supply_degC : found->second;
}

double LiveRun::draw_opening_norm() const {
  return asked_opening_norm_.value_or(state().plant.fittings.draw_opening_norm);
}

Attention LiveRun::step() {
  if (finished_) return {};
  asked_opening_norm_.reset();
  const std::vector<machine::Event>& events = lesson_run_ ? lesson_run_->step() : free_run_->step();
  watch_prospect();
  return judge(events);
}

// The most urgent thing of this tick, harms before alarms before progress.
Attention LiveRun::judge(const std::vector<machine::Event>& events) {
  alarm_log_.see(events);
  Attention found;
  const auto offer = [&found](Attention::Kind kind, const std::string& text) {
    if (found.kind != Attention::Kind::harm) found = {kind, text};
  };
  for (const machine::Event& event : events) {
    switch (event.kind) {
      case machine::EventKind::harm: offer(Attention::Kind::harm, event.text); break;
      case machine::EventKind::alarm_raised:
        offer(event.subject == static_cast<int>(control::AlarmId::addition_waiting)
                  ? Attention::Kind::addition
                  : Attention::Kind::alarm,
              std::string(control::alarm_title(static_cast<control::AlarmId>(event.subject))));
        break;
      case machine::EventKind::refused: offer(Attention::Kind::refused, event.text); break;
      case machine::EventKind::recipe_finished: offer(Attention::Kind::finished, event.text); break;
      case machine::EventKind::other_person:
        if (found.kind == Attention::Kind::none) offer(Attention::Kind::person, event.text);
        break;
      case machine::EventKind::hold_restarted: offer(Attention::Kind::alarm, event.text); break;
      default: break;
    }
  }
  if (over() && found.kind != Attention::Kind::harm) return {Attention::Kind::lesson_over, ""};
  const int now_at = current_step();
  if (now_at != last_step_) {
    last_step_ = now_at;
    if (found.kind == Attention::Kind::none) found = {Attention::Kind::step_done, ""};
  }
  return found;
}

std::optional<training::Rung> LiveRun::first_rung() const {
  const bool led = mode() == RunMode::guided || (mode() == RunMode::retry && !setup_.asked);
  if (!led || !setup_.lesson) return std::nullopt;
  return training::first_rung(advice().goal, setup_.lesson->steps.size(), setup_.grasp);
}

void LiveRun::note_rung(training::Rung rung) {
  const std::size_t goal = setup_.lesson ? advice().goal : 0;
  const bool known = setup_.lesson && goal < setup_.lesson->steps.size();
  asked_rungs_.push_back({rung, known ? setup_.lesson->steps[goal].id : "", machine::time_s(state())});
}

void LiveRun::watch_prospect() {
  if (!lesson_run_ || lost_) return;
  const std::size_t missed = lesson_run_->scorer().missed_so_far().size();
  if (missed == missed_seen_ && state().tick % ticks_between_prospects != 0) return;
  missed_seen_ = missed;
  if (lesson_run_->prospect().can_pass)
    could_pass_tick_ = state().tick;
  else
    lost_ = true;
}

std::string LiveRun::why_not_rewind() const {
  if (setup_.mode == RunMode::test) return "A test stands as it was played.";
  if (state().tick == 0) return "Nothing has happened yet.";
  return {};
}

std::uint64_t LiveRun::rewind_tick() const {
  const std::uint64_t from = state().injured || !lost_ ? state().tick : could_pass_tick_;
  constexpr auto back = static_cast<std::uint64_t>(rewind_s * machine::ticks_per_second);
  return from > back ? from - back : 0;
}

std::unique_ptr<LiveRun> LiveRun::rewound(const std::string& started_utc) const {
  journal::Journal kept;
  journal::read_journal(journal_text_, kept);
  Setup setup = setup_;
  setup.started_utc = started_utc;
  setup.asked = setup_.mode == RunMode::practice || setup_.asked;
  if (setup_.mode != RunMode::free) setup.mode = RunMode::retry;
  setup.branch =
      training::LessonRun::Branch{attempt_ ? attempt_->uid : "", std::move(kept.acts), rewind_tick()};
  auto run = std::make_unique<LiveRun>(std::move(setup));
  run->delivered_degC_ = delivered_degC_;
  // Taken back for another reason, it may have been lost before: from there on it is taken back next.
  if (lost_) run->could_pass_tick_ = std::min(could_pass_tick_, run->could_pass_tick_);
  return run;
}

std::unique_ptr<LiveRun> LiveRun::again(const std::string& started_utc,
                                        std::optional<training::Lesson> lesson) const {
  Setup setup = setup_;
  setup.started_utc = started_utc;
  // From its beginning it is a run like any other.
  if (setup.mode == RunMode::retry && setup.branch && lesson)
    setup.mode = setup.asked ? RunMode::practice : RunMode::guided;
  if (lesson) setup.lesson = std::move(lesson);
  setup.branch.reset();
  return std::make_unique<LiveRun>(std::move(setup));
}

bool LiveRun::something_runs() const {
  const machine::State& now = state();
  const control::Mode mode = now.control.mode;
  using machine::HandOverStage;
  const HandOverStage colleague = now.work.hand_over.stage;
  const bool awaited = colleague == HandOverStage::called || colleague == HandOverStage::here;
  return awaited || mode == control::Mode::heating || mode == control::Mode::chilling ||
         mode == control::Mode::stirring || mode == control::Mode::running ||
         mode == control::Mode::rinsing || now.plant.flows.agitator_rpm > 0.5 ||
         now.plant.flows.draw_L_per_min > 0.01 || now.plant.fittings.rinse_on;
}

std::string LiveRun::card_text(const training::ScoreCard& card) const {
  nlohmann::json skills = nlohmann::json::array();
  for (const training::SkillMark& mark : training::skill_marks(*setup_.lesson, card))
    skills.push_back({{"skill", mark.skill}, {"passed", mark.passed}, {"musts_missed", mark.musts_missed}});
  nlohmann::json asked = nlohmann::json::array();
  int leading = 0;
  for (const AskedRung& one : asked_rungs_) {
    asked.push_back(
        {{"rung", std::string(training::rung_name(one.rung))}, {"step", one.step}, {"at_s", one.at_s}});
    leading += training::leads(one.rung) ? 1 : 0;
  }
  return nlohmann::json{{"criteria", criteria_json(card)},
                        {"skills", skills},
                        {"pass_norm", card.pass_norm},
                        {"injured", card.injured},
                        {"hints", leading},
                        {"rungs", asked},
                        {"rewound", setup_.branch.has_value()}}
      .dump();
}

void LiveRun::finish() {
  if (finished_) return;
  finished_ = true;
  session().end();
  if (!attempt_ || setup_.store == nullptr) return;
  const training::ScoreCard result = card();
  attempt_->simulated_s = machine::time_s(state());
  attempt_->passed = result.passed;
  attempt_->score_norm = result.score_norm;
  attempt_->card_json = card_text(result);
  attempt_->state_hash = bytes::hex64(machine::state_hash(state()));
  attempt_->finished = true;
  try {
    setup_.store->finish_attempt(*attempt_);
  } catch (const records::StoreError& error) {
    keeping_problem_ = error.text;
  }
}

}  // namespace stirbench::desk::work
