#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <set>

#include "sim_core/bench/script.h"
#include "sim_core/hands/handles.h"
#include "sim_core/journal/session.h"
#include "sim_core/plant/electrical_link.h"
#include "sim_core/plant/plant.h"
#include "sim_core/signals/instruments.h"
#include "sim_core/signals/signals.h"
#include "tests/app/library/scratch.h"

// The shipped faults: each does something that somebody can notice, and the checker refuses what does not fit
// the machine.
using namespace stirbench;
using library_test::Scratch;

namespace {

// What a person at the machine can see, hear, feel, measure or have tested in a laboratory.
constexpr const char* observables[] = {"product_degC",
                                       "well_degC",
                                       "probe_degC",
                                       "fill_L",
                                       "heaters_W",
                                       "agitator_rpm",
                                       "circulation_L_per_min",
                                       "draw_L_per_min",
                                       "mode",
                                       "alarms",
                                       "supply_on",
                                       "vat_wall_degC",
                                       "element_degC",
                                       "motor_A",
                                       "suction_bar",
                                       "discharge_bar",
                                       "superheat_K",
                                       "subcooling_K",
                                       "discharge_degC",
                                       "compressor_A",
                                       "floor_kg",
                                       "tray_kg",
                                       "agitator_play_mm",
                                       "shaft_end_play_mm",
                                       "deposit_g",
                                       "steam_kg_per_h",
                                       "growth_log10",
                                       "rinsed_kg",
                                       "mass_kg",
                                       "well_wall_degC",
                                       "condenser_air_on_degC",
                                       "evaporated_kg",
                                       "isolated"};

struct Protocol {
  double load_degC;
  double ambient_degC;
  std::vector<hands::TimedAction> actions;
  std::vector<machine::StartSetup::Fault> also;
  double until_s;
};

hands::TimedAction at(double time_s, hands::Action action) {
  return {.at_s = time_s, .action = std::move(action)};
}

std::vector<Protocol> protocols() {
  const Protocol usual{
      20.0,
      22.0,
      {at(0.5, hands::open_lid()), at(1.0, hands::pour("water", 8.0, 15.0)), at(2.0, hands::close_lid()),
       at(4.0, hands::press("heat")), at(160.0, hands::press("stop")), at(163.0, hands::press("chill")),
       at(320.0, hands::press("stop")), at(322.0, hands::press("stir")),
       at(330.0, hands::turn_draw_valve(1.0)), at(340.0, hands::turn_draw_valve(0.0)),
       at(345.0, hands::press("stop")), at(350.0, hands::open_lid()), at(351.0, hands::rinse(true)),
       at(360.0, hands::rinse(false))},
      {},
      365.0};
  const Protocol hot{80.0, 22.0, {at(1.0, hands::press("heat")), at(400.0, hands::press("stop"))}, {}, 405.0};
  const Protocol thick{8.0, 35.0, {at(1.0, hands::press("chill"))}, {{"recipe_too_thick", 1.0}}, 900.0};
  const Protocol heavy{20.0, 22.0, {at(1.0, hands::press("stir"))}, {{"gear_stiff", 0.4}}, 900.0};
  return {usual, hot, thick, heavy};
}

// Values of all observables each ten seconds.
std::vector<std::string> run(const machine::Machine& machine, const Protocol& protocol,
                             std::vector<machine::StartSetup::Fault> faults, std::vector<double>& numbers) {
  journal::SessionHeader header;
  header.machine = machine.plant.id;
  header.mode = "free";
  header.start.environment.ambient_degC = protocol.ambient_degC;
  header.start.loaded = {{"water", 30.0, protocol.load_degC}};
  header.start.faults = protocol.also;
  header.start.faults.insert(header.start.faults.end(), faults.begin(), faults.end());
  journal::Session session(machine, header);
  bench::ActionScript script(protocol.actions);
  std::vector<std::string> words;
  const auto over = [&] { return machine::time_s(session.state()) >= protocol.until_s; };
  bench::drive(session, script, over, [&](const machine::State& state, const std::vector<machine::Event>&) {
    if (state.tick % 100 != 0) return;
    for (const char* name : observables) {
      const signals::Signal* signal = signals::find_signal(name);
      REQUIRE_MESSAGE(signal != nullptr, name);
      if (signal->kind == signals::SignalKind::text)
        words.emplace_back(signal->text(machine, state));
      else
        numbers.push_back(signal->value(machine, state));
    }
  });
  return words;
}

// Whether two runs differ by what an instrument of one per cent would show.
bool differ(const std::vector<double>& a, const std::vector<double>& b) {
  if (a.size() != b.size()) return true;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (std::abs(a[i] - b[i]) > 0.02 * std::max(std::abs(a[i]), std::abs(b[i])) + 0.02) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("there are enough faults of each kind, and licensed work is marked as such") {
  const auto& faults = library_test::shipped().faults;
  CHECK(faults.size() >= 45);
  std::map<std::string, int> systems;
  int misuse = 0;
  int intermittent = 0;
  for (const auto& [id, fault] : faults) {
    ++systems[fault.system];
    misuse += fault.kind == faults::FaultKind::misuse ? 1 : 0;
    intermittent += fault.period_s > 0.0 ? 1 : 0;
    CHECK((fault.rate_source.find("common practice") != std::string::npos ||
           fault.rate_source.find("invented") != std::string::npos));
  }
  for (const char* system :
       {"heating", "sensing", "guards", "drive", "pump", "chiller", "control", "supply", "hygiene", "use"}) {
    CAPTURE(system);
    CHECK(systems[system] >= 2);
  }
  CHECK(misuse >= 6);
  CHECK(intermittent >= 1);
}

TEST_CASE("every fault changes something that can be noticed, at its mildest and at its worst") {
  const machine::Machine machine = library_test::shipped().machine("hm-45");
  std::vector<std::vector<double>> healthy;
  std::vector<std::vector<std::string>> healthy_words;
  for (const Protocol& protocol : protocols()) {
    healthy.emplace_back();
    healthy_words.push_back(run(machine, protocol, {}, healthy.back()));
  }
  for (const faults::Fault& fault : machine.faults) {
    for (const double severity : {fault.severity_low, fault.severity_high}) {
      bool seen = false;
      for (std::size_t i = 0; i < protocols().size() && !seen; ++i) {
        const Protocol protocol = protocols()[i];
        if (!protocol.also.empty() && protocol.also.front().id == fault.id) continue;
        std::vector<double> numbers;
        const auto words = run(machine, protocol, {{fault.id, severity}}, numbers);
        seen = words != healthy_words[i] || differ(numbers, healthy[i]);
      }
      CHECK_MESSAGE(seen, fault.id << " at severity " << severity << " shows nowhere");
      if (fault.severity_high == fault.severity_low) break;
    }
  }
}

TEST_CASE(
    "a machine in order does not notice its circuit: same readings and power as with relays that switch "
    "directly") {
  const machine::Machine with = library_test::shipped().machine("hm-45");
  machine::Machine without = with;
  without.plant.circuit = {};
  for (const Protocol& protocol : protocols()) {
    if (!protocol.also.empty()) continue;
    std::vector<double> a;
    std::vector<double> b;
    CHECK(run(with, protocol, {}, a) == run(without, protocol, {}, b));
    CHECK(a == b);  // to the last bit
  }
}

TEST_CASE("faults set in, come and go, pair up and are mended") {
  const machine::Machine machine = library_test::shipped().machine("hm-45");
  machine::StartSetup setup;
  setup.faults = {{"element_1_open", 1.0}, {"condenser_dirty", 0.5}};
  machine::State state = bench::initial_state(machine, setup);
  CHECK(state.plant.circuit.gear.defect_count == 1);
  CHECK(state.plant.chiller.health.condenser_fouling_norm == doctest::Approx(0.625));
  CHECK(faults::remove_fault(machine.plant, machine.faults, state.plant, "element_1_open"));
  CHECK_FALSE(faults::remove_fault(machine.plant, machine.faults, state.plant, "element_1_open"));
  CHECK(state.plant.circuit.gear.defect_count == 0);
  CHECK(state.plant.chiller.health.condenser_fouling_norm == doctest::Approx(0.625));
  CHECK(faults::remove_fault(machine.plant, machine.faults, state.plant, "condenser_dirty"));
  CHECK(state.plant.chiller.health.condenser_fouling_norm == 0.0);
  for (const auto& [id, severity] : {std::pair{"no_such", 1.0},
                                     {"element_1_open", 0.0},
                                     {"element_1_open", 1.5},
                                     {"element_1_open", std::nan("")}}) {
    setup.faults = {{id, severity}};
    CHECK_THROWS_AS(bench::initial_state(machine, setup), std::invalid_argument);
  }
  setup.faults.assign(5, {"element_1_open", 1.0});
  CHECK_THROWS_AS(bench::initial_state(machine, setup), std::invalid_argument);

  setup.faults = {{"lid_intermittent", 1.0}};
  state = bench::initial_state(machine, setup);
  std::vector<machine::Event> events;
  std::set<std::uint32_t> counts;
  for (int i = 0; i < 5000; ++i) {
    bench::step(machine, state, {}, events);
    counts.insert(state.plant.circuit.gear.defect_count);
  }
  CHECK(counts == std::set<std::uint32_t>{0, 1});
}

TEST_CASE("the checker refuses faults that do not fit") {
  const auto after = [](const char* file, const char* from, const char* to) {
    Scratch scratch("fault");
    scratch.change(file, from, to);
    return scratch.problems();
  };
  CHECK(after("faults/element_1_open.json", "\"at\": \"E1\"", "\"at\": \"E9\"") ==
        "faults/element_1_open.json:/changes/0/at: expected a winding of the circuit of hm-20, found \"E9\"");
  CHECK(after("faults/heater_line_lost.json", "\"at\": \"54\"", "\"at\": \"5400\"")
            .find("expected a wire of the circuit") != std::string::npos);
  CHECK(after("faults/fan_slow.json", "\"full\": 0.15", "\"full\": 1.5")
            .find("faults/fan_slow.json:/changes/0/full: expected fan_norm in its range") == 0);
  CHECK(after("faults/charge_low.json", "\"who\": \"refrigeration\"", "\"who\": \"anyone\"")
            .find("/who: expected refrigeration") != std::string::npos);
  CHECK(after("faults/charge_low.json", "\"who\": \"refrigeration\"", "\"who\": \"refridgeration\"")
            .find("faults/charge_low.json:/who: expected one of anyone, technician, electrician, "
                  "refrigeration (did you mean \"refrigeration\"?)") == 0);
  CHECK(after("faults/charge_low.json", "\"repair_needs\": \"", "\"repair_needs\": \"half_")
            .find("faults/charge_low.json:/repair_needs: expected one of running") == 0);
  CHECK(after("faults/fan_slow.json", "\"fan_norm\"", "\"fan_nrom\"").find("did you mean \"fan_norm\"?") !=
        std::string::npos);
  CHECK(after("faults/lid_intermittent.json", "\"on_norm\": 0.02", "\"severity_high\": 1").find("expected") !=
        std::string::npos);
}

TEST_CASE("instruments by name read the broken machine") {
  const machine::Machine machine = library_test::shipped().machine("hm-45");
  const auto reading = [&](const char* fault, const char* name, const char* key) {
    machine::StartSetup setup;
    setup.loaded = {{"water", 30.0, 20.0}};
    if (*fault != '\0') setup.faults = {{fault, 1.0}};
    machine::State state = bench::initial_state(machine, setup);
    std::vector<machine::Event> events;
    for (int i = 0; i < 300; ++i) {
      bench::Inputs inputs;
      if (i == 10) inputs.actions.push_back(hands::press(key));
      bench::step(machine, state, inputs, events);
    }
    return signals::read_instrument(machine, state, name);
  };
  CHECK(reading("", "meter:V~:E1.1:E1.2", "heat") == doctest::Approx(400.0));
  CHECK(reading("", "clamp:54", "heat") == doctest::Approx(8.66).epsilon(0.001));
  CHECK(reading("element_1_open", "dead:Ohm:X2.1:X2.2", "heat") == doctest::Approx(160.0).epsilon(0.001));
  CHECK(reading("element_1_open", "dead:Ohm:X2.2:X2.3", "heat") == doctest::Approx(80.0).epsilon(0.001));
  CHECK(reading("element_1_open", "unplugged:Ohm:E1.1:E1.2", "heat") == 1.0e9);
  CHECK(reading("", "unplugged:Ohm:E1.1:E1.2", "heat") == doctest::Approx(80.0).epsilon(0.001));
  CHECK(reading("element_leak", "insulation:E3.1:X5.1", "stir") < 1.0e4);
  CHECK(reading("element_leak", "breaker:F0", "heat") == 1.0);
  CHECK(reading("heater_coil_open", "contactor:K1", "heat") == 0.0);
  CHECK(reading("heater_coil_open", "meter:V~:K1.A1:K1.A2", "heat") == doctest::Approx(23.8).epsilon(0.03));
  CHECK(reading("", "gauge:superheat_K", "chill") > 0.0);
  for (const char* name : {"meter:V~:E1.1", "meter:A:E1.1:E1.2", "clamp:9999", "clamp:x", "gauge:low",
                           "contactor:F1", "contact:moon", "", ":::"})
    CHECK_FALSE(signals::knows_instrument(machine, name));
}
