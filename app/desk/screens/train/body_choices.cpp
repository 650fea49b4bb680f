#include "app/desk/screens/train/body_choices.h"

#include "app/desk/kit/text/text.h"
#include "app/desk/screens/train/hand_grid.h"
#include "app/desk/screens/train/part_hands.h"
#include "sim_core/bench/freezer_hands.h"
#include "sim_core/bench/step.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

using K = bench::ActionKind;

struct Offers {
  const std::string& part;
  const work::LiveRun& run;
  std::vector<views::PartChoice> out{};

  // Only what can be done now.
  void add(K kind, const std::string& label, bool on = false, const std::string& name = "", const std::string& key = "", double number = 0.0) {
    bench::Action action = hand(kind, on);
    action.name = name;
    action.number = number;
    if (!bench::why_not(run.machine(), run.state(), action).empty()) return;
    out.push_back({part, label, tr(std::string(bench::action_entry(kind).meaning)), action, key});
  }
};

void hose(Offers& offers) {
  const plant::PlantState& plant = offers.run.state().plant;
  const plant::HoseLine& line = plant.line;
  offers.add(K::hose_gasket, line.gasket ? tr("Gasket out") : tr("Gasket in"), !line.gasket);
  if (plant.fittings.hose == plant::HoseEnd::none) {
    offers.add(K::push_hose_on, tr("Push on: pail"), false, "pail", "push_pail");
    offers.add(K::push_hose_on, tr("Push on: freezer"), false, "freezer", "push_freezer");
    return;
  }
  offers.add(K::clamp_hose, line.clamped ? tr("Clamp open") : tr("Clamp shut"), !line.clamped);
  offers.add(K::drain_hose, tr("Drain hose"));
  offers.add(K::route_hose, tr("Lay straight"), false, "straight", "route_straight");
  offers.add(K::route_hose, tr("Lift high"), false, "high", "route_high");
  offers.add(K::route_hose, tr("Bend sharply"), false, "kinked", "route_kinked");
  offers.add(K::remove_hose, tr("Hose off"));
}

void freezer(Offers& offers) {
  const plant::FreezerState& f = offers.run.state().plant.freezer;
  if (offers.part == "freezer_door") {
    offers.add(K::freezer_lid, f.lid_open ? tr("Shut its lid") : tr("Open its lid"), !f.lid_open);
    offers.add(K::freezer_water, tr("Rinse, 2 kg"), false, "", "", 2.0);
  } else if (offers.part == "freezer_drain" || offers.part == "freezer_drain_lever") {
    offers.add(K::freezer_drain, f.drain_open ? tr("Shut drain") : tr("Open drain"), !f.drain_open);
  } else if (offers.part == "freezer_cabinet" || offers.part == "freezer_back") {
    offers.add(K::freezer_start, tr("Start freezer"));
    offers.add(K::freezer_stop, tr("Stop freezer"));
    offers.add(K::reset_freezer, tr("Reset dasher"));
    offers.add(K::freezer_setting, tr("Set: freeze"), false, "freeze", "set_freeze");
    offers.add(K::freezer_setting, tr("Set: dasher"), false, "dasher", "set_dasher");
    offers.add(K::freezer_setting, tr("Set: keep"), false, "keep", "set_keep");
  }
}

}  // namespace

std::vector<views::PartChoice> body_choices(const std::string& part, const work::LiveRun& run) {
  Offers offers{part, run};
  if (part == "hose_freezer" || part == "hose_pail" || part == "hose_clamp" || part == "valve_body") hose(offers);
  if (part.rfind("freezer_", 0) == 0) freezer(offers);
  if (plant::find_part(part) < 0) return std::move(offers.out);
  for (PartOffer& offer : part_offers(run.machine(), run.state())) {
    if (offer.action.name == part) offers.out.push_back({part, std::move(offer.label), std::move(offer.how), std::move(offer.action)});
  }
  offers.add(K::unscrew, tr("Turn anticlockwise"), false, part, "turn_left");
  offers.add(K::unscrew, tr("Turn clockwise"), true, part, "turn_right");
  offers.add(K::feel_gap, tr("Feeler gauge"), false, part);
  return std::move(offers.out);
}

}  // namespace stirbench::desk::screens
