#include "app/desk/screens/train/hand_grid.h"
#include "app/desk/screens/train/listed_hands.h"
#include "sim_core/machine/lockout.h"
#include "sim_core/machine/spills.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

void locks(HandGrid& grid) {
  const machine::Lockout& lockout = grid.run.state().lockout;
  const bool on = grid.run.state().plant.fittings.isolator_on;
  grid.act("hand.lockout.read_energies", tr("Energy sheet"), hands::read_energies());
  grid.act("hand.lockout.tell_lockout", tr("Tell: locking"), hands::tell_people("lockout"));
  grid.act("hand.isolate", on ? tr("Isolate") : tr("Switch on"), hands::isolate(on));
  grid.act("hand.lockout.neighbour", lockout.neighbour_isolated ? tr("Isolator 2 on") : tr("Isolator 2"),
           hands::isolate_neighbour(!lockout.neighbour_isolated));
  if (lockout.yours.on)
    grid.act("hand.lockout.remove_lock", tr("Own lock off"), hands::remove_lock("you"));
  else
    grid.act("hand.lockout.fit_lock", tr("Own lock on"), hands::fit_lock("you"));
  grid.act("hand.lockout.take_key", tr("Pocket key"), hands::take_key());
  if (lockout.yours.tag)
    grid.act("hand.lockout.remove_tag", tr("Own tag off"), hands::remove_tag("you"));
  else
    grid.act("hand.lockout.fit_tag", tr("Own tag on"), hands::fit_tag("you"));
  if (lockout.colleagues.on)
    grid.act("hand.lockout.cut_lock", tr("Cut other lock"), hands::remove_lock("colleague"));
  else
    grid.act("hand.lockout.borrow_lock", tr("Other's lock"), hands::fit_lock("colleague"));
}

void energies(HandGrid& grid) {
  grid.heading(tr("Let out, or see that it is gone"));
  grid.act("hand.lockout.release_heat", tr("Heat"), hands::release_energy("heat"));
  grid.act("hand.lockout.release_hose", tr("Hose"), hands::release_energy("hose"));
  grid.act("hand.lockout.release_spring", tr("Valve spring"), hands::release_energy("spring"));
  grid.act("hand.lockout.release_capacitor", tr("Capacitor"), hands::release_energy("capacitor"));
  grid.act("hand.lockout.release_refrigerant", tr("Refrigerant"), hands::release_energy("refrigerant"));
}

void work(HandGrid& grid) {
  const machine::Lockout& lockout = grid.run.state().lockout;
  grid.heading(tr("Prove it and work"));
  if (lockout.panel_off)
    grid.act("hand.lockout.put_panel_on", tr("Panel on"), hands::put_panel_on());
  else
    grid.act("hand.lockout.take_panel_off", tr("Panel off"), hands::take_panel_off());
  grid.act("hand.lockout.measure_source", tr("Prove meter"), hands::measure("known_source"));
  grid.act("hand.lockout.measure_terminals", tr("Measure"), hands::measure("terminals"));
  if (lockout.working_at != machine::WorkPlace::none) {
    grid.act("hand.lockout.end_work", tr("Hands out"), hands::end_work());
  } else {
    grid.act("hand.lockout.work_panel", tr("Work in panel"), hands::begin_work("panel"));
    grid.act("hand.lockout.work_vat", tr("Work in vat"), hands::begin_work("vat"));
  }
  if (lockout.valve_out)
    grid.act("hand.lockout.put_valve_back", tr("Valve back"), hands::put_valve_back());
  else
    grid.act("hand.lockout.take_valve_out", tr("Valve out"), hands::take_valve_out());
  grid.act("hand.lockout.inspect", tr("Look round"), hands::inspect());
  grid.act("hand.lockout.tell_restart", tr("Tell: it's back"), hands::tell_people("restart"));
}

// The alarms' journal, and a technician's test buttons on the three protecting devices.
void watch_and_test(HandGrid& grid, bool& alarms_asked) {
  grid.heading(tr("Alarms, and test buttons of the protecting devices"));
  grid.place();
  if (button(grid.ui, "hand.alarms", tr("Alarms"), {.place = {.w = grid.width}})) alarms_asked = true;
  grid.act("hand.test_overload", tr("Test relay"), hands::test_overload());
  grid.act("hand.test_cutout", tr("Test cut-out"), hands::test_cutout());
  grid.act("hand.test_pressure", tr("Test pressure"), hands::test_pressure());
  const plant::PlantState& plant = grid.run.state().plant;
  if (plant.overload_tripped) grid.act("hand.reset_overload", tr("Reset relay"), hands::reset_overload());
  if (plant.cutout_tripped) grid.act("hand.reset_cutout", tr("Reset cut-out"), hands::reset_cutout());
}

void wear(HandGrid& grid) {
  const std::array<std::pair<machine::PpeItem, std::string>, machine::ppe_count> items{{
      {machine::PpeItem::heat_gloves, tr("Heat gloves")},
      {machine::PpeItem::chemical_gloves, tr("Chem. gloves")},
      {machine::PpeItem::eye_protection, tr("Goggles")},
      {machine::PpeItem::face_shield, tr("Face shield")},
      {machine::PpeItem::apron, tr("Apron")},
      {machine::PpeItem::safety_shoes, tr("Safety shoes")},
  }};
  for (const auto& [item, words] : items) {
    const bool worn = grid.run.state().wearing.has(item);
    const std::string key(machine::ppe_key(item));
    const hands::Action action = worn ? hands::take_off(key) : hands::put_on(key);
    grid.place();
    const std::string reason = hands::why_not(grid.run.machine(), grid.run.state(), action);
    if (button(grid.ui, "hand.clean.wear_" + key, words,
               {.enabled = reason.empty(),
                .reason = tr(reason),
                .selected = worn,
                .hint = worn ? tr("Take it off") : tr("Put it on"),
                .place = {.w = grid.width}})) {
      grid.out.push_back(action);
    }
  }
}

void bucket(HandGrid& grid) {
  const machine::State& state = grid.run.state();
  grid.heading(tr("Wash bucket"));
  grid.act("hand.clean.add_water", tr("5 kg water"), hands::add_water(5.0));
  grid.act("hand.clean.scrub", tr("Scrub"), hands::scrub());
  grid.act("hand.clean.empty_bucket", tr("Pour away"), hands::empty_bucket());
  for (const machine::Chemical& chemical : grid.run.machine().chemicals) {
    // A measuring cup that makes about the label's strength in 5 kg of water, and a good glug.
    grid.new_row();
    text(grid.ui, tr(chemical.title), {.type = kit::Type::caption, .colour = kit::Token::ink2});
    for (const double kg : {0.01, 0.2, 1.0}) {
      grid.act("hand.clean.add_" + chemical.id + "_" + kit::plain_number(1000.0 * kg, 0),
               grid.ui.shown(kit::Quantity::mass, kg), hands::add_chemical(chemical.id, kg));
    }
  }
  if (machine::bucket_kg(state.bucket) > 0.0) {
    text(grid.ui,
         tr("In the bucket: {mass}, {strength} % active.",
            {{"mass", grid.ui.shown(kit::Quantity::mass, machine::bucket_kg(state.bucket))},
             {"strength", kit::plain_number(100.0 * machine::strength_norm(state.bucket), 3)}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "hand.clean.bucket_words"});
  }
}

}  // namespace

void draw_safety_group(HandGrid& grid, bool& alarms_asked) {
  locks(grid);
  energies(grid);
  work(grid);
  watch_and_test(grid, alarms_asked);
  draw_listed(grid, hands::Group::safety);
}

void draw_cleaning_group(HandGrid& grid) {
  wear(grid);
  grid.heading(tr("Floor"));
  draw_listed(grid, hands::Group::cleaning);
  bucket(grid);
}

}  // namespace stirbench::desk::screens
