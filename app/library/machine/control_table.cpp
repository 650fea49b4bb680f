#include "app/library/tables.h"

// Constants of the machine's own controller: the key "control" of a machine file.
namespace stirbench::library {

namespace {

struct ControlPart {
  using Field = double control::ControlSpec::*;
  Object<control::ControlSpec> table;
  ControlPart& number(const char* key, Field member, double low, double high, const char* unit,
                      const char* doc) {
    table.need(key, member, library::number(low, high, unit), doc);
    return *this;
  }
};

Object<control::ControlSpec> make_control_table() {
  ControlPart p;
  using S = control::ControlSpec;
  p.number("heat_hysteresis_K", &S::heat_hysteresis_K, 0.05, 20.0, "K", "Width of the heating band.")
      .number("chill_hysteresis_K", &S::chill_hysteresis_K, 0.05, 20.0, "K", "Width of the chilling band.")
      .number("lowest_target_degC", &S::lowest_target_degC, -10.0, 30.0, "degC",
              "Least target that the display takes.")
      .number("highest_target_degC", &S::highest_target_degC, 30.0, 99.0, "degC",
              "Highest target that the display takes.")
      .number("default_heat_degC", &S::default_heat_degC, 30.0, 99.0, "degC",
              "What Heat aims at before a target was entered.")
      .number("default_chill_degC", &S::default_chill_degC, -10.0, 30.0, "degC",
              "What Chill aims at before a target was entered.")
      .number("age_stir_on_s", &S::age_stir_on_s, 1.0, 3600.0, "s", "Stirring spell in age and keep.")
      .number("age_stir_off_s", &S::age_stir_off_s, 0.0, 7200.0, "s", "Rest between the spells.")
      .number("prompt_ahead_s", &S::prompt_ahead_s, 0.0, 600.0, "s",
              "How long before the need the display asks.")
      .number("heat_lead_s", &S::heat_lead_s, 0.0, 600.0, "s",
              "How far the heating demand looks ahead along the probe's slope.")
      .number("chill_lead_s", &S::chill_lead_s, 0.0, 600.0, "s", "How far the chilling demand looks ahead.")
      .number("heat_taper_K", &S::heat_taper_K, 0.0, 50.0, "K",
              "Nearer to the target than this, as looked ahead, heat comes in pulses.")
      .number("heat_least_norm", &S::heat_least_norm, 0.0, 1.0, "", "Share of a pulse at the target.")
      .number("heat_cycle_s", &S::heat_cycle_s, 1.0, 600.0, "s", "From pulse to pulse.");
  p.table.need("hold_control", &S::hold_control,
               choice<control::HoldControl>({{"two_point", control::HoldControl::two_point},
                                             {"proportional", control::HoldControl::proportional}}),
               "How heat is held at its target: on and off, or a share of each cycle with integral action.");
  const auto hold = [&p](const char* key, double S::*member, double high, const char* unit, const char* doc) {
    p.table.may(key, member, library::number(0.0, high, unit), doc);
  };
  hold("hold_band_K", &S::hold_band_K, 50.0, "K", "Proportional: so far below the aim the heat is full.");
  hold("hold_reset_s", &S::hold_reset_s, 7200.0, "s", "Proportional: time of its integral action.");
  hold("hold_bias_norm", &S::hold_bias_norm, 1.0, "", "Proportional: share of heat that it begins with.");
  p.table.may("alarms", &S::alarms, alarm_rules(),
              "What may be shelved, what is suppressed or out of service.");
  p.table.check([](Reader& reader, const S& c) {
    const auto inside = [&](double value, const char* key) {
      if (value < c.lowest_target_degC || value > c.highest_target_degC)
        reader.problem("a temperature in " + number_text(c.lowest_target_degC) + " .. " +
                           number_text(c.highest_target_degC) + " degC",
                       number_text(value), key);
    };
    inside(c.default_heat_degC, "/default_heat_degC");
    inside(c.default_chill_degC, "/default_chill_degC");
    if (c.hold_control != control::HoldControl::proportional) return;
    if (!(c.hold_band_K > 0.0))
      reader.problem("above 0 for a proportional hold", number_text(c.hold_band_K), "/hold_band_K");
    if (!(c.hold_reset_s > 0.0))
      reader.problem("above 0 for a proportional hold", number_text(c.hold_reset_s), "/hold_reset_s");
  });
  return p.table;
}

}  // namespace

const Object<control::ControlSpec>& control_table() {
  static const Object<control::ControlSpec> table = make_control_table();
  return table;
}

}  // namespace stirbench::library
