#pragma once

#include "sim_core/plant/zones.h"

// Evaporation from the free surface, heat through the head space, boiling.
namespace stirbench::plant {

// Shah 2012-2014 (form and C from memory), evaporation from still water into quiet air [kg/(m2 h)]: the
// larger of
//   35 rho_w (d_r - d_w)^(1/3) (W_w - W_r) and 5e-5 (p_w - p_r) with p in Pa;
// of the room's air (r) and the saturated air at the water (w): W humidity ratio, d and rho_w the mass of dry
// air in a cubic metre of moist air. Data of 7..94 degC water, mean deviation 18 % (Shah 2002, HVAC&R
// Research 8:125). Negative where the room is more humid than the air at the water: 5e-5 (p_w - p_r), dew on
// cold product.
double shah_kg_per_m2h(double water_degC, double room_degC, double room_vapour_Pa);

// Humidity ratio of moist air at 1 atm [kg/kg dry]: 0.62198 p / (P - p) (ASHRAE Fundamentals,
// psychrometrics).
double humidity_ratio(double vapour_Pa);
// Temperature at which air of this vapour pressure is saturated [degC], -40..99; Newton on the saturation
// pressure.
double dew_point_degC(double vapour_Pa);

// Dew on a wall that is colder than the room's dew point [kg/(m2 s)]: h / (cp Le^(2/3)) (W_room - W_wall), cp
// 1006 J/(kg K), Le^(2/3) 0.9 (Lewis analogy); negative when it would dry.
double dew_kg_per_m2s(double air_W_per_m2K, double wall_degC, double room_vapour_Pa);

// Rate of change of the condensate under the lid [kg/s]: it hangs there up to 60 g/m2 (common drop sizes;
// choice), more drips back at once. With the lid open, or with less vapour than at equilibrium, it runs back
// within a minute.
double lid_water_kg_per_s(const PlantState& state, double drip_kg_per_s);

// Boiling point of the product at 1 atm [degC]: 100 + 0.2753 x freezing-point depression (ratio of the
// ebullioscopic and cryoscopic constants of water, 0.512 / 1.860).
double boiling_point_degC(double freezing_point_degC);

// Surface coefficients: evaporation_kg_per_s, surface_W_per_K (to the lid when closed, condensation on it
// included; to the room when open), lid_room_W_per_K, vapour_J_per_kg.
void refresh_surface(const MachineSpec& spec, PlantState& state);

// Water that leaves the surface during dt, condensate to and from the lid, dew outside.
void evaporate(const MachineSpec& spec, PlantState& state, const Zones& z, double dt_s);

// Heat above the boiling point flashes off within 0.3 s. Vapour from the well rises through the vat, where
// some condenses while the vat is below the boiling point (30 % escapes at 20 K or more below it, all of it
// at the boiling point); the vapour that passes makes foam.
void boil(PlantState& state, double dt_s);

}  // namespace stirbench::plant
