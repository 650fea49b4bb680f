#include <doctest/doctest.h>

#include <cfenv>
#include <cmath>
#include <cstdint>
#include <vector>

#include "sim_core/journal/session.h"
#include "sim_core/plant/account.h"
#include "sim_core/plant/plant.h"
#include "tests/sim_core/bench/machine_fixture.h"

// Whatever people do, in whatever order, on a machine without faults: mass and energy close, nothing leaves
// its physical range, and no operation gives a value that is not a number, divides by zero or overflows (they
// trap).
using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::bench_test;

namespace {

// Traps stand from here to the end of the block.
class Traps {
 public:
  Traps() {
    std::feclearexcept(FE_ALL_EXCEPT);
    feenableexcept(FE_INVALID | FE_DIVBYZERO | FE_OVERFLOW);
  }
  ~Traps() {
    fedisableexcept(FE_ALL_EXCEPT);
    std::feclearexcept(FE_ALL_EXCEPT);
  }
  Traps(const Traps&) = delete;
  Traps& operator=(const Traps&) = delete;
};

struct Dice {
  std::uint64_t word;
  double norm() {
    word ^= word << 13;
    word ^= word >> 7;
    word ^= word << 17;
    return static_cast<double>(word >> 11) * 0x1.0p-53;
  }
  double range(double low, double high) { return low + (high - low) * norm(); }
  bool often(double chance) { return norm() < chance; }
};

// Any hand, with values from its parameters' own legal ranges or, for names, from the machine.
hands::Action any_action(Dice& dice, const Machine& machine) {
  const auto pick = [&](std::size_t count) {
    return static_cast<std::size_t>(dice.norm() * static_cast<double>(count));
  };
  const hands::Hand& hand = *hands::all()[pick(hands::all().size())];
  hands::Action action(hand);
  for (const hands::Parameter* p : hand.takes()) {
    if (!p->required && dice.often(0.3)) continue;
    // Mostly spoonfuls and jugs; now and then all that is allowed.
    const double high = p->name == "kg" && dice.often(0.9) ? std::min(15.0, p->high) : p->high;
    switch (p->type) {
      case hands::Type::number: action.set(*p, dice.range(p->low, high)); break;
      case hands::Type::flag: action.set(*p, dice.often(0.5)); break;
      case hands::Type::text: {
        const std::vector<std::string> names = names_of(machine, *p);
        action.set(*p, names.empty() ? std::string("any words") : names[pick(names.size())]);
      }
    }
  }
  return action;
}

bool within(double value, double low, double high) { return value >= low && value <= high; }

// The physical ranges. Product may boil at 101 degC and freeze down to the evaporator; metal on full heat is
// stopped by the cut-out at 150 degC and what the element still holds, and heats the evaporator and the vat's
// wall beside it when there is no product; nothing is colder than the refrigerant.
bool in_range(const plant::PlantState& s) {
  bool good = within(s.element_degC, -45.0, 250.0) && within(s.well_wall_degC, -45.0, 200.0);
  good = good && within(s.vat_wall_degC, -45.0, 160.0) && within(s.evaporator_degC, -45.0, 160.0);
  for (const double t : {s.well_degC, s.vat_degC, s.lid_degC, s.head_space_degC, s.probe_degC, s.pail_degC})
    good = good && within(t, -45.0, 115.0);
  for (const double kg : s.product.mass_kg.value) good = good && within(kg, 0.0, 80.0);
  for (const double kg : s.pail.mass_kg.value) good = good && within(kg, 0.0, 2000.0);
  good = good && within(s.well_kg, 0.0, 10.0) && within(s.wall_ice_kg, 0.0, 40.0) &&
         within(s.floor_kg, 0.0, 5.0e3);
  for (const double norm : {s.prime_norm, s.product.native_whey_norm, s.product.egg_set_norm,
                            s.product.age_norm, s.product.egg_curd_norm, s.product.hot_gum_fraction})
    good = good && within(norm, 0.0, 1.0);
  good = good && within(s.product.air_norm, 0.0, 0.5) && within(s.deposit_kg_per_m2, 0.0, 3.0);
  good = good && within(s.shaft_rad_per_s, 0.0, 10.0) && within(s.motor_heat_norm, 0.0, 10.0);
  good = good && within(s.flows.heaters_W, 0.0, 12.0e3) && within(s.flows.chiller_W, 0.0, 15.0e3) &&
         within(s.flows.motor_A, 0.0, 12.0) && within(s.flows.suction_bar, 0.3, 30.0) &&
         within(s.flows.discharge_bar, 0.3, 35.0) && within(s.flows.circulation_L_per_min, 0.0, 60.0) &&
         within(s.flows.draw_L_per_min, 0.0, 200.0);
  return good;
}

// A cook at work: starts from a filled or an empty vat, mostly lets time pass.
void random_run(const Machine& machine, std::uint64_t seed, double& worst) {
  Dice dice{seed * 0x9e3779b97f4a7c15ULL + 1};
  for (int i = 0; i < 10; ++i) dice.norm();
  StartSetup setup;
  setup.seed = seed;
  setup.environment.ambient_degC = dice.range(5.0, 40.0);
  setup.environment.humidity_norm = dice.norm();
  if (dice.often(0.7)) setup.loaded = {{"whole_milk", dice.range(1.0, 40.0), dice.range(1.0, 90.0)}};
  if (dice.often(0.4)) setup.recipe = "white_base";
  State state = initial_state(machine, setup);
  std::vector<Event> events;
  bool good = true;
  for (int spell = 0; spell < 60 && good; ++spell) {
    Inputs inputs;
    if (dice.often(0.5)) inputs.actions.push_back(any_action(dice, machine));
    if (dice.often(0.3)) inputs.actions.push_back(press(dice.often(0.5) ? "run" : "heat"));
    if (dice.often(0.1)) inputs.actions.push_back(press("chill"));
    const int ticks = static_cast<int>(dice.range(1.0, 300.0));
    for (int i = 0; i < ticks && good; ++i) {
      step(machine, state, inputs, events);
      inputs.actions.clear();
      events.clear();
      good = in_range(state.plant);
    }
  }
  CAPTURE(seed);
  CAPTURE(state.tick);
  REQUIRE(good);
  const double moved_J = std::max(1.0e5, plant::moved_J(state.plant.ledger));
  const double off = std::abs(plant::residual_J(machine.plant, state.plant)) / moved_J;
  worst = std::max(worst, off);
  CHECK(off < 1.0e-3);
  const plant::MassLedger& m = state.plant.masses;
  CHECK(std::abs(plant::mass_residual_kg(state.plant)) <
        1.0e-3 * std::max(1.0, m.start_kg + m.poured_kg + m.rinsed_kg));
}

void random_runs(std::uint64_t from, std::uint64_t to) {
  const Machine machine = small_kitchen_machine();
  double worst = 0.0;
  const Traps traps;
  for (std::uint64_t seed = from; seed < to; ++seed) random_run(machine, seed, worst);
  MESSAGE("largest energy residual " << worst << " of what moved");
}

}  // namespace

TEST_CASE("random people, traps on: seeds 0 to 199") { random_runs(0, 200); }
TEST_CASE("random people, traps on: seeds 200 to 399") { random_runs(200, 400); }
TEST_CASE("random people, traps on: seeds 400 to 599") { random_runs(400, 600); }

TEST_CASE("the traps do trap, and the ranges do judge") {
  {
    const Traps traps;
    CHECK(fegetexcept() == (FE_INVALID | FE_DIVBYZERO | FE_OVERFLOW));
  }
  CHECK(fegetexcept() == 0);
  plant::PlantState s = plant::initial_state(small_kitchen_machine().plant, {});
  CHECK(in_range(s));
  s.vat_degC = std::nan("");
  CHECK_FALSE(in_range(s));
  s.vat_degC = 130.0;
  CHECK_FALSE(in_range(s));
}
