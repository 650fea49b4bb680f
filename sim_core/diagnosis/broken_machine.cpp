#include "sim_core/diagnosis/broken_machine.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <stdexcept>

#include "sim_core/bench/random.h"
#include "sim_core/bench/signals.h"

namespace stirbench::diagnosis {

namespace {

enum class Fold { now, most, least, mean, above, below, rise };

// A reading's signal taken apart.
struct Probe {
  Fold fold = Fold::now;
  std::string signal;
  double threshold = 0.0;
};

Probe parse(const std::string& text) {
  Probe out;
  const auto starts = [&text](std::string_view word) { return text.starts_with(word); };
  if (starts("max:")) out.fold = Fold::most;
  else if (starts("min:")) out.fold = Fold::least;
  else if (starts("mean:")) out.fold = Fold::mean;
  else if (starts("rise:")) out.fold = Fold::rise;
  else if (starts("when:")) out.fold = Fold::above;
  if (out.fold == Fold::now) {
    out.signal = text;
    return out;
  }
  out.signal = text.substr(text.find(':') + 1);
  if (out.fold != Fold::above) return out;
  const std::size_t sign = out.signal.find_first_of("<>");
  if (sign == std::string::npos) throw std::invalid_argument("signal \"" + text + "\": expected when:NAME>VALUE or when:NAME<VALUE");
  if (out.signal[sign] == '<') out.fold = Fold::below;
  const char* begin = out.signal.data() + sign + 1;
  const char* end = out.signal.data() + out.signal.size();
  const auto [stop, error] = std::from_chars(begin, end, out.threshold);
  if (error != std::errc() || stop != end) throw std::invalid_argument("signal \"" + text + "\": expected a number after the sign");
  out.signal.resize(sign);
  return out;
}

const Reading& reading_of(const Model& model, std::size_t question) {
  return model.is_symptom(question) ? model.symptoms[question].reading : model.check(question).reading;
}

// A question's reading on its way through a run.
struct Gauge {
  std::size_t question = 0;
  Probe probe;
  const bench::Signal* signal = nullptr;   // nullptr: an instrument's
  double at_s = 0.0;
  double value = 0.0;
  double first = 0.0;
  double sum = 0.0;
  unsigned seen = 0;
  bool closed = false;
};

void see(Gauge& gauge, const bench::Machine& machine, const bench::State& state, double t_s, const InstrumentReader* instruments) {
  if (gauge.closed) return;
  const double x = gauge.signal != nullptr ? gauge.signal->value(machine, state) : instruments->read(machine, state, gauge.probe.signal);
  if (gauge.seen == 0) gauge.first = x;
  switch (gauge.probe.fold) {
    case Fold::now: gauge.value = x; break;
    case Fold::most: gauge.value = gauge.seen == 0 ? x : std::max(gauge.value, x); break;
    case Fold::least: gauge.value = gauge.seen == 0 ? x : std::min(gauge.value, x); break;
    case Fold::mean:
      gauge.sum += x;
      gauge.value = gauge.sum / static_cast<double>(gauge.seen + 1);
      break;
    case Fold::rise: gauge.value = x - gauge.first; break;
    case Fold::above:
    case Fold::below: {
      if (gauge.seen == 0) gauge.value = 1.0e9;
      const bool holds = gauge.probe.fold == Fold::above ? x > gauge.probe.threshold : x < gauge.probe.threshold;
      if (holds && gauge.value >= 1.0e9) gauge.value = t_s;
      break;
    }
  }
  ++gauge.seen;
  if (t_s >= gauge.at_s) gauge.closed = true;
}

bool needs_every_second(const Gauge& gauge) { return gauge.probe.fold != Fold::now; }

std::vector<Gauge> gauges_of(const Model& model, const Protocol& protocol) {
  std::vector<Gauge> out;
  for (std::size_t q = 0; q < model.question_count(); ++q) {
    const Reading& reading = reading_of(model, q);
    if (reading.protocol != protocol.id) continue;
    Gauge gauge;
    gauge.question = q;
    gauge.probe = parse(reading.signal);
    gauge.signal = bench::find_signal(gauge.probe.signal);
    gauge.at_s = reading.at_s > 0.0 ? std::min(reading.at_s, protocol.until_s) : protocol.until_s;
    out.push_back(std::move(gauge));
  }
  return out;
}

void run_protocol(const bench::Machine& healthy, const Model& model, const Protocol& protocol, const FaultApplier& faults,
                  const MachineDraw& draw, const InstrumentReader* instruments, std::vector<double>& readings) {
  std::vector<Gauge> gauges = gauges_of(model, protocol);
  if (gauges.empty()) return;
  bench::Machine machine = healthy;
  bench::StartSetup start = protocol.start;
  start.seed = draw.seed;
  start.environment.ambient_degC = draw.ambient_degC;
  start.environment.supply_norm = draw.supply_norm;
  for (auto& load : start.loaded) load.kg *= draw.load_norm;
  Workpiece piece{machine, start, nullptr, protocol.id};
  const std::string fault = draw.cause == Model::npos ? "" : model.causes[draw.cause].id;
  if (!fault.empty()) faults.apply(fault, draw.severity, piece);
  bench::State state = bench::initial_state(machine, start);
  piece.state = &state;
  if (!fault.empty()) faults.apply(fault, draw.severity, piece);

  // Stepped here and not as a session: the start is one that content alone cannot describe.
  std::vector<bench::Event> events;
  std::size_t next = 0;
  const auto ticks = static_cast<std::uint64_t>(std::llround(protocol.until_s / bench::tick_s));
  for (std::uint64_t tick = 0; tick < ticks; ++tick) {
    bench::Inputs inputs;
    const double t_s = static_cast<double>(tick) * bench::tick_s;
    while (next < protocol.actions.size() && protocol.actions[next].at_s <= t_s + 1.0e-9) inputs.actions.push_back(protocol.actions[next++].action);
    bench::step(machine, state, inputs, events);
    events.clear();
    if ((tick + 1) % bench::ticks_per_second != 0) continue;
    const double now_s = static_cast<double>(tick + 1) * bench::tick_s;
    for (Gauge& gauge : gauges) {
      if (needs_every_second(gauge) || now_s + 1.0 > gauge.at_s) see(gauge, machine, state, now_s, instruments);
    }
    if (state.injured) break;
  }
  for (const Gauge& gauge : gauges) readings[gauge.question] = gauge.value;
}

// Sum of twelve uniform numbers less six: mean 0, variance 1, no library function whose last bit differs elsewhere.
double normal(bench::Random& random) {
  double sum = -6.0;
  for (int i = 0; i < 12; ++i) sum += random.uniform();
  return sum;
}

}  // namespace

MachineDraw draw_machine(std::size_t cause, double low, double high, std::uint64_t seed) {
  bench::Random random{seed};
  MachineDraw draw;
  draw.cause = cause;
  draw.severity = low + (high - low) * random.uniform();
  draw.ambient_degC = 16.0 + 16.0 * random.uniform();
  draw.supply_norm = 0.95 + 0.10 * random.uniform();
  draw.load_norm = 0.95 + 0.10 * random.uniform();
  draw.seed = random.next();
  return draw;
}

void check_reading(const Reading& reading, const std::vector<Protocol>& protocols, const InstrumentReader* instruments) {
  const Probe probe = parse(reading.signal);
  const bench::Signal* signal = bench::find_signal(probe.signal);
  if (signal != nullptr && signal->kind == bench::SignalKind::text)
    throw std::invalid_argument("signal \"" + probe.signal + "\" is a text and cannot be read");
  if (signal == nullptr && (instruments == nullptr || !instruments->knows(probe.signal)))
    throw std::invalid_argument("there is no signal \"" + probe.signal + "\"");
  const bool known = std::any_of(protocols.begin(), protocols.end(), [&](const Protocol& one) { return one.id == reading.protocol; });
  if (!known) throw std::invalid_argument("there is no protocol \"" + reading.protocol + "\"");
}

std::size_t outcome_of(const Model& model, std::size_t question, double reading) {
  if (model.is_symptom(question)) {
    const Symptom& symptom = model.symptoms[question];
    return reading >= symptom.low && reading < symptom.high ? 1 : 0;
  }
  const std::vector<Outcome>& outcomes = model.check(question).outcomes;
  for (std::size_t o = 0; o < outcomes.size(); ++o) {
    if (reading >= outcomes[o].low && reading < outcomes[o].high) return o;
  }
  return outcomes.size() - 1;
}

std::vector<double> read_all(const bench::Machine& machine, const Model& model, const std::vector<Protocol>& protocols,
                             const FaultApplier& faults, const MachineDraw& draw, const InstrumentReader* instruments) {
  std::vector<double> readings(model.question_count(), 0.0);
  for (const Protocol& protocol : protocols) run_protocol(machine, model, protocol, faults, draw, instruments, readings);
  return readings;
}

std::vector<std::size_t> answer_all(const bench::Machine& machine, const Model& model, const std::vector<Protocol>& protocols,
                                    const FaultApplier& faults, const MachineDraw& draw, const InstrumentReader* instruments) {
  const std::vector<double> readings = read_all(machine, model, protocols, faults, draw, instruments);
  bench::Random random{draw.seed};
  std::vector<std::size_t> out;
  for (std::size_t q = 0; q < readings.size(); ++q) {
    const Reading& how = reading_of(model, q);
    const double share = 1.0 + how.error_norm * normal(random);
    const double offset = how.error_abs * normal(random);
    out.push_back(outcome_of(model, q, readings[q] * share + offset));
  }
  return out;
}

}  // namespace stirbench::diagnosis
