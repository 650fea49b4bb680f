#include <doctest/doctest.h>

#include "sim_core/plant/probe.h"
#include "tests/reference/report.h"
#include "tests/support/hm20_spec.h"
#include "tests/support/hm45_spec.h"

// The probe in its pocket against what sensors do.
using namespace stirbench;
using namespace stirbench::plant;
using namespace stirbench::tests;

namespace {

const std::string part = "Probe in its pocket";

// Time to this share of a step.
double time_to(const MachineSpec& spec, double share, bool covered, double gap_factor) {
  PlantState state;
  state.probe_pocket_degC = state.probe_degC = 0.0;
  state.health.probe_tau_factor = gap_factor;
  double t_s = 0.0;
  while (state.probe_degC < share && t_s < 5000.0) {
    follow_probe(spec, state, covered, 1.0, 0.05);
    t_s += 0.05;
  }
  return t_s;
}

}  // namespace

TEST_CASE("half and nine tenths of a step, with paste and with an air gap") {
  const Source source =
      measured("sensors in thermowells, range of practice (from memory)", "half of the range that it gives");
  for (const auto& [name, spec] : {std::pair{"HM-45", hm45_spec()}, {"HM-20", hm20_spec()}}) {
    const std::string of = std::string(name) + ", ";
    reference_check(part, of + "paste: half after, s", time_to(spec, 0.5, true, 1.0), 20.0, absolute(5.0),
                    source);
    reference_check(part, of + "paste: nine tenths after, s", time_to(spec, 0.9, true, 1.0), 60.0,
                    absolute(20.0), source);
    // The fault `probe_no_paste` at its full size.
    reference_check(part, of + "air gap: half after, s", time_to(spec, 0.5, true, 4.5), 45.0, absolute(15.0),
                    source);
    reference_check(part, of + "air gap: nine tenths after, s", time_to(spec, 0.9, true, 4.5), 150.0,
                    absolute(50.0), source);
  }
}

TEST_CASE("slower in air than in water") {
  const MachineSpec spec = hm45_spec();
  const double half = time_to(spec, 0.5, false, 1.0) / time_to(spec, 0.5, true, 1.0);
  const double nine = time_to(spec, 0.9, false, 1.0) / time_to(spec, 0.9, true, 1.0);
  const Source source =
      measured("sensor maker's table, sheathed resistance thermometers of 3 and 6 mm in air and water",
               "spread between the two sizes, 10 %, and a bare sheath for a pocket, 10 %")
          .fitted_on();
  reference_check(part, "3 mm: half in air over half in water", half, 20.0 / 5.2, 2 * relative(0.2), source);
  reference_check(part, "6 mm: half in air over half in water", half, 46.8 / 10.4, 2 * relative(0.2), source);
  reference_check(part, "3 mm: nine tenths in air over water", nine, 51.0 / 9.8, 2 * relative(0.2), source);
  reference_check(part, "6 mm: nine tenths in air over water", nine, 121.0 / 23.2, 2 * relative(0.2), source);
}
