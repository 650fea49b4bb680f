#pragma once

#include <vector>

#include "sim_core/identification/least_squares.h"

// A lumped machine of two stirred zones, written by hand and independent of the simulator, whose standard
// errors are known: heat 0 .. 2250 s with 6000 W into the well, off to 3450 s, chill to 6000 s, a sample each
// 10 s of a sensor in the well. Source: worked example of the project's references (process-2, section 11),
// derived there from the equations below and confirmed by 60 Monte Carlo runs.
namespace stirbench::identification_test {

struct TwoZones {
  double power_W = 6000.0;
  double capacity_kJ_per_K = 175.0;  // well 7/45, vat 38/45
  double loss_W_per_K = 6.0;         // vat to the air of 24 degC
  double coil_W_per_K = 150.0;       // vat to the refrigerant
  double coil_degC = -8.0;
  double flow_L_per_s = 0.25;  // between well and vat, 4048 J/(L K)
  double lag_s = 20.0;         // of the sensor
  double start_degC = 8.0;
  bool one_zone = false;
};

// 601 readings.
std::vector<double> readings(const TwoZones& machine);

// Order of the parameters in what follows.
enum Column { capacity, loss, coil, coil_degC, flow, lag, start_degC, column_count };
TwoZones machine_of(const std::vector<double>& theta);
inline const std::vector<double> truth = {175.0, 6.0, 150.0, -8.0, 0.25, 20.0, 8.0};
identification::LeastSquaresProblem two_zone_problem(std::vector<double> measured);

// Normal noise with the lag-one coefficient rho and the standard deviation sigma, added.
std::vector<double> with_noise(std::vector<double> values, double sigma, double rho, std::uint64_t seed);

}  // namespace stirbench::identification_test
