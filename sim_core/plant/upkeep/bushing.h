#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// One plain bushing: friction, heat, wear. Sources: handbook figures of dry plain bearings (from memory; a
// wear constant is known to a factor of ten).
//
//   sliding speed   v = w d / 2
//   friction        M = mu (F d / 2 + N d / 2), N: what a bore that has closed on the shaft adds
//   heat            C T' = M w - (T - T_around) / R, until the material melts; the rest melts it
//   wear (Archard)  V = k (F + N) s, depth V / (d L)
//   bore            closes by expansion x wall x (T - 20 degC), opens by the play
//
// Dry figures hold without product; from softening_degC on friction and k rise to their hot figures within
// 20 K. In between (wet_norm) mu is blended linearly, k by its logarithm: a drop of product does most of it.
namespace stirbench::plant {

// What the shaft runs in: a bushing of a material, or, where there is none or it has worn through, metal.
enum class Bearing : std::uint8_t { nylon, bronze, metal };

struct BushingMaterial {
  double hot_friction = 1.0;     // hot over dry
  double hot_wear = 1.0;         // hot over dry
  double expansion_per_K = 0.0;  // of the bore's closing, of the wall's thickness
  double stiffness_Pa = 0.0;     // warm: of the wall against being squeezed
  double melting_degC = 0.0;
  double melting_J_per_m3 = 0.0;
};
const BushingMaterial& bushing_material(Bearing bearing);

// How well the fill wets it, 0..1.
double wetting_norm(double fill_L, double dry_below_L, double wet_above_L);

double dry_friction(const BushingSpec& spec, Bearing bearing, double temperature_degC);
double dry_wear_mm3_per_Nm(const BushingSpec& spec, Bearing bearing, double temperature_degC);

// How far the bore has closed on the shaft, squeezing the wall [mm radial]; 0 while there is clearance.
double interference_mm(const BushingSpec& spec, Bearing bearing, const BushingState& bushing);
// The load that this adds [N]: E x interference / wall over the whole face.
double squeeze_N(const BushingSpec& spec, Bearing bearing, const BushingState& bushing);

// Friction torque [N m]. Metal on metal, which also a bushing leaves that has worn through to its wall, rubs
// and wears in product as it does dry: 0.3 and 1e-4 mm3/Nm (from memory).
double friction_torque_Nm(const BushingSpec& spec, Bearing bearing, const BushingState& bushing,
                          double wet_norm);
// Archard's depth per second [mm/s].
double wear_mm_per_s(const BushingSpec& spec, Bearing bearing, const BushingState& bushing, double wet_norm,
                     double shaft_rad_per_s);

// What is around it, and what its fit adds.
struct BushingDuty {
  Bearing bearing = Bearing::bronze;
  double wet_norm = 0.0;
  double bath_degC = 22.0;  // product
  double dry_degC = 22.0;   // where the heat of a dry bushing goes
  double friction_factor = 1.0;
  double wear_factor = 1.0;
  double most_play_mm = 0.0;  // where metal ends it
};
// Heat conductance from the bushing to its surroundings [W/K]: 1500 W/(m2 K) of its face in product (choice),
// 1 / R dry.
double bushing_W_per_K(const BushingSpec& spec, double wet_norm);
// Advances temperature and play. Friction power into the bushing = what it stores + what it gives off + what
// it melts.
void advance_bushing(const BushingSpec& spec, const BushingDuty& duty, BushingState& bushing,
                     double shaft_rad_per_s, double dt_s);

}  // namespace stirbench::plant
