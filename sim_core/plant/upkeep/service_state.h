#pragma once

#include <cstdint>

#include "sim_core/product/product.h"

// What remains in the machine and in the transfer hose, and how the hose was put on. Values only.
namespace stirbench::plant {

enum class HoseRoute : std::uint8_t { straight, kinked, high };

// The transfer hose: how its end was put on, how it is routed, and what it holds on the way to the freezer.
struct HoseLine {
  bool clamped = true;  // the clamp around the joint is closed
  bool gasket = true;   // the joint has its gasket
  HoseRoute route = HoseRoute::straight;
  bool jumped = false;          // it came off the valve and lies on the floor
  product::Product held;        // to the freezer only: a hose that hangs into a pail empties itself
  double held_J = 0.0;          // above 0 degC
  double leak_L_per_min = 0.0;  // past the joint, of the last tick
};

// What clings to the wetted walls of vat and well, and the germs there.
struct Soil {
  product::Product film;     // of what was drained last, with remains of older films
  double set_norm = 0.0;     // share of it that has dried or baked on and needs alkali
  double germs_log10 = 0.0;  // on 100 cm2
  double contact_s = 0.0;    // unbroken time in which the sanitiser met a line of its table
  double swab_vat = -1.0;    // last readings [ug of dry soil on 100 cm2]; below 0: none was taken
  double swab_valve = -1.0;
};

}  // namespace stirbench::plant
