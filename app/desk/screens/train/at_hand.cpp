#include "app/desk/screens/train/at_hand.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/train/hand_grid.h"
#include "app/desk/screens/train/listed_hands.h"
#include "app/desk/screens/train/lockout_board.h"
#include "app/desk/screens/train/part_hands.h"
#include "app/desk/screens/train/pointing.h"
#include "app/desk/screens/train/scale.h"
#include "app/desk/screens/train/service_hands.h"
#include "sim_core/bench/step.h"
#include "sim_core/plant/freezer/freezer.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

using Grid = HandGrid;

void guards(Grid& grid) {
  const plant::Fittings& f = grid.run.state().plant.fittings;
  if (f.lid_open) {
    grid.act("hand.close_lid", tr("Close lid"), hands::close_lid());
  } else {
    grid.act("hand.open_lid", tr("Open lid"), hands::open_lid());
  }
  if (f.shaft_cover_open) {
    grid.act("hand.close_shaft_cover", tr("Close cover"), hands::close_shaft_cover());
  } else {
    grid.act("hand.open_shaft_cover", tr("Open cover"), hands::open_shaft_cover());
  }
}

void hose(Grid& grid) {
  if (grid.run.state().plant.fittings.hose == plant::HoseEnd::none) {
    grid.act("hand.fit_hose", tr("Hose: pail"), hands::fit_hose("pail"));
    grid.act("hand.fit_hose_freezer", tr("Hose: freezer"), hands::fit_hose("freezer"));
  } else {
    grid.act("hand.remove_hose", tr("Hose off"), hands::remove_hose());
  }
}

void rest(Grid& grid) {
  const plant::PlantState& plant = grid.run.state().plant;
  const plant::Fittings& f = plant.fittings;
  grid.act("hand.rinse", f.rinse_on ? tr("Rinse gun off") : tr("Rinse gun"), hands::rinse(!f.rinse_on));
  grid.act("hand.isolate", f.isolator_on ? tr("Isolate") : tr("Switch on"), hands::isolate(f.isolator_on));
  grid.act("hand.reach_in", tr("Reach in"), hands::reach_in());
  grid.act("hand.touch_wall", tr("Touch wall"), hands::touch_wall());
  grid.act("hand.touch_draw_valve", tr("Touch valve"), hands::touch_part("draw_valve"));
  if (plant.pail.total_kg() > 0.0) grid.act("hand.empty_pail", tr("Empty pail"), hands::empty_pail());
  if (plant.overload_tripped) grid.act("hand.reset_overload", tr("Reset relay"), hands::reset_overload());
  if (plant.cutout_tripped) grid.act("hand.reset_cutout", tr("Reset cut-out"), hands::reset_cutout());
}

// The freezer is at hand once the hose leads to it, and as long as it holds something.
bool freezer_at_hand(const plant::PlantState& plant) {
  const plant::FreezerState& f = plant.freezer;
  return plant.fittings.hose == plant::HoseEnd::freezer || f.lid_open || f.drain_open || f.running ||
         f.tripped || f.product.total_kg() > 0.0 || f.tub.total_kg() > 0.0;
}

void freezer(Grid& grid) {
  const plant::FreezerState& f = grid.run.state().plant.freezer;
  grid.act("hand.freezer_inlet", f.inlet_open ? tr("Shut inlet") : tr("Open inlet"),
           hands::freezer_inlet(!f.inlet_open));
  if (f.tripped) {
    grid.act("hand.reset_freezer", tr("Reset dasher"), hands::reset_freezer());
  } else if (f.running) {
    grid.act("hand.freezer_stop", tr("Stop freezer"), hands::freezer_stop());
  } else {
    grid.act("hand.freezer_start", tr("Start freezer"), hands::freezer_start());
  }
  grid.act("hand.freezer_lid", f.lid_open ? tr("Shut its lid") : tr("Open its lid"),
           hands::freezer_lid(!f.lid_open));
  grid.act("hand.freezer_drain", f.drain_open ? tr("Shut drain") : tr("Open drain"),
           hands::freezer_drain(!f.drain_open));
  if (f.lid_open) grid.act("hand.freezer_water", tr("Rinse, 2 kg"), hands::freezer_water(2.0));
  for (const auto& [setting, words] : {std::pair{plant::FreezerSetting::freeze, tr("Set: freeze")},
                                       {plant::FreezerSetting::dasher, tr("Set: dasher")},
                                       {plant::FreezerSetting::keep, tr("Set: keep")}}) {
    if (setting == f.setting) continue;
    const std::string_view word = plant::freezer_setting_word(setting);
    grid.act("hand.freezer_setting." + std::string(word), words, hands::freezer_setting(word));
  }
  const bool gate_open = f.gate_norm > 0.0;
  grid.act("hand.freezer_draw", gate_open ? tr("Shut gate") : tr("Open gate"),
           hands::freezer_draw(gate_open ? 0.0 : 1.0));
  if (f.tub.total_kg() > 0.0) grid.act("hand.empty_tub", tr("Empty tub"), hands::empty_tub());
}

std::string freezer_mode_words(plant::FreezerMode mode) {
  switch (mode) {
    case plant::FreezerMode::off: return tr("off");
    case plant::FreezerMode::filling: return tr("filling");
    case plant::FreezerMode::freezing: return tr("freezing");
    case plant::FreezerMode::ready: return tr("ready");
    case plant::FreezerMode::emptying: return tr("emptying");
  }
  return {};
}

// What eye and ear make of it, the worst first; empty when all is well.
std::string freezer_signs(const plant::FreezerSpec& spec, const plant::FreezerState& f) {
  const double mix_L = plant::mix_L(f);
  if (f.tripped) return tr("The dasher stopped on overload.");
  if (f.overflow_L_per_min > 0.0) return tr("It runs over at the inlet.");
  if (f.drain_L_per_min > 0.0) return tr("It runs away through the open drain.");
  if (f.lid_open) return tr("The lid is open; its guard holds the dasher.");
  if (!f.running) return {};
  if (f.resting) return tr("Cold enough: it rests and keeps the charge.");
  if (f.torque_Nm > 2.5 * spec.rated_Nm) return tr("Ice holds the blades: the dasher does not turn.");
  if (!(mix_L > 0.0)) return tr("The blades scrape on bare wall.");
  if (mix_L < spec.minimum_charge_L) return tr("The dasher slaps: too little mix.");
  if (mix_L > spec.maximum_charge_L) return tr("Over-full: little room for air.");
  return f.torque_Nm > spec.rated_Nm ? tr("The dasher labours.") : std::string();
}

void freezer_readings(kit::Ui& ui, const work::LiveRun& run) {
  const plant::FreezerState& f = run.state().plant.freezer;
  std::string words = tr("Freezer {mode}", {{"mode", freezer_mode_words(plant::freezer_mode(f))}});
  const double mix_L = plant::mix_L(f);
  if (mix_L > 0.0) {
    words += tr(": {charge}, {temperature}", {{"charge", ui.shown(kit::Quantity::volume, 1.0e-3 * mix_L)},
                                              {"temperature", ui.shown(kit::Quantity::temperature, f.degC)}});
    if (f.ice_kg > 0.0)
      words += tr(", ice {ice}, overrun {air}",
                  {{"ice", ui.shown(kit::Quantity::share, plant::frozen_water_norm(f))},
                   {"air", ui.shown(kit::Quantity::share, plant::overrun_norm(f))}});
    if (f.running)
      words += tr(", dasher {torque}", {{"torque", ui.shown(kit::Quantity::torque, f.torque_Nm)}});
  }
  if (f.tub.total_kg() > 0.0)
    words += tr("; tub {mass}", {{"mass", ui.shown(kit::Quantity::mass, f.tub.total_kg())}});
  words += ".";
  const std::string signs = freezer_signs(run.machine().plant.freezer, f);
  if (!signs.empty()) words += " " + signs;
  text(ui, words, {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "hand.freezer_readings"});
  if (f.running)
    text(ui, tr("Keep hands and tools out of inlet and gate while the dasher turns."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "hand.freezer_caution"});
}

void draw_valve(kit::Ui& ui, const work::LiveRun& run, std::vector<hands::Action>& out) {
  const double now = run.draw_opening_norm();
  double opening = now;
  const std::string reason = hands::why_not(run.machine(), run.state(), hands::turn_draw_valve(opening));
  kit::SliderStyle style{.min = 0.0,
                         .max = 1.0,
                         .step = 0.05,
                         .value_text = opening < 0.005
                                           ? tr("shut")
                                           : kit::plain_number(100.0 * opening, 0) + kit::narrow_gap + "%",
                         .enabled = reason.empty(),
                         .reason = tr(reason),
                         .place = {.w = width_left(ui) - ui.em(84.0F)}};
  if (slider(ui, "hand.draw_valve", tr("Draw handle"), opening, style) && opening != now) {
    out.push_back(hands::turn_draw_valve(opening));
  }
  same_line(ui);
  if (button(ui, "hand.draw_shut", tr("Shut"),
             {.enabled = now > 0.0, .reason = tr("It is shut."), .place = {.w = -1.0F}})) {
    out.push_back(hands::turn_draw_valve(0.0));
  }
}

// Four short lists instead of one long one.
void groups(kit::Ui& ui, AtHandState& state) {
  const auto group = [&](const char* id, const std::string& words, HandGroup which) {
    if (chip(ui, id, words, state.group == which)) state.group = which;
  };
  group("hand.group.machine", tr("Machine"), HandGroup::machine);
  same_line(ui);
  group("hand.group.safety", tr("Safety"), HandGroup::safety);
  same_line(ui);
  group("hand.group.cleaning", tr("Cleaning"), HandGroup::cleaning);
  same_line(ui);
  group("hand.group.parts", tr("Parts"), HandGroup::parts);
  same_line(ui);
  group("hand.group.faults", tr("Fault"), HandGroup::faults);
  if (state.pointable != nullptr) {
    same_line(ui);
    group("hand.group.point", tr("Point"), HandGroup::point);
  }
  gap(ui, 4.0F);
}

// The lists beside that of the machine.
void draw_other_group(kit::Ui& ui, AtHandState& state, const work::LiveRun& run, Grid& grid,
                      std::vector<hands::Action>& out) {
  if (state.group == HandGroup::parts) {
    draw_parts_group(ui, run, out);
    draw_service_hands(grid);
    draw_listed(grid, hands::Group::parts);
  } else if (state.group == HandGroup::point) {
    if (state.pointable != nullptr)
      draw_point_group(ui, state.point_query, state.point_part, *state.pointable, out);
  } else if (state.group == HandGroup::faults) {
    draw_fault_group(ui, state.fault, run, out);
    draw_listed(grid, hands::Group::faults);
  } else if (state.group == HandGroup::safety) {
    draw_lockout_board(ui, run);
    gap(ui, 6.0F);
    draw_safety_group(grid, state.alarms_asked);
  } else {
    draw_cleaning_group(grid);
    draw_wash_hands(grid);
  }
}

}  // namespace

std::string spoon_words(const machine::State& state) {
  const product::Product& p = state.plant.product;
  if (p.total_kg() < 0.05) return tr("Nothing to take.");
  std::string words;
  const auto also = [&words](const std::string& more) { words += (words.empty() ? "" : ", ") + more; };
  if (p.undissolved_sugar_kg > 0.01) also(tr("sugar grains"));
  if (p.dry_powder_kg > 0.01) also(tr("dry powder"));
  if (p.gum_lumps_kg > 0.002) also(tr("jelly lumps"));
  if (p.egg_curd_norm > 0.05) also(tr("curds"));
  if (p.scorched_kg > 0.001) also(tr("brown specks, a burnt taste"));
  if (p.sunk_sugar_kg + p.sunk_powder_kg > 0.02) also(tr("thin: something has sunk"));
  if (words.empty()) words = tr("smooth");
  return words;
}

std::vector<hands::Action> draw_at_hand(kit::Ui& ui, AtHandState& state, const work::LiveRun& run,
                                        const kit::Rect& rect) {
  std::vector<hands::Action> out;
  if (state.scale_open) {
    draw_scale(ui, state, run, rect, out);
    return out;
  }
  kit::PanelScope panel(ui, "hand", rect, {.caption = tr("At hand")});
  Grid grid{ui, run, out};
  const float spacing = ui.px(8.0F);
  // The list is longer than the panel: its scroll bar takes room from the last column.
  const float room = panel.inner().w - ui.px(5.0F);
  grid.columns = std::max(1, static_cast<int>(room / ui.em(118.0F)));
  grid.width = (room - spacing * static_cast<float>(grid.columns - 1)) / static_cast<float>(grid.columns) -
               ui.px(2.0F);
  groups(ui, state);
  if (state.group != HandGroup::machine) {
    draw_other_group(ui, state, run, grid, out);
    return out;
  }
  guards(grid);
  grid.place();
  if (button(ui, "hand.pour", tr("Pour in"), {.place = {.w = grid.width}})) state.scale_open = true;
  const hands::Action sample = hands::take_sample();
  const bool spoon = grid.act("hand.sample", tr("Spoon"), sample);
  const bool probe = grid.act("hand.thermometer", tr("Thermometer"), sample);
  if (spoon || probe) {
    state.sample_taken = true;
    state.sample_words = spoon_words(run.state());
  }
  hose(grid);
  rest(grid);
  if (freezer_at_hand(run.state().plant)) {
    freezer(grid);
    freezer_readings(ui, run);
  }
  if (state.sample_taken) {
    text(ui,
         tr("Last spoonful: {temperature}, {words}.",
            {{"temperature", ui.shown(kit::Quantity::temperature, run.state().sample_degC)},
             {"words", state.sample_words}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "hand.sample_words"});
  }
  draw_valve(ui, run, out);
  draw_hose_hands(grid);
  draw_listed(grid, hands::Group::machine);
  text(ui, tr("Everything you can drag or press in the picture is also here."),
       {.type = kit::Type::caption, .colour = kit::Token::ink2});
  return out;
}

}  // namespace stirbench::desk::screens
