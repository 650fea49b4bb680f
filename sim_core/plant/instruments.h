#pragma once

#include <span>
#include <string_view>

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// Instruments that are not electrical: gauge set on the chiller's service ports, contact thermometer on a
// part. They read the plant's state.
// Working on a refrigerant circuit is for licensed people; propane is flammable.
namespace stirbench::plant {

enum class ContactPoint : std::uint8_t {
  vat_wall,
  well_wall,
  element_box,
  lid,
  suction_line,
  discharge_line,
  liquid_line,
  condenser_air_on,
  condenser_air_off,
  agitator_bushing,
  shaft_end_bushing,
  draw_spout,
  count
};
std::span<const std::string_view> contact_point_words();
std::string_view contact_point_word(ContactPoint point);  // "suction_line"
int find_contact_point(std::string_view word);            // -1: none

// Contact thermometer, type K surface probe: +-(1.5 K + 0.5 %), 0.1 K, -50 .. 250 degC. After a few seconds
// it still falls short by a twentieth of the difference to room temperature (choice). `error`: -1 .. 1 of the
// stated accuracy.
struct TemperatureReading {
  double value_degC = 0.0;
  double exact_degC = 0.0;
  bool over_range = false;
};
TemperatureReading contact_thermometer(const PlantState& state, ContactPoint point, double error = 0.0);
// The true temperature.
double contact_degC(const PlantState& state, ContactPoint point);

// Gauge set: gauge pressures [bar], class 1.0 (+-1 % of 12 and 35 bar), and the saturation temperatures
// printed beside them.
struct GaugeReading {
  double low_bar = 0.0;
  double high_bar = 0.0;
  double low_degC = 0.0;
  double high_degC = 0.0;
  double superheat_K = 0.0;   // with the contact thermometer on the suction line at the evaporator's outlet
  double subcooling_K = 0.0;  // with it on the liquid line
};
GaugeReading gauge_set(const PlantState& state, double error_low = 0.0, double error_high = 0.0);

}  // namespace stirbench::plant
