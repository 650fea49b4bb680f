#include "app/desk/screens/train/part_hands.h"

#include "app/desk/kit/text/text.h"
#include "app/desk/screens/train/hand_grid.h"
#include "sim_core/hands/part_hands.h"
#include "sim_core/plant/upkeep/assembly_effects.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

using plant::PartId;

std::string spare_title(std::size_t item) {
  switch (static_cast<plant::Spare>(item - plant::part_count)) {
    case plant::Spare::oring_front: return tr("New front O-ring");
    case plant::Spare::oring_rear: return tr("New rear O-ring");
    case plant::Spare::agitator_bushing: return tr("New agitator bushing");
    case plant::Spare::agitator_bushing_other: return tr("Other agitator bushing");
    case plant::Spare::shaft_end_bushing: return tr("New shaft-end bushing");
    case plant::Spare::count: break;
  }
  return {};
}

std::string label_of(const hands::Action& action) {
  const std::string& name = first_text(action);
  const auto part = [&name] { return tr(plant::part_title(static_cast<PartId>(plant::find_part(name)))); };
  if (action.is(hands::take_part_off)) return tr("Take off: {part}", {{"part", part()}});
  if (action.is(hands::put_part_on)) return tr("Put it in: {part}", {{"part", part()}});
  if (action.is(hands::pick_up))
    return tr("Pick up: {thing}", {{"thing", item_title(static_cast<std::size_t>(plant::find_item(name)))}});
  if (action.is(hands::lay_down)) return tr("Lay it down");
  return action.is(hands::grease) ? tr("Lubricate it") : tr("Look over the parts");
}

}  // namespace

std::string item_title(std::size_t item) {
  return item < plant::part_count ? tr(plant::part_title(static_cast<PartId>(item))) : spare_title(item);
}

std::vector<PartOffer> part_offers(const machine::Machine& machine, const machine::State& state) {
  std::vector<PartOffer> out;
  for (const hands::Action& action : hands::possible_part_work(machine, state)) {
    PartOffer offer{action, label_of(action), ""};
    const int place = plant::find_part(first_text(action));
    if (place >= 0 && action.is(hands::take_part_off))
      offer.how = tr(hands::how_off(machine.plant.assembly.rules[static_cast<std::size_t>(place)]));
    if (place >= 0 && action.is(hands::put_part_on))
      offer.how = tr(hands::how_on(machine.plant.assembly.rules[static_cast<std::size_t>(place)]));
    out.push_back(std::move(offer));
  }
  return out;
}

void draw_parts_group(kit::Ui& ui, const work::LiveRun& run, std::vector<hands::Action>& out) {
  const plant::AssemblyState& assembly = run.state().plant.assembly;
  const std::string held =
      assembly.hand >= 0
          ? tr("In your hand: {thing}.", {{"thing", item_title(static_cast<std::size_t>(assembly.hand))}})
          : tr("Your hands are empty.");
  text(ui, held, {.id = "hand.parts.held"});
  gap(ui, 4.0F);
  for (const PartOffer& offer : part_offers(run.machine(), run.state())) {
    const std::string id = "hand.parts." + std::string(offer.action.hand()->name) +
                           (first_text(offer.action).empty() ? "" : "." + first_text(offer.action));
    if (button(ui, id, offer.label, {.hint = offer.how, .place = {.w = -1.0F}, .align = kit::Align::left}))
      out.push_back(offer.action);
  }
  const double noise = plant::noise_dB(run.machine().plant, run.state().plant);
  if (noise > 0.0)
    text(ui,
         tr("You hear {level} dB(A); the clamp meter shows {current} A.",
            {{"level", kit::plain_number(noise, 0)},
             {"current", kit::plain_number(run.state().plant.flows.motor_A, 2)}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "hand.parts.noise"});
  if (!run.state().plant.fittings.lid_open)
    text(ui, tr("Open the lid to reach the agitator."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "hand.parts.lid"});
  text(ui, tr("Isolate and lock before you reach in. Old parts stay on the tray until you put them back."),
       {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "hand.parts.caution"});
}

}  // namespace stirbench::desk::screens
