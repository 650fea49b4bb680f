#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <string>
#include <vector>

#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/plant.h"
#include "tests/support/figure.h"
#include "tests/support/hm45_spec.h"

// Draws the main curves of the machine HM-45 as SVG, computed by the plant's own step.
//   bench_figures [FOLDER]     (sim_core/figures of the source tree when left out)

using namespace stirbench;
using namespace stirbench::plant;
using figure::Axis;
using figure::drawn;
using figure::Series;
using product::Component;

namespace {

// `gum` [% of mass]; the water makes way for it.
product::Ingredient mix(double gum) {
  product::Ingredient i;
  i.fraction[Component::milk_fat] = 0.10;
  i.fraction[Component::milk_protein] = 0.038;
  i.fraction[Component::lactose] = 0.055;
  i.fraction[Component::milk_ash] = 0.007;
  i.fraction[Component::sucrose] = 0.15;
  i.fraction[Component::stabiliser] = 0.01 * gum;
  i.fraction[Component::water] = 0.65 - 0.01 * gum;
  return i;
}

PlantState filled(const MachineSpec& m, const product::Ingredient& what, double kg, double t_degC) {
  PlantState s = initial_state(m, {});
  pour(m, s, what, kg, t_degC);
  return s;
}

void run(const MachineSpec& m, PlantState& s, const Actuators& relays, double span_s) {
  for (long n = std::lround(10.0 * span_s); n > 0; --n) step(m, s, relays, 0.1);
}

const char* const blue = "#1f5fa8";
const char* const rust = "#b3541e";
const char* const grey = "#555555";

// Fills of 45 and 30 L from `start` until the product passes `end`, and the wall of the fuller one.
std::vector<Series> over_time(const MachineSpec& m, double start_degC, double end_degC,
                              const Actuators& relays, bool well_wall) {
  std::vector<Series> out = {
      {"45 L", rust, {}}, {"30 L", blue, {}}, {well_wall ? "heated wall, 45 L" : "vat wall, 45 L", grey, {}}};
  for (const bool full : {true, false}) {
    PlantState s = filled(m, mix(0.2), full ? 49.0 : 32.7, start_degC);
    for (int minute = 0; minute <= 150; ++minute) {
      const double t = product_degC(s);
      out[full ? 0 : 1].points.emplace_back(minute, t);
      if (full) out[2].points.emplace_back(minute, well_wall ? s.well_wall_degC : s.vat_wall_degC);
      if (relays.chiller_on ? t < end_degC : t > end_degC) break;
      run(m, s, relays, 60.0);
    }
  }
  return out;
}

std::vector<Series> power_over_thickness(const MachineSpec& m) {
  std::vector<Series> out = {{"sugar solutions, 20 \xC2\xB0"
                              "C",
                              blue,
                              {}},
                             {"mix with gum, 4 \xC2\xB0"
                              "C",
                              rust,
                              {}}};
  const auto measure = [&](const product::Ingredient& what, double t_degC, Series& series) {
    PlantState s = filled(m, what, 40.0, t_degC);
    run(m, s, {0.0, true, false}, 40.0);
    series.points.emplace_back(1000.0 * s.coefficients.viscosity_Pa_s, s.flows.drive_W);
  };
  for (int pct = 0; pct <= 74; pct += 2) {
    product::Ingredient solution;
    solution.fraction[Component::sucrose] = 0.01 * pct;
    solution.fraction[Component::water] = 1.0 - 0.01 * pct;
    measure(solution, 20.0, out[0]);
  }
  for (int i = 0; i <= 20; ++i) measure(mix(0.025 * i), 4.0, out[1]);
  return out;
}

std::vector<Series> draw_over_opening(const MachineSpec& m) {
  std::vector<Series> out = {{"65 \xC2\xB0"
                              "C",
                              rust,
                              {}},
                             {"4 \xC2\xB0"
                              "C",
                              blue,
                              {}}};
  for (Series& series : out) {
    PlantState ready = filled(m, mix(0.3), 43.0, series.colour == rust ? 65.0 : 4.0);
    ready.fittings.hose = HoseEnd::pail;
    // The line fills.
    run(m, ready, {}, 40.0);
    for (int i = 0; i <= 20; ++i) {
      PlantState s = ready;
      s.fittings.draw_opening_norm = 0.05 * i;
      run(m, s, {}, 0.1);
      series.points.emplace_back(5.0 * i, s.flows.draw_L_per_min);
    }
  }
  return out;
}

// A charge of aged mix of 5 degC until its dasher trips: temperature against the share of the water that is
// frozen.
struct Freezing {
  std::vector<Series> curve, time;
};
Freezing freezing(const MachineSpec& m) {
  Freezing out;
  out.curve = {{"freezer", blue, {}}, {"Goff &amp; Hartel 2013", grey, {}}};
  out.time = {{"temperature", blue, {}}, {"torque / 10 N m", rust, {}}, {"overrun / 10 %", grey, {}}};
  product::Ingredient mix;
  for (const auto& [what, share] : {std::pair{Component::water, 0.60},
                                    {Component::lactose, 0.0698},
                                    {Component::milk_ash, 0.0096},
                                    {Component::milk_protein, 0.0406},
                                    {Component::sucrose, 0.12},
                                    {Component::syrup_solids, 0.04},
                                    {Component::milk_fat, 0.117},
                                    {Component::stabiliser, 0.003}})
    mix.fraction[what] = share;
  PlantState s = filled(m, mix, 30.0, 5.0);
  s.product.age_norm = 1.0;
  run(m, s, {0.0, true, false}, 40.0);
  s.fittings.hose = HoseEnd::freezer;
  s.fittings.draw_opening_norm = 0.3;
  while (mix_L(s.freezer) < 5.0) step(m, s, {0.0, true, false}, 0.1);
  s.fittings.draw_opening_norm = 0.0;
  start_freezer(s.freezer);
  while (!s.freezer.tripped && s.freezer.freezing_s < 1800.0) {
    const double minutes = s.freezer.freezing_s / 60.0;
    if (s.freezer.ice_kg > 0.0)
      out.curve[0].points.emplace_back(100.0 * frozen_water_norm(s.freezer), s.freezer.degC);
    out.time[0].points.emplace_back(minutes, s.freezer.degC);
    out.time[1].points.emplace_back(minutes, 0.1 * s.freezer.torque_Nm);
    out.time[2].points.emplace_back(minutes, 10.0 * overrun_norm(s.freezer));
    run(m, s, {}, 10.0);
  }
  // Their Table 6.2, up to where the figure ends.
  for (const auto& [pct, t] : {std::pair{0.0, -2.74},
                               {10.0, -3.06},
                               {20.0, -3.45},
                               {30.0, -4.01},
                               {40.0, -4.76},
                               {50.0, -5.87},
                               {60.0, -7.63}})
    out.curve[1].points.emplace_back(pct, t);
  return out;
}

// Pressures ten minutes after the chiller's start, by the room; the condenser clean and half clogged.
std::vector<Series> pressures_over_room(const MachineSpec& m) {
  std::vector<Series> out = {{"discharge, dirty", grey, {}}, {"discharge", rust, {}}, {"suction", blue, {}}};
  for (int room = 10; room <= 43; room += 3) {
    for (const bool dirty : {true, false}) {
      PlantState s = initial_state(m, {static_cast<double>(room), 0.5, 1.0, 50.0});
      s.chiller.health.condenser_fouling_norm = dirty ? 0.5 : 0.0;
      pour(m, s, mix(0.2), 49.0, 20.0);
      run(m, s, {0.0, true, true}, 600.0);
      if (!s.compressor_on) continue;  // the high-pressure switch has opened
      out[dirty ? 0 : 1].points.emplace_back(room, s.flows.discharge_bar);
      if (!dirty) out[2].points.emplace_back(room, s.flows.suction_bar);
    }
  }
  return out;
}

double highest(const std::vector<Series>& all) {
  double most = 0.0;
  for (const Series& s : all)
    for (const auto& [x, y] : s.points) most = std::max(most, y);
  return most;
}

double last_x(const std::vector<Series>& all) {
  double most = 0.0;
  for (const Series& s : all) most = std::max(most, s.points.back().first);
  return most;
}

// From `low` in `step` until all is under it.
Axis up_to(const std::string& title, double most, double step, double low = 0.0) {
  Axis axis{title, low, step * std::ceil(most / step), {}};
  for (int i = 0; low + i * step <= axis.high + 1.0e-9; ++i) axis.marks.push_back(low + i * step);
  return axis;
}

template <typename Write>
void write_freezing(const MachineSpec& m, Write&& write) {
  const Freezing charge = freezing(m);
  write("freezing_curve",
        drawn("Freezing curve of the mix of Goff &amp; Hartel's Table 6.2 in the batch freezer",
              up_to("% of the water frozen", 60.0, 10.0),
              up_to("\xC2\xB0"
                    "C",
                    0.0, 2.0, -8.0),
              charge.curve));
  write("freezing_charge", drawn("5 L of aged mix of 5 \xC2\xB0"
                                 "C in the batch freezer until its dasher trips",
                                 up_to("minutes", last_x(charge.time), 2.0),
                                 up_to("\xC2\xB0"
                                       "C, or as named",
                                       highest(charge.time), 2.0, -8.0),
                                 charge.time));
}

}  // namespace

int main(int argc, char** argv) {
  const std::string folder = argc > 1 ? argv[1] : std::string(STIRBENCH_SOURCE_DIR) + "/sim_core/figures";
  const MachineSpec m = tests::hm45_spec();
  bool good = true;
  const auto write = [&](const char* name, const std::string& svg) {
    std::ofstream file(folder + "/" + name + ".svg", std::ios::binary);
    file << svg;
    file.close();
    if (!file) std::fprintf(stderr, "cannot write %s/%s.svg\n", folder.c_str(), name);
    good = good && file;
  };
  const auto heating = over_time(m, 8.0, 85.0, {1.0, true, false}, true);
  write("heating", drawn("Heating a mix from 8 to 85 \xC2\xB0"
                         "C on 6 kW, agitator on, lid closed",
                         up_to("minutes", last_x(heating), 5.0),
                         up_to("\xC2\xB0"
                               "C",
                               highest(heating), 20.0),
                         heating));
  const auto chilling = over_time(m, 85.0, 5.0, {0.0, true, true}, false);
  write("chilling", drawn("Chilling a mix from 85 to 5 \xC2\xB0"
                          "C, room at 22 \xC2\xB0"
                          "C",
                          up_to("minutes", last_x(chilling), 20.0),
                          up_to("\xC2\xB0"
                                "C",
                                highest(chilling), 20.0, -20.0),
                          chilling));
  const auto power = power_over_thickness(m);
  write("power_over_thickness",
        drawn("Drive power against thickness, 40 kg at rated speed (sugar solutions grow denser too)",
              {"apparent viscosity at the agitator's shear rate, mPa s",
               1.0,
               3000.0,
               {1, 3, 10, 30, 100, 300, 1000, 3000},
               true},
              up_to("electrical W", highest(power), 100.0), power));
  const auto pressures = pressures_over_room(m);
  write("pressures_over_room",
        drawn("Refrigerant pressures against the room's temperature, 45 L at 20 \xC2\xB0"
              "C, condenser clean and half clogged",
              up_to("room, \xC2\xB0"
                    "C",
                    last_x(pressures), 5.0, 10.0),
              up_to("bar absolute", highest(pressures), 5.0), pressures));
  const auto flow = draw_over_opening(m);
  write("draw_over_opening",
        drawn("Draw against the handle, mix with 0.3 % gum, 43 kg in the vat, pump at rest, hose of 1.5 m",
              up_to("handle, % of its travel", 100.0, 20.0), up_to("L/min", highest(flow), 10.0), flow));
  write_freezing(m, write);
  for (const auto& series : {heating[0], heating[1], chilling[0], chilling[1]})
    std::printf("%s: %.0f min\n", series.name.c_str(), series.points.back().first);
  return good ? 0 : 1;
}
