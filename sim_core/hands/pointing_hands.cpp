#include "sim_core/hands/handles.h"

// What somebody was asked to find on the machine.
namespace stirbench::hands {

namespace {

constexpr Text body_part{"body_part", Catalogue::body_part, "the part, as content/bodies names it"};

double counted(const State&, const Action&) { return 1.0; }  // what a lesson's total adds up

}  // namespace

constinit const HandOf<Text> point_out{
    {
        .name = "point_out",
        .meaning = "Point at a part of the machine: this is the one that was asked for. It changes nothing.",
        .value = counted,
    },
    body_part};

HandList pointing_hands() {
  static constexpr const Hand* list[] = {&point_out};
  return list;
}

}  // namespace stirbench::hands
