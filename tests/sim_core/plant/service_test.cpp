#include "sim_core/plant/upkeep/service.h"

#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/plant/upkeep/wear.h"
#include "tests/sim_core/plant/machine.h"
#include "tests/support/assembly_rules.h"

// Wear service: feeler gauge, threads, pressing in, running in, forecast.
using namespace stirbench;
using namespace stirbench::plant;
using namespace stirbench::tests;

namespace {

Rig machine() {
  Rig rig(hm45_spec());
  rig.spec.assembly = assembly_rules();
  return rig;
}

PartItem& item(Rig& rig, PartId part) { return rig.state.assembly.items[static_cast<std::size_t>(part)]; }

}  // namespace

TEST_CASE("the feeler's blade brackets the play: by every tenth of a hundredth") {
  for (int i = 0; i <= 900; ++i) {
    const double play_mm = 0.001 * i;
    const double blade = feeler_blade_mm(play_mm);
    CHECK(0.5 * blade <= play_mm + 1.0e-9);
    CHECK(play_mm < 0.5 * blade + 0.025 + 1.0e-9);
    CHECK(std::abs(blade / blade_step_mm - std::round(blade / blade_step_mm)) < 1.0e-9);
  }
  CHECK(feeler_blade_mm(0.15) == doctest::Approx(0.30));
}

TEST_CASE("a left-hand thread comes off clockwise; the wrong way strains it, twice strips it") {
  const AssemblySpec rules = assembly_rules();
  const PartRule& end = rules.rules[static_cast<std::size_t>(PartId::shaft_end_bushing)];
  const PartRule& nut = rules.rules[static_cast<std::size_t>(PartId::valve_nut)];
  CHECK(comes_off(end, true));
  CHECK_FALSE(comes_off(end, false));
  CHECK(comes_off(nut, false));
  CHECK_FALSE(comes_off(nut, true));
  CHECK_FALSE(on_thread(rules.rules[static_cast<std::size_t>(PartId::agitator)]));
  AssemblyState state = assembled();
  PartItem& nut_item = state.items[static_cast<std::size_t>(PartId::valve_nut)];
  strain_thread(state, PartId::valve_nut);
  CHECK(nut_item.strained);
  CHECK(nut_item.health == PartHealth::good);
  strain_thread(state, PartId::valve_nut);
  CHECK(nut_item.health == PartHealth::cracked);
}

TEST_CASE(
    "nylon goes in round with the foot at room temperature, oval into one that comes cold out of the vat; "
    "bronze does not mind") {
  const auto pressed = [](double foot_degC, Spare spare) {
    Rig rig = machine();
    take_part_off(rig.spec, rig.state, PartId::guard_cover);
    take_part_off(rig.spec, rig.state, PartId::agitator);
    take_part_off(rig.spec, rig.state, PartId::agitator_bushing);
    rig.state.assembly.agitator_degC = foot_degC;
    pick_up(rig.state.assembly, static_cast<int>(part_count + static_cast<std::size_t>(spare)));
    put_part_on(rig.spec, rig.state, PartId::agitator_bushing);
    return rig.state.agitator_bushing.play_mm;
  };
  CHECK(pressed(22.0, Spare::agitator_bushing) == 0.0);
  CHECK(pressed(4.0, Spare::agitator_bushing) == doctest::Approx(oval_play_mm));
  CHECK(pressed(4.0, Spare::agitator_bushing_other) == 0.0);
  // Off its shaft the foot warms up: 4 degC to 12 in a room of 22 takes 900 s ln(18/10), 529 s.
  Rig rig = machine();
  take_part_off(rig.spec, rig.state, PartId::guard_cover);
  take_part_off(rig.spec, rig.state, PartId::agitator);
  rig.state.assembly.agitator_degC = 4.0;
  const double s =
      rig.run_until({}, 1200.0, [&] { return rig.state.assembly.agitator_degC >= cold_foot_degC; });
  CHECK(s == doctest::Approx(529.0).epsilon(0.02));
}

TEST_CASE(
    "a new bushing runs in: the current starts higher and falls, worn ones are louder, and the service "
    "brings both back") {
  const auto measured = [](double play_share, double run_in, double seconds) {
    Rig rig = machine();
    rig.pour(plain_water(), 30.0, 20.0);
    rig.state.agitator_bushing.play_mm = play_share * rig.spec.agitator_bushing.limit_mm;
    rig.state.shaft_end_bushing.play_mm = play_share * rig.spec.shaft_end_bushing.limit_mm;
    for (const PartId part : {PartId::agitator_bushing, PartId::shaft_end_bushing})
      item(rig, part).run_in = run_in;
    rig.run(stir_only, seconds);
    return rig.state;
  };
  const PlantState fresh = measured(0.0, 0.0, 20.0);
  const PlantState later = measured(0.0, 0.0, 1800.0);
  const PlantState worn = measured(1.4, 1.0, 20.0);
  // Rubbing is a small part of what the motor does: the current falls by less than a milliampere, which no
  // clamp meter shows.
  CHECK(fresh.flows.motor_A > later.flows.motor_A);
  const MachineSpec spec = machine().spec;
  CHECK(noise_dB(spec, worn) > noise_dB(spec, later) + 10.0);
  CHECK(later.assembly.items[static_cast<std::size_t>(PartId::agitator_bushing)].run_in ==
        doctest::Approx(1.0 - std::exp(-3.0)).epsilon(0.02));
  CHECK(later.assembly.turned_s == doctest::Approx(1800.0).epsilon(0.02));
}

TEST_CASE("the forecast's hours: Archard by hand, and run for them the play is at its limit") {
  Rig rig = machine();
  const auto line_of = [&](PartId part) {
    for (const ServiceLine& line : service_forecast(rig.spec, rig.state))
      if (line.part == part) return line;
    return ServiceLine{};
  };
  // k F v / (d L): 5e-7 mm3/Nm, 450 N, 22 mm bushing at 93.75 rpm; by the projected face of 22 x 22 mm.
  const double v = 1500.0 * (1400.0 / 1500.0) / 16.0 * 2.0 * 3.14159265358979 / 60.0 * 0.011;
  const double per_h = 3600.0 * 5.0e-7 * 450.0 * v / (22.0 * 22.0);
  const ServiceLine foot = line_of(PartId::agitator_bushing);
  CHECK(foot.per_h == doctest::Approx(per_h).epsilon(0.01));
  CHECK(foot.hours_left == doctest::Approx(0.5 / per_h).epsilon(0.01));
  // A shortened life, really run: half a minute of it from the limit.
  rig.pour(plain_water(), 30.0, 5.0);
  rig.run(stir_only, 30.0);
  rig.state.agitator_bushing.play_mm = 0.5 - per_h * 60.0 / 3600.0;
  CHECK(line_of(PartId::agitator_bushing).hours_left == doctest::Approx(60.0 / 3600.0).epsilon(0.02));
  rig.run(stir_only, 60.0);
  CHECK(rig.state.agitator_bushing.play_mm == doctest::Approx(0.5).epsilon(1e-4));
  // Dry rings last a twentieth, a cracked one is due, a missing one too.
  const double greased_h = line_of(PartId::oring_front).hours_left;
  item(rig, PartId::oring_front).greased = false;
  CHECK(line_of(PartId::oring_front).hours_left == doctest::Approx(greased_h / 20.0).epsilon(0.01));
  item(rig, PartId::oring_front).health = PartHealth::cracked;
  CHECK(line_of(PartId::oring_front).due());
  take_off(rig.state.assembly, PartId::oring_rear);
  CHECK(line_of(PartId::oring_rear).hours_left == 0.0);
}
