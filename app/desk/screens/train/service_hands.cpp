#include "app/desk/screens/train/service_hands.h"

#include "app/desk/screens/train/part_hands.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/plant/upkeep/cleaning.h"
#include "sim_core/plant/upkeep/service.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

using plant::PartId;

void note(kit::Ui& ui, const std::string& words, const char* id) {
  text(ui, words, {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = id});
}

std::string part_words(PartId part) { return tr(plant::part_title(part)); }

void threads(HandGrid& grid) {
  const plant::AssemblySpec& rules = grid.run.machine().plant.assembly;
  for (const PartId part : {PartId::valve_nut, PartId::shaft_end_bushing, PartId::shaft_sleeve}) {
    if (!plant::on_thread(rules.rules[static_cast<std::size_t>(part)])) continue;
    for (const bool clockwise : {true, false}) {
      const std::string key(plant::part_key(part));
      const hands::Action turn = hands::unscrew(key, clockwise);
      if (!hands::why_not(grid.run.machine(), grid.run.state(), turn).empty()) continue;
      const std::string words = clockwise ? tr("Turn clockwise: {part}", {{"part", part_words(part)}})
                                          : tr("Turn anticlockwise: {part}", {{"part", part_words(part)}});
      const std::string id = "hand.service.unscrew." + key + (clockwise ? ".right" : ".left");
      if (button(grid.ui, id, words, {.place = {.w = -1.0F}, .align = kit::Align::left}))
        grid.out.push_back(turn);
    }
  }
}

// The sheet: how long each wear part still lasts at the use of a usual day.
void sheet(HandGrid& grid) {
  caption(grid.ui, tr("Service sheet: hours of use until each wear part is due"));
  for (const plant::ServiceLine& line :
       plant::service_forecast(grid.run.machine().plant, grid.run.state().plant)) {
    const std::string id = "hand.service.sheet." + std::string(line.key);
    const std::string part = tr(line.title);
    const std::string words =
        line.due()
            ? tr("{part}: due now", {{"part", part}})
            : tr("{part}: {hours} h", {{"part", part}, {"hours", kit::plain_number(line.hours_left, 0)}});
    status_mark(grid.ui, line.due() ? kit::Status::due : kit::Status::good, words, id.c_str());
  }
}

}  // namespace

void draw_hose_hands(HandGrid& grid) {
  const plant::PlantState& plant = grid.run.state().plant;
  grid.heading(tr("Transfer hose, step by step"));
  const plant::HoseLine& line = plant.line;
  grid.act("hand.hose.gasket", line.gasket ? tr("Gasket out") : tr("Gasket in"),
           hands::hose_gasket(!line.gasket));
  if (plant.fittings.hose == plant::HoseEnd::none) {
    grid.act("hand.hose.push_pail", tr("Onto the pail"), hands::push_hose_on("pail"));
    grid.act("hand.hose.push_freezer", tr("Onto freezer"), hands::push_hose_on("freezer"));
  } else {
    grid.act("hand.hose.clamp", line.clamped ? tr("Clamp open") : tr("Clamp shut"),
             hands::clamp_hose(!line.clamped));
    grid.act("hand.hose.straight", tr("Lay straight"), hands::route_hose("straight"));
    grid.act("hand.hose.high", tr("Lift high"), hands::route_hose("high"));
    grid.act("hand.hose.kinked", tr("Bend sharply"), hands::route_hose("kinked"));
    grid.act("hand.hose.drain", tr("Drain hose"), hands::drain_hose());
  }
  std::string words;
  if (line.jumped)
    words = tr("The hose flew off the valve. Shut the valve.");
  else if (line.leak_L_per_min > 0.0)
    words = tr("The joint drips.");
  else if (line.held.total_kg() > 0.0)
    words =
        tr("The hose holds {mass}.", {{"mass", grid.ui.shown(kit::Quantity::mass, line.held.total_kg())}});
  if (!words.empty()) note(grid.ui, words, "hand.hose.words");
}

void draw_wash_hands(HandGrid& grid) {
  const machine::State& state = grid.run.state();
  grid.heading(tr("Wash the vat"));
  grid.act("hand.clean.swab_vat", tr("Swab the vat"), hands::swab("vat"));
  grid.act("hand.clean.swab_valve", tr("Swab the valve"), hands::swab("valve"));
  grid.act("hand.clean.brush", tr("Brush the part"), hands::brush());
  for (const machine::Chemical& chemical : grid.run.machine().chemicals) {
    // Cups that make about the label's strength in 25 kg of water.
    grid.new_row();
    text(grid.ui, tr("{chemical} into the vat", {{"chemical", tr(chemical.title)}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
    for (const double kg : {0.05, 0.25, 1.0}) {
      grid.act("hand.clean.dose_" + chemical.id + "_" + kit::plain_number(1000.0 * kg, 0),
               grid.ui.shown(kit::Quantity::mass, kg), hands::dose_vat(chemical.id, kg));
    }
  }
  const plant::Soil& soil = state.plant.soil;
  const auto swab_words = [](double ug) {
    return ug < 0.0 ? tr("none") : kit::plain_number(ug, 0) + kit::narrow_gap + "µg";
  };
  note(grid.ui,
       tr("Last swabs, soil on 100 cm²: vat {vat}, valve {valve}. Up to 100 µg is clean.",
          {{"vat", swab_words(soil.swab_vat)}, {"valve", swab_words(soil.swab_valve)}}),
       "hand.clean.swab_words");
  const double kg = state.plant.product.total_kg();
  if (kg > 0.0 && state.plant.product.alkaline_kg + state.plant.product.chlorine_kg > 0.0)
    note(grid.ui,
         tr("Test strips in the vat: {alkali} % alkali, {chlorine} mg/L chlorine.",
            {{"alkali", kit::plain_number(100.0 * state.plant.product.alkaline_kg / kg, 2)},
             {"chlorine", kit::plain_number(plant::chlorine_mg_per_L(state.plant), 0)}}),
         "hand.clean.strip_words");
}

void draw_service_hands(HandGrid& grid) {
  grid.heading(tr("Wear service"));
  grid.act("hand.service.feel_gap.agitator_bushing", tr("Gap: agitator"),
           hands::feel_gap("agitator_bushing"));
  grid.act("hand.service.feel_gap.shaft_end_bushing", tr("Gap: shaft end"),
           hands::feel_gap("shaft_end_bushing"));
  const double play = grid.run.state().plant.assembly.feeler_mm;
  if (play >= 0.0)
    note(grid.ui, tr("Last reading: {play} mm of play to each side.", {{"play", kit::plain_number(play, 3)}}),
         "hand.service.feeler_words");
  threads(grid);
  sheet(grid);
  const control::HoldControl hold = grid.run.machine().control.hold_control;
  note(grid.ui,
       hold == control::HoldControl::proportional
           ? tr("Heat is held by a share of each cycle: well and vat stay close.")
           : tr("Heat is switched on and off: each pulse warms the well more than the vat."),
       "hand.service.hold");
  grid.new_row();
}

}  // namespace stirbench::desk::screens
