#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "app/desk/kit/widgets/spread.h"
#include "app/desk/views/machine_view/sample_states.h"
#include "app/desk/views/machine_view/vessel.h"

// The drawn vat holds what the specification says, and labels keep apart. Volumes are checked against V =
// integral of pi r^2 dz (solid of revolution, any calculus text), summed by the midpoint rule from the drawn
// radius alone.
namespace {

using namespace stirbench;
using desk::views::Vessel;

double revolved_L(const Vessel& vessel, double to_m) {
  constexpr int slices = 40000;
  const double from = -vessel.well_depth_m();
  const double dz = (to_m - from) / slices;
  double sum = 0.0;
  for (int i = 0; i < slices; ++i) {
    const double r = vessel.radius_m(from + (i + 0.5) * dz);
    sum += std::numbers::pi * r * r * dz;
  }
  return sum * 1000.0;
}

std::vector<plant::MachineSpec> specs() {
  plant::MachineSpec usual = desk::views::sample_machine().plant;
  plant::MachineSpec small = usual;
  small.vat.brim_L = 14.0;
  small.vat.diameter_m = 0.28;
  small.well.volume_L = 2.0;
  small.well.diameter_m = 0.16;
  plant::MachineSpec flat = usual;
  flat.vat.brim_L = 80.0;
  flat.vat.diameter_m = 0.60;
  flat.well.volume_L = 3.0;
  flat.well.diameter_m = 0.30;
  return {usual, small, flat};
}

}  // namespace

TEST_CASE("machine view: drawn volumes are those of the specification") {
  for (const plant::MachineSpec& spec : specs()) {
    const Vessel vessel(spec);
    CHECK(vessel.volume_L(vessel.rim_m()) == doctest::Approx(spec.vat.brim_L).epsilon(1e-9));
    CHECK(vessel.volume_L(0.0) == doctest::Approx(spec.well.volume_L).epsilon(1e-9));
    for (const double z : {-0.5 * vessel.well_depth_m(), 0.0, 0.5 * vessel.shoulder_m(), 0.5 * vessel.rim_m(),
                           vessel.rim_m()}) {
      CHECK(vessel.volume_L(z) == doctest::Approx(revolved_L(vessel, z)).epsilon(2e-4));
    }
  }
}

TEST_CASE("machine view: level and volume are each other's inverse, and the level only rises") {
  for (const plant::MachineSpec& spec : specs()) {
    const Vessel vessel(spec);
    double before = -1.0;
    for (double volume = 0.0; volume <= spec.vat.brim_L; volume += 0.05) {
      const double level = vessel.level_m(volume);
      CHECK(vessel.volume_L(level) == doctest::Approx(volume).epsilon(1e-7));
      CHECK(level > before);
      before = level;
    }
    CHECK(vessel.level_m(spec.vat.brim_L * 2.0) == vessel.rim_m());
    CHECK(vessel.level_m(-1.0) == -vessel.well_depth_m());
    CHECK(vessel.level_m(std::nan("")) == -vessel.well_depth_m());
  }
}

TEST_CASE("machine view: a specification without numbers still draws a vessel") {
  const Vessel vessel{plant::MachineSpec{}};
  CHECK(vessel.rim_m() > 0.0);
  CHECK(vessel.well_depth_m() > 0.0);
  CHECK(std::isfinite(vessel.level_m(10.0)));
}

TEST_CASE("machine view: the dip of the stirred surface keeps the volume and grows with speed") {
  const Vessel vessel(specs().front());
  const double level = vessel.level_m(40.0);
  const double R = vessel.radius_m(level);
  double shallower = 0.0;
  for (const double rpm : {30.0, 60.0, 90.0, 200.0}) {
    double moved_m3 = 0.0;
    constexpr int rings = 20000;
    for (int i = 0; i < rings; ++i) {
      const double r = R * (i + 0.5) / rings;
      moved_m3 += 2.0 * std::numbers::pi * r *
                  (desk::views::stirred_surface_m(vessel, level, rpm, 0.14, r) - level) * R / rings;
    }
    CHECK(std::abs(moved_m3) < 1e-7);
    const double dip = level - desk::views::stirred_surface_m(vessel, level, rpm, 0.14, 0.0);
    CHECK(dip > shallower);
    shallower = dip;
  }
  CHECK(desk::views::stirred_surface_m(vessel, level, 0.0, 0.14, 0.05) == level);
}

TEST_CASE("machine view: labels never overlap, keep their order and stay in the column") {
  std::mt19937 random(7);  // fixed seed: the same columns in each run
  std::uniform_real_distribution<float> place(-50.0F, 650.0F);
  std::uniform_real_distribution<float> height(14.0F, 70.0F);
  int fitted = 0;
  for (int round = 0; round < 2000; ++round) {
    std::vector<desk::kit::Wanted> boxes(static_cast<std::size_t>(1 + round % 12));
    float needed = -5.0F;
    for (desk::kit::Wanted& box : boxes) {
      box = {place(random), height(random)};
      needed += box.height + 5.0F;
    }
    std::sort(boxes.begin(), boxes.end(),
              [](const desk::kit::Wanted& a, const desk::kit::Wanted& b) { return a.top < b.top; });
    const bool fits = desk::kit::spread(boxes, 0.0F, 500.0F, 5.0F);
    CHECK(fits == (needed <= 500.0F));
    if (!fits) continue;
    ++fitted;
    CHECK(boxes.front().top >= -0.01F);
    CHECK(boxes.back().top + boxes.back().height <= 500.01F);
    for (std::size_t i = 1; i < boxes.size(); ++i)
      CHECK(boxes[i].top - boxes[i - 1].top - boxes[i - 1].height >= 4.99F);
  }
  CHECK(fitted > 500);
}

TEST_CASE("machine view: a label with room stands where its thing is") {
  std::array<desk::kit::Wanted, 3> boxes{{{10.0F, 20.0F}, {200.0F, 20.0F}, {205.0F, 20.0F}}};
  REQUIRE(desk::kit::spread(boxes, 0.0F, 500.0F, 5.0F));
  CHECK(boxes[0].top == doctest::Approx(10.0F));
  // The two that compete give way by the same amount: 25 apart around their mean wish of 202.5.
  CHECK(boxes[1].top == doctest::Approx(190.0F));
  CHECK(boxes[2].top == doctest::Approx(215.0F));
}
