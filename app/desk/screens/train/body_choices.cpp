#include "app/desk/screens/train/body_choices.h"

#include "app/desk/kit/text/text.h"
#include "app/desk/screens/train/hand_grid.h"
#include "app/desk/screens/train/part_hands.h"
#include "sim_core/bench/step.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

struct Offers {
  const std::string& part;
  const work::LiveRun& run;
  std::vector<views::PartChoice> out{};

  // Only what can be done now.
  void add(const std::string& label, const hands::Action& action, const std::string& key = "") {
    if (!hands::why_not(run.machine(), run.state(), action).empty()) return;
    out.push_back({part, label, tr(std::string(action.hand()->meaning)), action, key});
  }
};

void hose(Offers& offers) {
  const plant::PlantState& plant = offers.run.state().plant;
  const plant::HoseLine& line = plant.line;
  offers.add(line.gasket ? tr("Gasket out") : tr("Gasket in"), hands::hose_gasket(!line.gasket));
  if (plant.fittings.hose == plant::HoseEnd::none) {
    offers.add(tr("Onto the pail"), hands::push_hose_on("pail"), "push_pail");
    offers.add(tr("Onto freezer"), hands::push_hose_on("freezer"), "push_freezer");
    return;
  }
  offers.add(line.clamped ? tr("Clamp open") : tr("Clamp shut"), hands::clamp_hose(!line.clamped));
  offers.add(tr("Drain hose"), hands::drain_hose());
  offers.add(tr("Lay straight"), hands::route_hose("straight"), "route_straight");
  offers.add(tr("Lift high"), hands::route_hose("high"), "route_high");
  offers.add(tr("Bend sharply"), hands::route_hose("kinked"), "route_kinked");
  offers.add(tr("Hose off"), hands::remove_hose());
}

void freezer(Offers& offers) {
  const plant::FreezerState& f = offers.run.state().plant.freezer;
  if (offers.part == "freezer_door") {
    offers.add(f.lid_open ? tr("Shut its lid") : tr("Open its lid"), hands::freezer_lid(!f.lid_open));
    offers.add(tr("Rinse, 2 kg"), hands::freezer_water(2.0));
  } else if (offers.part == "freezer_drain" || offers.part == "freezer_drain_lever") {
    offers.add(f.drain_open ? tr("Shut drain") : tr("Open drain"), hands::freezer_drain(!f.drain_open));
  } else if (offers.part == "freezer_cabinet" || offers.part == "freezer_back") {
    offers.add(tr("Start freezer"), hands::freezer_start());
    offers.add(tr("Stop freezer"), hands::freezer_stop());
    offers.add(tr("Reset dasher"), hands::reset_freezer());
    offers.add(tr("Set: freeze"), hands::freezer_setting("freeze"), "set_freeze");
    offers.add(tr("Set: dasher"), hands::freezer_setting("dasher"), "set_dasher");
    offers.add(tr("Set: keep"), hands::freezer_setting("keep"), "set_keep");
  }
}

}  // namespace

std::vector<views::PartChoice> body_choices(const std::string& part, const work::LiveRun& run) {
  Offers offers{part, run};
  if (part == "hose_freezer" || part == "hose_pail" || part == "hose_clamp" || part == "valve_body")
    hose(offers);
  if (part.rfind("freezer_", 0) == 0) freezer(offers);
  if (plant::find_part(part) < 0) return std::move(offers.out);
  for (PartOffer& offer : part_offers(run.machine(), run.state())) {
    if (first_text(offer.action) == part)
      offers.out.push_back({part, std::move(offer.label), std::move(offer.how), std::move(offer.action)});
  }
  offers.add(tr("Turn anticlockwise"), hands::unscrew(part, false), "turn_left");
  offers.add(tr("Turn clockwise"), hands::unscrew(part, true), "turn_right");
  offers.add(tr("Feeler gauge"), hands::feel_gap(part));
  return std::move(offers.out);
}

}  // namespace stirbench::desk::screens
