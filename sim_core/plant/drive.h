#pragma once

#include "sim_core/plant/zones.h"

// Motor, gear, shaft, overload relay.
namespace stirbench::plant {

// Kloss without stator resistance: M = 2 Mk / (s/sk + sk/s), sk = sn (l + sqrt(l^2 - 1)), l = Mk/Mn; torque
// goes with the square of the voltage. Torque at the motor shaft [N m].
double kloss_torque_Nm(const DriveSpec& spec, double motor_rpm, double supply_norm);
double rated_torque_Nm(const DriveSpec& spec);

// Line current [A]: idle (magnetising) current and, at right angles, a load current proportional to s /
// sqrt(s^2 + sk^2) that gives the rated current at rated slip; both are proportional to the voltage. About 4
// x rated at standstill. Engineering choice of form (a circle diagram without stator losses).
double motor_current_A(const DriveSpec& spec, double motor_rpm, double supply_norm);
// Electrical power [W]: air-gap power M ws plus constant losses that give the rated efficiency.
double motor_power_W(const DriveSpec& spec, double motor_torque_Nm, double supply_norm);

// The same motor at another frequency, relative to the rated one: the synchronous speed follows it; the
// torque at a given slip speed stays the same while V / f does. Use supply_norm / frequency_norm for
// `supply_norm` above.
DriveSpec at_frequency(const DriveSpec& spec, double frequency_norm);

double rated_agitator_rad_per_s(const DriveSpec& spec);

// Power of a covered agitator [W], Np = Kp / Re + Np_turbulent: P = Kp mu n^2 D^3 + Np rho n^3 D^5; n in 1/s,
// mu at Metzner-Otto's shear.
struct AgitatorPower {
  double viscous_W = 0.0;
  double inertial_W = 0.0;
};
AgitatorPower agitator_power_W(const AgitatorSpec& spec, double viscosity_Pa_s, double density_kg_per_m3,
                               double turns_per_s);

// Overload relay: theta' = ((I / I_set)^2 - theta) / tau, trips at theta = 1.125^2 (IEC 60947-4-1 trip
// classes are met with tau 150, 300, 650 s for 10A, 10, 20; physics reference section 7). `heat_norm` = theta
// / 1.125^2: trips at 1.
double overload_heat_norm(double heat_norm, double current_per_setting, double tau_s, double dt_s);

// Winding temperature of the motor [degC]: first order with winding_tau_s towards room + winding_rise_K
// (I / rated)^2. The rise at rated current is that of class F insulation used to class B, 80 K (IEC 60034-1,
// from memory); the time constant of a small closed motor, 20 min, three times as long at rest when its own
// fan stands (choice).
inline constexpr double winding_rise_K = 80.0;
inline constexpr double winding_tau_s = 1200.0;
double winding_degC(double winding_degC, double room_degC, double current_per_rated, bool turns, double dt_s);

// Where the shaft's work becomes heat: the agitator stirs the vat; pump and bushings are in the well.
struct DriveHeat {
  double vat_W = 0.0;
  double well_W = 0.0;
};
// For a shaft at steady speed: flows and heat stay as they are, only the overload relay advances.
DriveHeat advance_steady_shaft(const MachineSpec& spec, PlantState& state, double dt_s);

// Advances shaft (implicit, with its inertia; the brake stops it when power is off) and overload relay.
// `friction_torque_Nm`: of bushings and dry vanes; its work ends in the well.
DriveHeat turn_shaft(const MachineSpec& spec, PlantState& state, const Actuators& relays,
                     double friction_torque_Nm, double dt_s);

}  // namespace stirbench::plant
