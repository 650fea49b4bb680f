#pragma once

#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/screens/train/fault_hands.h"
#include "app/desk/work/run/live_run.h"
#include "app/library/library.h"

// The things at hand beside the machine: a plain list of everything that can also be done in the picture, the
// scale with its ingredients, the spoon and the thermometer.
namespace stirbench::desk::screens {

enum class HandGroup : unsigned char { machine, safety, cleaning, parts, faults, point };

// What the panel remembers between frames; nothing of it changes the machine.
struct AtHandState {
  HandGroup group = HandGroup::machine;
  FaultHandsState fault;
  bool scale_open = false;
  std::string ingredient;  // on the scale
  double kg = 0.0;
  double degC = 5.0;
  double sample_degC = 0.0;  // last spoonful
  std::string sample_words;
  bool sample_taken = false;
  const std::vector<library::BodyPart>* pointable =
      nullptr;  // the lesson asks for parts: these; null: it does not
  std::string point_query;
  std::string point_part;     // chosen in that list, or in the picture
  bool alarms_asked = false;  // the alarms' sheet was asked for in this frame
};

// Draws the panel and returns what hands do. Refusals are shown by the caller.
std::vector<hands::Action> draw_at_hand(kit::Ui& ui, AtHandState& state, const work::LiveRun& run,
                                        const kit::Rect& rect);

// What the chosen recipe asks of an ingredient in all, less what was already poured [kg]; 0 when none or
// enough.
double still_asked_kg(const work::LiveRun& run, const std::string& ingredient);

// How a spoonful looks and tastes, from the state alone.
std::string spoon_words(const machine::State& state);

}  // namespace stirbench::desk::screens
