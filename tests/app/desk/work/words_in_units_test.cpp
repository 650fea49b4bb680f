#include <doctest/doctest.h>

#include <string>

#include "app/desk/work/debrief/why.h"

using namespace stirbench;
using desk::work::words_in_units;

// 24 °C = 75.2 °F, 20 .. 25 °C = 68 .. 77 °F, 22.2 kg = 48.9 lb (NIST SP 811, 2008, appendix B).
TEST_CASE("words in units: written amounts in the person's units, all else untouched") {
  desk::kit::UnitChoice us;
  us.temperature = desk::kit::TemperatureUnit::degF;
  us.mass = desk::kit::MassUnit::pound;
  us.volume = desk::kit::VolumeUnit::us_gallon;
  const std::string gap = desk::kit::narrow_gap;
  CHECK(words_in_units("The room was at 24 °C.", us) == "The room was at 75" + gap + "°F.");
  CHECK(words_in_units("Between 20 to 25 °C it holds.", us) == "Between 68 to 77" + gap + "°F it holds.");
  CHECK(words_in_units("Weigh in 22.2 kg of milk.", us) == "Weigh in 48.9" + gap + "lb of milk.");
  CHECK(words_in_units("-18 °C", us).find("0" + gap + "°F") != std::string::npos);
  for (const char* same : {"2 kg/m³ at 3 Lids", "after 12 min", "0.8 K", "E1 kg", "1,000 W", ""})
    CHECK(words_in_units(same, us) == same);
  const desk::kit::UnitChoice si;
  for (const char* text : {"The room was at 24 °C, the milk 22.20 kg, 4 L of water.", "12 to 14 °C"})
    CHECK(words_in_units(text, si) == text);
}
