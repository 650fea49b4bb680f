#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/views/machine_view/labels.h"
#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/heat.h"
#include "sim_core/plant/scorch.h"

// What the labels say.
namespace stirbench::desk::views::machine_view {

using kit::tr;

namespace {

constexpr double L_per_min = 1e-3 / 60.0;  // in m3/s
constexpr double hot_degC = 60.0;          // skin burns in seconds from here (EN ISO 13732-1; from memory)

void guards(const kit::Ui&, const machine::State& state, std::vector<Label>& out) {
  const plant::Fittings& f = state.plant.fittings;
  out.push_back({.what = Named::lid_guard,
                 .left = false,
                 .importance = 0,
                 .name = tr("Lid guard:"),
                 .value = f.lid_open ? tr("OPEN") : tr("closed"),
                 .colour = f.lid_open ? kit::Token::bad : kit::Token::ink,
                 .icon = f.lid_open ? kit::Icon::warning : kit::Icon::none});
  out.push_back({.what = Named::shaft_cover,
                 .left = true,
                 .importance = f.shaft_cover_open ? 0 : 4,
                 .name = tr("Shaft cover:"),
                 .value = f.shaft_cover_open ? tr("OPEN") : tr("closed"),
                 .colour = f.shaft_cover_open ? kit::Token::bad : kit::Token::ink,
                 .icon = f.shaft_cover_open ? kit::Icon::warning : kit::Icon::none});
}

void product_labels(const kit::Ui& ui, const machine::Machine& machine, const machine::State& state,
                    std::vector<Label>& out) {
  const plant::PlantState& p = state.plant;
  const bool any = p.product.total_kg() > 1e-3;
  const auto litres = [&](double volume_L) { return ui.shown(kit::Quantity::volume, volume_L * 1e-3); };
  Label vat{.what = Named::vat, .left = true, .importance = 0, .name = tr("Vat")};
  // So little that all of it lies in the well: the vat itself holds nothing that has a temperature.
  const bool in_vat = any && p.coefficients.volume_L > machine.plant.well.volume_L;
  vat.value = in_vat ? ui.shown(kit::Quantity::temperature, p.vat_degC) : tr("empty");
  if (any) vat.detail = tr("fill {volume}", {{"volume", litres(p.coefficients.volume_L)}});
  if (in_vat && p.vat_degC > hot_degC) vat.sign = kit::SignId::w017;
  out.push_back(vat);
  Label well{.what = Named::well,
             .left = true,
             .importance = 1,
             .name = tr("Well"),
             .value = ui.shown(kit::Quantity::temperature, any ? p.well_degC : p.well_wall_degC)};
  if (!any)
    well.detail = tr("wall");
  else if (plant::singing_norm(machine.plant, p) > plant::heard_norm)
    well.detail = tr("the wall sings");
  if (std::max(p.well_degC, p.well_wall_degC) > hot_degC) well.sign = kit::SignId::w017;
  out.push_back(well);
  const plant::VatSpec& spec = machine.plant.vat;
  if (spec.working_L > 0.0) {
    out.push_back({.what = Named::working_level,
                   .left = true,
                   .importance = 5,
                   .name = tr("most"),
                   .value = ui.shown(kit::Quantity::volume, spec.working_L * 1e-3, 0),
                   .quiet = true});
  }
  if (spec.minimum_L > 0.0) {
    const bool below = any && p.coefficients.volume_L < spec.minimum_L - 0.05;
    out.push_back({.what = Named::minimum_level,
                   .left = true,
                   .importance = below ? 2 : 5,
                   .name = tr("least"),
                   .value = ui.shown(kit::Quantity::volume, spec.minimum_L * 1e-3, 0),
                   .quiet = true});
  }
  const product::Product& product = p.product;
  const double sunk = product.sunk_sugar_kg + product.sunk_powder_kg;
  const auto mass = [&](double kg) { return ui.shown(kit::Quantity::mass, kg, 1); };
  if (sunk > 0.05)
    out.push_back(
        {.what = Named::sunk, .left = true, .importance = 2, .name = tr("Sunk"), .value = mass(sunk)});
  const double loose = product.undissolved_sugar_kg + product.dry_powder_kg + product.gum_lumps_kg;
  if (loose > 0.05)
    out.push_back({.what = Named::floating,
                   .left = false,
                   .importance = 3,
                   .name = tr("Undissolved"),
                   .value = mass(loose)});
}

// What is seen on the heated wall; stone only once the well is empty.
void wall_labels(const machine::State& state, std::vector<Label>& out) {
  const plant::PlantState& p = state.plant;
  if (p.deposit_kg_per_m2 > 0.02)
    out.push_back(
        {.what = Named::deposit, .left = true, .importance = 2, .name = tr("Burnt on"), .value = ""});
  else if (!(p.product.total_kg() > 1e-3) && plant::shows_bloom(p))
    out.push_back({.what = Named::deposit,
                   .left = true,
                   .importance = 2,
                   .name = tr("Milk stone"),
                   .value = "",
                   .detail = tr("white-grey")});
}

void heat_labels(const kit::Ui& ui, const machine::State& state, std::vector<Label>& out) {
  const plant::PlantState& p = state.plant;
  const bool on = p.flows.heaters_W > 1.0;
  Label elements{.what = Named::elements,
                 .left = true,
                 .importance = on ? 1 : 3,
                 .name = tr("Elements"),
                 .value = on ? ui.shown(kit::Quantity::power, p.flows.heaters_W) : tr("off"),
                 .colour = on ? kit::Token::hot : kit::Token::ink};
  out.push_back(elements);
  const bool chills = p.compressor_on;
  Label chiller{.what = Named::chiller,
                .left = true,
                .importance = chills ? 1 : 3,
                .name = tr("Chiller"),
                .value = chills ? ui.shown(kit::Quantity::power, -p.flows.chiller_W) : tr("off"),
                .colour = chills ? kit::Token::cold : kit::Token::ink};
  if (p.wall_ice_kg > 0.02) chiller.detail = tr("ice on the wall");
  out.push_back(chiller);
}

void drive_labels(const kit::Ui& ui, const machine::Machine& machine, const machine::State& state,
                  std::vector<Label>& out) {
  const plant::PlantState& p = state.plant;
  const bool turns = p.flows.agitator_rpm > 0.5;
  Label agitator{.what = Named::agitator,
                 .left = false,
                 .importance = turns ? 1 : 3,
                 .name = tr("Agitator"),
                 .value = turns ? ui.shown(kit::Quantity::rotation, p.flows.agitator_rpm) : tr("still")};
  if (turns) agitator.sign = kit::SignId::w024;
  out.push_back(agitator);
  const auto bushing = [&](const plant::BushingSpec& spec, const plant::BushingState& b) {
    if (!is_worn(spec, b, p)) return false;
    const bool ruined =
        b.play_mm > spec.limit_mm || (is_running_hot(b, p) && b.temperature_degC > spec.softening_degC);
    out.push_back(
        {.what = Named::bushing,
         .left = false,
         .importance = 1,
         .name = tr("Bushing"),
         .value = ui.shown(kit::Quantity::temperature, b.temperature_degC, 0),
         .detail = tr("play {play}", {{"play", ui.shown(kit::Quantity::length, b.play_mm * 1e-3, 2)}}),
         .colour = ruined ? kit::Token::bad : kit::Token::due,
         .icon = kit::Icon::warning});
    return true;
  };
  if (!bushing(machine.plant.agitator_bushing, p.agitator_bushing))
    bushing(machine.plant.shaft_end_bushing, p.shaft_end_bushing);
  const bool flows = p.flows.circulation_L_per_min > 0.5;
  Label pump{.what = Named::pump,
             .left = false,
             .importance = flows ? 2 : 4,
             .name = tr("Pump"),
             .value = flows ? ui.shown(kit::Quantity::flow, p.flows.circulation_L_per_min * L_per_min, 0)
                            : tr("still")};
  if (p.prime_norm < 0.9 && p.flows.agitator_rpm > 0.5) pump.detail = tr("draws air");
  out.push_back(pump);
}

void freezer_words(const kit::Ui& ui, const plant::FreezerState& f, std::vector<Label>& out) {
  const double mix_L = plant::mix_L(f);
  Label label{
      .what = Named::pail, .left = false, .importance = 1, .name = tr("Batch freezer"), .value = tr("empty")};
  if (mix_L > 0.0) {
    label.value = ui.shown(kit::Quantity::temperature, f.degC);
    label.detail = ui.shown(kit::Quantity::volume, 1.0e-3 * mix_L);
    if (f.ice_kg > 0.0)
      label.detail = tr("ice {ice}, overrun {air}",
                        {{"ice", ui.shown(kit::Quantity::share, plant::frozen_water_norm(f))},
                         {"air", ui.shown(kit::Quantity::share, plant::overrun_norm(f))}});
  }
  if (f.tripped) {
    label.detail = tr("dasher tripped");
    label.colour = kit::Token::bad;
    label.icon = kit::Icon::warning;
  }
  out.push_back(label);
}

void draw_labels_words(const kit::Ui& ui, const machine::State& state, std::vector<Label>& out) {
  const plant::PlantState& p = state.plant;
  const double opening = p.fittings.draw_opening_norm;
  Label valve{.what = Named::draw_valve,
              .left = false,
              .importance = opening > 0.0 ? 1 : 4,
              .name = tr("Draw valve"),
              .value = opening > 0.0 ? "" : tr("shut")};
  if (opening > 0.0) {
    valve.value = ui.shown(kit::Quantity::share, opening);
    valve.detail = ui.shown(kit::Quantity::flow, p.flows.draw_L_per_min * L_per_min);
  }
  out.push_back(valve);
  if (freezer_in_view(state)) {
    freezer_words(ui, p.freezer, out);
    return;
  }
  const double pail = p.pail.total_kg();
  Label label{.what = Named::pail,
              .left = false,
              .importance = pail > 0.0 ? 1 : 4,
              .name = tr("Pail"),
              .value = pail > 0.0 ? ui.shown(kit::Quantity::mass, pail) : tr("empty")};
  if (pail > 0.0) label.detail = ui.shown(kit::Quantity::temperature, p.pail_degC);
  if (pail > 0.0 && p.pail_degC > hot_degC) label.sign = kit::SignId::w017;
  out.push_back(label);
}

}  // namespace

void keep_what_is_seen(std::vector<Label>& labels) {
  std::erase_if(labels, [](const Label& one) {
    return one.what == Named::elements || one.what == Named::chiller || one.what == Named::bushing ||
           one.what == Named::pump || one.what == Named::well || one.what == Named::deposit;
  });
  for (Label& one : labels) {
    if (one.what == Named::vat) one.value.clear();
    if (one.what == Named::draw_valve) one.detail.clear();
  }
}

std::vector<Label> make_labels(const kit::Ui& ui, const machine::Machine& machine,
                               const machine::State& state) {
  std::vector<Label> labels;
  guards(ui, state, labels);
  product_labels(ui, machine, state, labels);
  wall_labels(state, labels);
  heat_labels(ui, state, labels);
  drive_labels(ui, machine, state, labels);
  draw_labels_words(ui, state, labels);
  return labels;
}

std::vector<Label> widest_labels(const kit::Ui& ui, const machine::Machine& machine) {
  machine::State state;
  plant::PlantState& p = state.plant;
  p.fittings.lid_open = p.fittings.shaft_cover_open = true;
  p.fittings.draw_opening_norm = 1.0;
  p.product.mass_kg[product::Component::water] = 1.0;
  p.product.undissolved_sugar_kg = p.product.sunk_sugar_kg = 18.8;
  p.coefficients.volume_L = std::max(88.8, machine.plant.vat.brim_L);
  p.vat_degC = p.well_degC = p.pail_degC = 88.8;
  p.well_wall_degC = 130.0;  // it sings
  p.coefficients.well_wall_W_per_K = 300.0;
  p.compressor_on = true;
  p.wall_ice_kg = 1.0;
  p.flows.heaters_W = p.flows.chiller_W = 8800.0;
  p.flows.agitator_rpm = 888.0;
  p.flows.circulation_L_per_min = p.flows.draw_L_per_min = 88.8;
  p.pail.mass_kg[product::Component::water] = 18.88;
  std::vector<Label> labels = make_labels(ui, machine, state);
  p.freezer.product.mass_kg[product::Component::water] = 8.0;
  p.freezer.degC = -8.8;
  p.freezer.ice_kg = 4.0;
  p.freezer.air_L = 4.0;
  freezer_words(ui, p.freezer, labels);
  return labels;
}

}  // namespace stirbench::desk::views::machine_view
