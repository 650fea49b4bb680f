#include "sim_core/training/grounds_guide.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim_core/faults/fault.h"
#include "sim_core/machine/fault_readings.h"

namespace stirbench::training {

namespace {

using diagnosis::Model;
using diagnosis::ParsedReading;
using machine::InstrumentReading;
using machine::Machine;
using machine::State;

constexpr double as_predicted = 0.95;     // choice: probes slip, constants differ
constexpr double alike_norm = 0.005;      // of two readings: instrument and mains (choice)
constexpr double dynamic_ripe_s = 150.0;  // what warms or cools is read after this at the latest (choice)
constexpr double display_ripe_s = 20.0;   // so long one watches before "no alarm" counts (choice)
constexpr double never_ripe_s = 240.0;    // and before an alarm is said not to come at all (choice)

const diagnosis::ReadingSpec& spec_of(const Model& model, std::size_t q) {
  return model.is_symptom(q) ? model.symptoms[q].reading : model.check(q).reading;
}

bool begins_with(std::string_view name, std::initializer_list<std::string_view> words) {
  return std::any_of(words.begin(), words.end(), [name](std::string_view w) { return name.starts_with(w); });
}

bool is_meter(std::string_view name) {
  return begins_with(name, {"meter:", "dead:", "unplugged:", "insulation:", "clamp:"});
}

bool on_display(std::string_view name) { return begins_with(name, {"alarm_", "supply_on", "agitator_rpm"}); }

// Where air goes onto the condenser a thermometer is held; the reading is its difference from the room.
bool by_thermometer(std::string_view name) {
  return name.starts_with("contact:") || name == "part:own_air_K";
}

template <typename Test>
bool all_of(const ParsedReading& reading, Test test) {
  return std::all_of(reading.sources().begin(), reading.sources().end(),
                     [&](const diagnosis::ReadingSource& one) { return test(one.name); });
}

Taking taking_of(const Model& model, std::size_t q, const ParsedReading& reading) {
  const auto any = [&](auto&& test) {
    return std::any_of(reading.sources().begin(), reading.sources().end(),
                       [&](const diagnosis::ReadingSource& one) { return test(one.name); });
  };
  if (any(is_meter)) return Taking::meter;
  if (all_of(reading, on_display)) return Taking::display;
  if (model.is_symptom(q)) return Taking::told;
  if (model.check(q).kind == diagnosis::CheckKind::gauge) return Taking::gauges;
  if (any(by_thermometer))
    return model.check(q).kind == diagnosis::CheckKind::feel ? Taking::check : Taking::thermometer;
  if (any([](std::string_view name) { return name.starts_with("display:"); })) return Taking::sample;
  return Taking::check;
}

Spell spell_of(const std::string& protocol) {
  static const std::map<std::string, Spell> words = {
      {"at-rest", Spell::rest},      {"stirring", Spell::stirring}, {"warming", Spell::warming},
      {"chilling", Spell::chilling}, {"hot", Spell::hot},           {"drawing", Spell::drawing}};
  const auto found = words.find(protocol);
  return found == words.end() ? Spell::other : found->second;
}

bool moves_slowly(const ParsedReading& reading) {
  return std::any_of(reading.sources().begin(), reading.sources().end(),
                     [](const diagnosis::ReadingSource& one) {
                       return one.name.starts_with("contact:") || one.name.starts_with("display:") ||
                              (one.signal != nullptr && !on_display(one.name)) ||
                              one.name == "part:condenser_split_K" || one.name == "part:own_air_K";
                     });
}

double ripe_s(const ParsedReading& reading, Taking taking, double until_s) {
  using diagnosis::Fold;
  const bool waits = reading.fold() == Fold::above || reading.fold() == Fold::below;
  // Dark or lit is seen at a glance.
  if (taking == Taking::display &&
      all_of(reading, [](const std::string& name) { return name == "supply_on"; }) &&
      reading.fold() == Fold::now)
    return 1.0;
  // How soon a relay trips hangs on the load: that it has not yet says little.
  if (all_of(reading, [](const std::string& name) { return name == "alarm_drive_overload"; }))
    return never_ripe_s;
  if (taking == Taking::display) return std::min(until_s, waits ? never_ripe_s : display_ripe_s);
  return std::min(until_s, moves_slowly(reading) ? dynamic_ripe_s : 5.0);
}

// Whether two readings would be called the same. A meter's last digits are no difference.
bool alike(double a, double b, double resolution) {
  return std::abs(a - b) <= alike_norm * std::max(std::abs(a), std::abs(b)) + 2.0 * resolution;
}

bool same(const InstrumentReading& a, const InstrumentReading& b) {
  if (a.over_range || b.over_range) return a.over_range == b.over_range;
  return alike(a.value, b.value, std::max(a.resolution, b.resolution));
}

// `seen` lies between what a fault shows at both ends of its kind's severities.
bool between(const InstrumentReading& seen, const InstrumentReading& one, const InstrumentReading& other) {
  if (same(seen, one) || same(seen, other)) return true;
  if (seen.over_range || (one.over_range && other.over_range)) return false;
  const double low = one.over_range     ? other.value
                     : other.over_range ? one.value
                                        : std::min(one.value, other.value);
  if (one.over_range || other.over_range) return seen.value >= low;
  return seen.value >= low && seen.value <= std::max(one.value, other.value);
}

// Whether a fault can change what a meter shows.
bool is_electrical(const faults::Fault& fault) {
  using T = faults::FaultTarget;
  return std::any_of(fault.changes.begin(), fault.changes.end(), [](const faults::Change& change) {
    return change.target <= T::dead || change.target == T::supply_factor ||
           change.target == T::isolator_off || change.target == T::lid_open || change.target == T::cover_open;
  });
}

// What has tripped stays so, and what the controller asks for too.
void keep_as_commanded(const State& from, State& to) {
  to.plant.circuit.gear.tripped = from.plant.circuit.gear.tripped;
  to.plant.circuit.seen_bits = from.plant.circuit.seen_bits;
}

// The machine as it stands without its faults.
State sound_of(const Machine& machine, const State& state) {
  State out = state;
  for (const faults::Fault& one : machine.faults)
    faults::remove_fault(machine.plant, machine.faults, out.plant, one.id);
  keep_as_commanded(state, out);
  return out;
}

struct Severities {
  double low = 1.0;
  double high = 1.0;
};

// A cause's kinds share out its severities evenly, mild first (library::profile_plan).
std::vector<Severities> severities_of(const Model& model) {
  std::vector<std::size_t> kinds(model.causes.size(), 0);
  for (const diagnosis::Profile& one : model.profiles) ++kinds[one.cause];
  std::vector<std::size_t> next(model.causes.size(), 0);
  std::vector<Severities> out;
  for (const diagnosis::Profile& one : model.profiles) {
    const faults::Fault& cause = model.causes[one.cause];
    const double part = (cause.severity_high - cause.severity_low) / static_cast<double>(kinds[one.cause]);
    const double at = static_cast<double>(next[one.cause]++);
    const double low = kinds[one.cause] < 2 ? cause.severity_high : cause.severity_low + at * part;
    const double high = kinds[one.cause] < 2 ? cause.severity_high : low + part;
    out.push_back({std::clamp(low, 1.0e-3, 1.0), std::clamp(high, 1.0e-3, 1.0)});
  }
  return out;
}

InstrumentReading read_with(const Machine& machine, const State& sound, const faults::Fault& cause,
                            double severity) {
  State broken = sound;
  const std::string wrong = faults::inject(machine.plant, broken.plant, cause, severity);
  keep_as_commanded(sound, broken);
  return wrong.empty() ? machine::reading_now(machine, broken) : InstrumentReading{};
}

std::array<double, 3> odds(bool as_sound, bool fits, bool seen_as_sound) {
  constexpr double rest = (1.0 - as_predicted) / 2.0;
  std::array<double, 3> p{rest, rest, rest};
  if (seen_as_sound)
    p[fits ? 0 : 2] = as_predicted;
  else
    p[fits ? 1 : as_sound ? 0 : 2] = as_predicted;
  return p;
}

}  // namespace

GroundsGuide::GroundsGuide(const Machine& machine, Model model,
                           const std::vector<diagnosis::Protocol>& protocols)
    : model_(std::move(model)) {
  for (std::size_t q = 0; q < model_.question_count(); ++q) {
    const diagnosis::ReadingSpec& spec = spec_of(model_, q);
    ParsedReading reading(machine, spec.signal);
    const auto its =
        std::find_if(protocols.begin(), protocols.end(),
                     [&spec](const diagnosis::Protocol& one) { return one.id == spec.protocol; });
    const double end_s = its == protocols.end() ? 0.0 : its->until_s;
    const double until_s = spec.at_s > 0.0 ? spec.at_s : end_s;
    const Taking taking = taking_of(model_, q, reading);
    const bool at_once =
        taking == Taking::display && reading.fold() != diagnosis::Fold::mean &&
        !std::any_of(reading.sources().begin(), reading.sources().end(),
                     [](const diagnosis::ReadingSource& one) { return one.name == "agitator_rpm"; });
    const double ripe = ripe_s(reading, taking, until_s);
    const bool guards = taking == Taking::display && all_of(reading, [](const std::string& name) {
                          return name == "alarm_lid_guard" || name == "alarm_shaft_cover_guard";
                        });
    questions_.push_back(
        {taking, std::move(reading), spell_of(spec.protocol), ripe, until_s, guards, at_once});
  }
}

std::vector<machine::SenseCheck> GroundsGuide::sense_checks() const {
  std::vector<machine::SenseCheck> out;
  for (std::size_t q = model_.symptoms.size(); q < model_.question_count(); ++q) {
    if (questions_[q].taking != Taking::check) continue;
    const diagnosis::Check& one = model_.check(q);
    out.push_back({one.id, one.title, one.minutes, one.needs, one.who});
  }
  return out;
}

ReadingOdds GroundsGuide::odds_of(const Machine& machine, const State& state, std::size_t& outcome) const {
  const InstrumentReading seen = machine::reading_now(machine, state);
  const State sound = sound_of(machine, state);
  const InstrumentReading good = machine::reading_now(machine, sound);
  const bool seen_as_sound = same(seen, good);
  outcome = seen_as_sound ? 0 : 1;
  ReadingOdds out;
  const std::vector<Severities> severities = severities_of(model_);
  for (std::size_t k = 0; k < model_.profiles.size(); ++k) {
    const faults::Fault& cause = model_.causes[model_.profiles[k].cause];
    if (!is_electrical(cause)) {
      out.p.push_back(odds(true, seen_as_sound, seen_as_sound));
      continue;
    }
    const InstrumentReading low = read_with(machine, sound, cause, severities[k].low);
    const InstrumentReading high =
        severities[k].low < severities[k].high ? read_with(machine, sound, cause, severities[k].high) : low;
    // What comes and goes may be away at this moment.
    const bool away = cause.period_s > 0.0;
    const bool as_sound = away || between(good, low, high);
    out.p.push_back(odds(as_sound, between(seen, low, high) || (away && seen_as_sound), seen_as_sound));
  }
  return out;
}

std::size_t GroundsGuide::look_for(std::size_t cause) const {
  using T = faults::FaultTarget;
  static const std::map<T, std::string> signals = {{T::isolator_off, "isolated"},
                                                   {T::lid_open, "lid_open"},
                                                   {T::cover_open, "shaft_cover_open"},
                                                   {T::draw_open_norm, "draw_opening_norm"}};
  for (const faults::Change& change : model_.causes[cause].changes) {
    const auto signal = signals.find(change.target);
    if (signal == signals.end()) continue;
    for (std::size_t q = model_.symptoms.size(); q < questions_.size(); ++q) {
      const auto& sources = questions_[q].reading.sources();
      if (sources.size() == 1 && sources.front().name == signal->second) return q;
    }
  }
  return Model::npos;
}

std::vector<std::size_t> GroundsGuide::like(std::size_t cause, faults::Who trade) const {
  constexpr double overlap_norm = 0.5;  // as diagnosis::ambiguity_groups
  std::vector<std::size_t> out;
  const bool meters = faults::may_do(trade, faults::Who::electrician);
  for (std::size_t other = 0; other < model_.causes.size(); ++other) {
    // One with a meter tells two electrical faults apart, whatever the guide asks for.
    const bool told = meters && is_electrical(model_.causes[cause]) && is_electrical(model_.causes[other]);
    double overlap = 1.0;
    for (std::size_t q = model_.symptoms.size(); q < model_.question_count() && overlap >= overlap_norm;
         ++q) {
      if (!faults::may_do(trade, model_.check(q).who)) continue;
      double sum = 0.0;
      for (std::size_t o = 0; o < model_.outcome_count(q); ++o)
        sum += std::sqrt(diagnosis::cause_likelihood(model_, cause, q, o) *
                         diagnosis::cause_likelihood(model_, other, q, o));
      overlap *= sum;
    }
    if (other == cause || (!told && overlap >= overlap_norm)) out.push_back(other);
  }
  return out;
}

}  // namespace stirbench::training
