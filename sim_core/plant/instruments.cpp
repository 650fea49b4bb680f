#include "sim_core/plant/instruments.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim_core/refrigeration/r290.h"

namespace stirbench::plant {
namespace {

constexpr std::array<std::string_view, static_cast<std::size_t>(ContactPoint::count)> words = {
    "vat_wall",          "well_wall",        "element_box",       "lid",
    "suction_line",      "discharge_line",   "liquid_line",       "condenser_air_on",
    "condenser_air_off", "agitator_bushing", "shaft_end_bushing", "draw_spout"};
constexpr double air_bar = 1.01325;

}  // namespace

std::span<const std::string_view> contact_point_words() { return words; }
std::string_view contact_point_word(ContactPoint point) { return words[static_cast<std::size_t>(point)]; }

int find_contact_point(std::string_view word) {
  const auto at = std::find(words.begin(), words.end(), word);
  return at == words.end() ? -1 : static_cast<int>(at - words.begin());
}

double contact_degC(const PlantState& s, ContactPoint point) {
  const refrigeration::ChillerGauges& g = s.chiller.gauges;
  const double room_degC = s.environment.ambient_degC;
  switch (point) {
    case ContactPoint::vat_wall: return s.vat_wall_degC;
    case ContactPoint::well_wall: return s.well_wall_degC;
    case ContactPoint::element_box: return s.element_degC;
    case ContactPoint::lid: return s.lid_degC;
    // The evaporator's outlet, where the valve's bulb sits.
    case ContactPoint::suction_line: return s.compressor_on ? g.evaporating_degC + g.superheat_K : room_degC;
    case ContactPoint::discharge_line: return g.discharge_degC;
    case ContactPoint::liquid_line: return s.compressor_on ? g.condensing_degC - g.subcooling_K : room_degC;
    case ContactPoint::condenser_air_on: return g.air_on_degC;
    case ContactPoint::condenser_air_off: return g.air_off_degC;
    case ContactPoint::agitator_bushing: return s.agitator_bushing.temperature_degC;
    case ContactPoint::shaft_end_bushing: return s.shaft_end_bushing.temperature_degC;
    case ContactPoint::draw_spout:
      return s.coefficients.draw_kg_per_s > 0.0 ? s.vat_degC : 0.5 * (s.vat_degC + room_degC);
    case ContactPoint::count: break;
  }
  return room_degC;
}

TemperatureReading contact_thermometer(const PlantState& state, ContactPoint point, double error) {
  TemperatureReading out;
  out.exact_degC = contact_degC(state, point);
  const double pressed = out.exact_degC + (state.environment.ambient_degC - out.exact_degC) / 20.0;
  const double shown = pressed + error * (1.5 + 0.005 * std::abs(pressed));
  out.value_degC = std::round(shown * 10.0) / 10.0;
  out.over_range = !(shown >= -50.0 && shown <= 250.0);
  return out;
}

GaugeReading gauge_set(const PlantState& state, double error_low, double error_high) {
  const refrigeration::ChillerGauges& g = state.chiller.gauges;
  GaugeReading out;
  const auto shown = [](double bar, double error, double full) {
    return std::clamp(std::round((bar - air_bar + error * 0.01 * full) * 50.0) / 50.0, -1.0, full);
  };
  out.low_bar = shown(g.suction_bar, error_low, 12.0);
  out.high_bar = shown(g.discharge_bar, error_high, 35.0);
  out.low_degC = refrigeration::r290_saturation_degC(std::max(0.05, out.low_bar + air_bar));
  out.high_degC = refrigeration::r290_saturation_degC(std::max(0.05, out.high_bar + air_bar));
  out.superheat_K = contact_degC(state, ContactPoint::suction_line) - out.low_degC;
  out.subcooling_K = out.high_degC - contact_degC(state, ContactPoint::liquid_line);
  return out;
}

}  // namespace stirbench::plant
