#include "app/desk/views/machine_view/gauges.h"

#include <string>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::views {

using kit::tr;

namespace {

constexpr double air_bar = 1.01325;

std::string pressure(const kit::Ui& ui, double absolute_bar) {
  return ui.shown(kit::Quantity::pressure, 1.0e5 * (absolute_bar - air_bar));
}

}  // namespace

void draw_gauges(kit::Ui& ui, const machine::State& state) {
  const refrigeration::ChillerGauges& g = state.plant.chiller.gauges;
  const bool runs = state.plant.compressor_on;
  const std::string none = "–";
  const auto degC = [&](double value) { return ui.shown(kit::Quantity::temperature, value); };
  const auto kelvin = [&](double value) {
    return runs ? ui.shown(kit::Quantity::temperature_difference, value) : none;
  };
  kit::TableScope table(ui, "gauges", {{"", 1.7F}, {"", 1.0F, kit::Align::right}}, false);
  const auto row = [&](const char* id, const std::string& name, const std::string& value) {
    table.row(std::string("gauges.") + id, {{.words = name}, {.words = value}});
  };
  row("suction", tr("Suction pressure"), pressure(ui, g.suction_bar));
  row("evaporates", tr("evaporates at"), degC(g.evaporating_degC));
  row("discharge", tr("Discharge pressure"), pressure(ui, g.discharge_bar));
  row("condenses", tr("condenses at"), degC(g.condensing_degC));
  row("superheat", tr("Superheat"), kelvin(g.superheat_K));
  row("subcooling", tr("Subcooling"), kelvin(g.subcooling_K));
  row("discharge_line", tr("Discharge line"), degC(g.discharge_degC));
  row("compressor", tr("Compressor current"), ui.shown(kit::Quantity::current, g.compressor_A));
  row("air_on", tr("Air onto the condenser"), degC(g.air_on_degC));
  row("air_off", tr("Air off the condenser"), degC(g.air_off_degC));
  row("sight_glass", tr("Sight glass"), !runs ? none : g.flash_norm > 0.01 ? tr("bubbles") : tr("clear"));
}

}  // namespace stirbench::desk::views
