#include "sim_core/training/grounds.h"

#include <algorithm>
#include <utility>

#include "sim_core/hands/handles.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/plant/plant.h"
#include "sim_core/training/condition.h"

namespace stirbench::training {

namespace {

using diagnosis::Model;
using machine::Event;
using machine::Instrument;

constexpr double told_sure = 0.98;        // people describe what they saw, mostly (choice)
constexpr double warm_motor_norm = 0.15;  // from here on its relay trips too early to tell (choice)
constexpr double hot_degC = 60.0;         // Heat on such a product is the guide's run "hot"

// Positions that hands move: what the person has changed says nothing about how it was found.
struct Position {
  std::string_view hand;
  double found_number;  // of the event that puts right what was found wrong
  std::string_view signal;
};
constexpr std::array<Position, 6> positions = {{{"isolate", 0.0, "isolated"},
                                                {"open_lid", -1.0, "lid_open"},
                                                {"close_lid", 0.0, "lid_open"},
                                                {"open_shaft_cover", -1.0, "shaft_cover_open"},
                                                {"close_shaft_cover", 0.0, "shaft_cover_open"},
                                                {"turn_draw_valve", 0.0, "draw_opening_norm"}}};

std::string_view topic(const Event& event) {
  const hands::Hand* hand = hands::at(event.subject);
  return hand == nullptr ? std::string_view() : hand->name;
}

bool reads(const GroundsQuestion& question, std::string_view name) {
  const auto& sources = question.reading.sources();
  return sources.size() == 1 && sources.front().name == name;
}

bool reads_any(const GroundsQuestion& question, std::string_view name) {
  const auto& sources = question.reading.sources();
  return std::any_of(sources.begin(), sources.end(),
                     [name](const diagnosis::ReadingSource& one) { return one.name == name; });
}

bool at_rest(Spell spell) {
  return spell == Spell::rest || spell == Spell::stopped || spell == Spell::isolated;
}

// Some key was pressed that starts the machine.
bool told_to_run(Spell spell) {
  return spell == Spell::stirring || spell == Spell::warming || spell == Spell::chilling ||
         spell == Spell::hot;
}

// Hands that stop what runs: what the machine shows then is the person's own doing.
bool spoils_run(std::string_view hand) {
  return hand == "press_emergency_stop" || hand == "open_lid" || hand == "open_shaft_cover";
}

// Chilled to what the panel asks for: the compressor may rest.
bool is_cold(const machine::State& state) {
  constexpr double band_K = 1.5;
  return plant::probe_reading_degC(state.plant) < state.control.chill_target_degC + band_K;
}

bool waits(const GroundsQuestion& question) {
  return question.reading.fold() == diagnosis::Fold::above ||
         question.reading.fold() == diagnosis::Fold::below;
}

// The most that a part showed while it ran: what cycles is not caught at rest.
bool follows_most(const GroundsQuestion& question) {
  const auto& sources = question.reading.sources();
  return question.taking == Taking::check && question.reading.fold() == diagnosis::Fold::most &&
         std::all_of(sources.begin(), sources.end(),
                     [](const diagnosis::ReadingSource& one) { return one.part; });
}

std::string_view wanted_words(Spell spell) {
  switch (spell) {
    case Spell::stirring: return "It has to be told to stir for that: press Stir first.";
    case Spell::warming: return "It has to be told to heat for that: press Heat first.";
    case Spell::chilling: return "It has to be told to chill for that: press Chill first.";
    case Spell::hot: return "That shows on hot product: press Heat with it.";
    case Spell::drawing: return "That shows with Stir pressed and the draw valve open.";
    default: return "That is looked at while nothing is asked of the machine.";
  }
}

// What the display says comes of the person's own doing: the emergency stop, or a guard that they have
// opened.
bool is_own_doing(const Grounds& grounds, const machine::State& state) {
  using control::AlarmId;
  const auto left = [&](AlarmId id) {
    const control::Alarm& alarm = state.control.alarms[static_cast<std::size_t>(id)];
    return alarm.latched && !alarm.active;
  };
  const plant::Fittings& f = state.plant.fittings;
  return state.plant.safety.emergency_stop_in || left(AlarmId::emergency_stop) ||
         (grounds.has_moved("lid_open") && (f.lid_open || left(AlarmId::lid_guard))) ||
         (grounds.has_moved("shaft_cover_open") && (f.shaft_cover_open || left(AlarmId::shaft_cover_guard)));
}

bool takes_reading(std::string_view hand) {
  constexpr std::array<std::string_view, 7> list = {"set_meter",      "red_probe",         "black_probe",
                                                    "clamp_round",    "press_thermometer", "connect_gauges",
                                                    "look_at_reading"};
  return std::find(list.begin(), list.end(), hand) != list.end();
}

// Which reading it is: tool, function and places, and the wires that are off.
std::string place_of(const machine::FaultWork& work) {
  std::string key(machine::instrument_word(work.tool));
  for (const std::int32_t one : {static_cast<std::int32_t>(work.function), std::min(work.red, work.black),
                                 std::max(work.red, work.black), work.round, work.point})
    key += ":" + std::to_string(one);
  auto off = work.wires_off;
  std::sort(off.begin(), off.end());
  for (const std::int32_t wire : off) key += wire == 0 ? "" : "-" + std::to_string(wire);
  return key;
}

// The same with what the machine was told to do; at rest is at rest.
std::string reading_of(const machine::FaultWork& work, Spell spell) {
  return place_of(work) + "@" + std::to_string(at_rest(spell) ? 0 : static_cast<int>(spell));
}

std::string title_of(const machine::Machine& machine, const machine::FaultWork& work) {
  const electrics::Network& network = machine.plant.circuit;
  const auto terminal = [&network](std::int32_t i) {
    return network.terminals[static_cast<std::size_t>(i)].name;
  };
  if (work.tool == Instrument::clamp_meter)
    return "A at wire " + std::to_string(network.wires[static_cast<std::size_t>(work.round)].number);
  const std::string what(work.tool == Instrument::insulation_tester
                             ? std::string_view("Insulation")
                             : machine::meter_functions()[static_cast<std::size_t>(work.function)]);
  return what + " " + terminal(work.red) + " to " + terminal(work.black);
}

}  // namespace

std::string_view standing_word(Standing standing) {
  constexpr std::array<std::string_view, 3> words{"guessed", "premature", "earned"};
  return words[static_cast<std::size_t>(standing)];
}

Grounds::Grounds(std::shared_ptr<const GroundsGuide> guide, const std::vector<std::string>& reported)
    : guide_(std::move(guide)),
      display_(guide_->questions().size()),
      before_(display_.size()),
      stood_(display_.size(), 0) {
  for (const std::string& id : reported) {
    const std::size_t symptom = guide_->model().symptom_index(id);
    if (symptom == Model::npos) continue;
    told_.push_back({symptom, 1, told_sure, guide_->model().question_title(symptom), "told", 0});
  }
  findings_ = told_;
}

void Grounds::see(const Moment& moment) {
  if (!moment.events.empty()) follow(moment);
  if (moment.state.tick % machine::ticks_per_second == 0) watch_display(moment);
}

void Grounds::follow(const Moment& moment) {
  for (const Event& event : moment.events) {
    if (event.kind == machine::EventKind::other_person && event.name == "given_back")
      begin_anew(moment.state.tick);
    if (event.kind != machine::EventKind::acted) continue;
    const std::string_view hand = topic(event);
    if (hand == "press") follow_key(moment, event.name);
    if (hand == "turn_draw_valve" && event.number > 0.0 && spell_ == Spell::stirring)
      turn_to(Spell::drawing, moment.state.tick);
    follow_position(moment, hand, event.number);
    if (hand == "isolate" || hand == "reset_breaker") {
      pristine_ = moment.state.plant.fittings.isolator_on;
      turn_to(pristine_ ? Spell::rest : Spell::isolated, moment.state.tick);
    }
    if (hand == "make_check") take(moment, Taking::check, event.name);
    if (hand == "take_sample") take(moment, Taking::sample, {});
    if (takes_reading(hand)) take_reading(moment);
    if (hand == "name_cause") name(moment, event.name);
    if (hand == "take_back_name") take_back(event.name);
    if (hand == "report_finding") include(event.name, event.number > 0.0);
    if (hand == "hand_off") follow_hand_off(moment, event.name);
    if (hand == "repair") {
      acted_on_.push_back(event.name);
      begin_anew(moment.state.tick);
    }
    if (told_to_run(spell_) && spoils_run(hand)) turn_to(Spell::other, moment.state.tick);
  }
}

void Grounds::follow_key(const Moment& moment, std::string_view key) {
  if (!moment.state.plant.fittings.isolator_on) return;
  const bool hot = plant::product_degC(moment.state.plant) > hot_degC;
  const Spell to = key == "heat"    ? (hot ? Spell::hot : Spell::warming)
                   : key == "chill" ? Spell::chilling
                   : key == "stir"  ? Spell::stirring
                   : key == "stop"  ? Spell::stopped
                                    : Spell::other;
  // On a machine that an earlier key has made dark no key tells what the guide asks for.
  if (!pristine_ && moment.state.control.mode == control::Mode::off && to != Spell::stopped)
    return turn_to(Spell::other, moment.state.tick);
  if (to == spell_ || (to == Spell::stopped && spell_ == Spell::rest)) return;
  pristine_ = false;
  if (to == Spell::warming || to == Spell::hot) moved_.emplace_back("product_degC");  // their own doing
  warm_motor_ = moment.state.plant.motor_heat_norm > warm_motor_norm;
  turn_to(to, moment.state.tick);
}

// Hands that put right what was found wrong have seen it; after any other the position is the person's own.
void Grounds::follow_position(const Moment& moment, std::string_view hand, double number) {
  for (const Position& one : positions) {
    if (one.hand != hand) continue;
    const std::string signal(one.signal);
    const bool first = std::find(moved_.begin(), moved_.end(), signal) == moved_.end();
    moved_.push_back(signal);
    if (!first || one.found_number != number || hand == "turn_draw_valve") continue;
    for (std::size_t q = 0; q < guide_->questions().size(); ++q) {
      if (guide_->questions()[q].taking == Taking::check && reads(guide_->questions()[q], signal))
        answer(moment, q, 1.0);
    }
    put_right_ = true;
  }
}

void Grounds::turn_to(Spell spell, std::uint64_t tick) {
  spell_ = spell;
  spell_tick_ = tick;
  for (std::size_t q = 0; q < display_.size(); ++q) {
    display_[q] = {};
    // What a key changes at once is seen against the moment before it.
    const GroundsQuestion& question = guide_->questions()[q];
    if (question.reading.fold() == diagnosis::Fold::rise) display_[q].see(question.reading, before_[q], 0.0);
    // An alarm that stood already does not tell when it comes.
    stood_[q] = waits(question) && before_[q] > question.reading.threshold() ? 1 : 0;
  }
}

double Grounds::spell_s(std::uint64_t tick) const {
  return static_cast<double>(tick - spell_tick_) * machine::tick_s;
}

void Grounds::watch_display(const Moment& moment) {
  if (is_own_doing(*this, moment.state)) return;
  const double t_s = spell_s(moment.state.tick);
  for (std::size_t q = 0; q < display_.size(); ++q) {
    const GroundsQuestion& question = guide_->questions()[q];
    if (follows_most(question) && question.spell == spell_ && !put_right_)
      display_[q].see(question.reading, question.reading.value(moment.machine, moment.state), t_s);
    if (question.taking == Taking::display &&
        (question.reading.fold() == diagnosis::Fold::rise || waits(question)))
      before_[q] = question.reading.value(moment.machine, moment.state);
    const bool its_spell = question.spell == spell_ || (question.any_key && told_to_run(spell_));
    if (question.taking != Taking::display || !its_spell) continue;
    if (t_s >= std::min(question.ripe_s, question.until_s)) note_asked(q);
    if (t_s > question.until_s + 1.0) continue;
    if (put_right_) continue;  // what it shows is another machine's
    if (warm_motor_ && reads_any(question, "alarm_drive_overload")) continue;
    if (stood_[q] != 0 || (question.spell == Spell::rest && !pristine_)) continue;
    display_[q].see(question.reading, question.reading.value(moment.machine, moment.state), t_s);
    // A display in passing says nothing before somebody tried the machine.
    if (question.spell == Spell::rest && t_s < question.ripe_s) continue;
    const double value = display_[q].value();
    const bool odd = question.at_once && diagnosis::outcome_of(guide_->model(), q, value) != 0;
    if (odd || t_s >= question.ripe_s) answer(moment, q, value);
  }
}

// The questions that this hand answers now; last_words_ tells why it answers none.
void Grounds::take(const Moment& moment, Taking taking, const std::string& what) {
  const Model& model = guide_->model();
  const std::uint64_t tick = moment.state.tick;
  for (std::size_t q = 0; q < guide_->questions().size(); ++q) {
    const GroundsQuestion& question = guide_->questions()[q];
    if (question.taking != taking) continue;
    if (taking == Taking::check && model.check(q).id != what) continue;
    if (taking == Taking::thermometer && !reads_any(question, what)) continue;
    const bool its_spell = question.spell == Spell::rest ? at_rest(spell_) : question.spell == spell_;
    if (!its_spell) {
      if (told_to_run(question.spell)) mark_dead(moment, model.question_title(q));
      last_words_ = wanted_words(question.spell);
      continue;
    }
    if (spell_s(tick) < question.ripe_s && question.spell != Spell::rest) {
      last_words_ =
          "Too early to tell: let it run " + std::to_string(static_cast<int>(question.ripe_s)) + " s first.";
      continue;
    }
    note_asked(q);
    if (question.spell == Spell::chilling && is_cold(moment.state)) {
      last_words_ = "It is as cold as it was told to make it, so nothing has to run.";
      continue;
    }
    const bool own = std::any_of(moved_.begin(), moved_.end(),
                                 [&question](const std::string& one) { return reads(question, one); });
    if (own) {
      last_words_ = "It stands as you put it.";
      continue;
    }
    if (taking == Taking::check && repeats("q" + std::to_string(q))) ++repeated_;
    if (taking == Taking::gauges) mark_gauges(moment, model.question_title(q));
    mark_idle(moment, q);
    const double now = question.reading.value(moment.machine, moment.state);
    answer(moment, q, follows_most(question) ? std::max(now, display_[q].value()) : now);
    last_words_ = findings_.back().title + ": " + findings_.back().words;
  }
}

void Grounds::take_reading(const Moment& moment) {
  const machine::FaultWork& work = moment.state.work;
  if (!work.reading.taken || !machine::probes_placed(work)) return;
  if (work.tool == Instrument::gauge_set) return take(moment, Taking::gauges, {});
  if (work.tool == Instrument::contact_thermometer) {
    const auto point = static_cast<std::size_t>(work.point);
    const std::string place(plant::contact_point_words()[point]);
    take(moment, Taking::thermometer, "contact:" + place);
    if (place == "condenser_air_on") take(moment, Taking::thermometer, "part:own_air_K");
    return;
  }
  // Proving dead is repeated on purpose.
  const bool proving = work.tool == Instrument::multimeter && !moment.state.plant.fittings.isolator_on &&
                       work.function == electrics::MeterFunction::alternating_V;
  if (proving || (work.tool != Instrument::clamp_meter && work.red == work.black)) return;
  if (!has_read(work, spell_)) read_.push_back(reading_of(work, spell_));
  if (repeats(place_of(work))) {
    ++repeated_;
    return;
  }
  mark_reading(moment, title_of(moment.machine, work));
  std::size_t outcome = 0;
  ++version_;
  odds_.push_back(guide_->odds_of(moment.machine, moment.state, outcome));
  odds_.back().title = title_of(moment.machine, work);
  findings_.push_back({guide_->model().question_count() + odds_.size() - 1, outcome, 1.0, odds_.back().title,
                       machine::reading_words(work), moment.state.tick});
}

void Grounds::answer(const Moment& moment, std::size_t question, double value) {
  const Model& model = guide_->model();
  const std::size_t outcome = diagnosis::outcome_of(model, question, value);
  const auto found = std::find_if(findings_.begin(), findings_.end(),
                                  [question](const Found& one) { return one.question == question; });
  if (found != findings_.end() && found->outcome == outcome) return;
  // What was told may come and go: not to have seen it yet takes nothing back.
  if (found != findings_.end() && found->tick == 0 && outcome == 0) return;
  if (found != findings_.end()) findings_.erase(found);
  ++version_;
  findings_.push_back({question, outcome, 1.0, model.question_title(question),
                       model.outcome_title(question, outcome), moment.state.tick});
}

bool Grounds::repeats(const std::string& what) {
  const std::string key = what + "@" + std::to_string(spell_tick_);
  if (std::find(taken_.begin(), taken_.end(), key) != taken_.end()) return true;
  taken_.push_back(key);
  return false;
}

bool Grounds::has_read(const machine::FaultWork& work, Spell spell) const {
  return std::find(read_.begin(), read_.end(), reading_of(work, spell)) != read_.end();
}

// Of the causes that can be named; unless most likely none of them is it.
double Grounds::p_of(std::size_t cause, const diagnosis::Posterior& known, faults::Who trade) const {
  constexpr double mostly = 0.5;
  double p = 0.0;
  for (const std::size_t one : guide_->like(cause, trade)) p += known.cause_p[one];
  if (known.unknown_p < mostly) p /= 1.0 - known.unknown_p;
  return std::min(1.0, p);
}

void Grounds::name(const Moment& moment, const std::string& cause) {
  Naming out{cause, 0.0, own_findings(), Standing::guessed, moment.state.tick};
  const std::size_t index = guide_->model().cause_index(cause);
  if (index != Model::npos && out.own_findings > 0) {
    const diagnosis::Posterior known = diagnosis::posterior(model(), as_findings());
    out.p = p_of(index, known, moment.state.lockout.situation.trade);
    if (out.p >= premature_norm) out.standing = Standing::premature;
    if (out.p >= earned_norm && has_looked(index)) out.standing = Standing::earned;
  }
  out.on = findings_;
  namings_.push_back(std::move(out));
}

}  // namespace stirbench::training
