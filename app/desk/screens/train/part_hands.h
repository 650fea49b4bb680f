#pragma once

#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/run/live_run.h"

// Hands on draw valve and agitator, part by part: what can be done now, in words, from the machine's own
// rules.
namespace stirbench::desk::screens {

struct PartOffer {
  hands::Action action;
  std::string label;  // "Take off: Guard cover"
  std::string how;    // "Press the catch and lift; on again it clicks."
};
std::vector<PartOffer> part_offers(const machine::Machine& machine, const machine::State& state);

// A thing's name: a part's own, or the spare's.
std::string item_title(std::size_t item);

// The list "what can I do here" in the panel at hand.
void draw_parts_group(kit::Ui& ui, const work::LiveRun& run, std::vector<hands::Action>& out);

}  // namespace stirbench::desk::screens
