"""What the machine's file tells of drive, pump, elements and chiller, worked out at rest."""

import math

import numpy as np
from scipy.optimize import brentq

from properties import (KELVIN, PROPANE_GAS_CP, PROPANE_POLYTROPE, propane_bar, propane_evaporation_J_per_kg,
                        propane_liquid_J_per_kg, propane_vapour_density)

# 5 .. 10 in pull-down, 3 .. 8 near 4 degC (handbook range, from memory); the file tells none.
SUBCOOLING_K = 6.5


def elements_W(machine, dead):
    """Power with so many elements open. Each lies across two lines (supply and rated voltage are equal in
    content/circuits: delta), so that the others do not notice: P = V^2 / R."""
    each = machine.elements.rated_W_each * (machine.supply_V / machine.elements.rated_V) ** 2
    return (machine.elements.count - dead) * each


def pump_L_per_s(machine, mix, t, rps, share):
    """Displacement less the slip, against a loop whose loss goes with the square of the flow
    (turbulent)."""
    pump = machine.pump
    turned = pump.displacement_L_per_rev * rps * 60.0 * share
    rated = pump.displacement_L_per_rev * machine.drive.rated_rpm / machine.drive.gear_ratio
    mu = 1e3 * mix.viscosity(t, machine.agitator.shear_ks * max(rps, 0.1))
    a = pump.slip_L_per_min_per_bar / mu * pump.circulation_loss_bar_at_rated / rated ** 2
    flow = (math.sqrt(1.0 + 4.0 * a * turned) - 1.0) / (2.0 * a) if turned > 0.0 else 0.0
    return flow / 60.0, pump.circulation_loss_bar_at_rated * (flow / rated) ** 2


class Shaft:
    """Speed, torque and powers of drive and agitator at one temperature of the mix."""

    def __init__(self, machine, mix, t, fill_L, grip, pump_share):
        self.machine, self.mix, self.t = machine, mix, t
        self.grip, self.pump_share = grip, pump_share
        self.covered = min(1.0, fill_L / machine.agitator.covered_L)
        drive = machine.drive
        top = drive.synchronous_rpm / drive.gear_ratio / 60.0
        self.rps = brentq(lambda n: self._motor_Nm(n) - self._load(n)[0], 0.75 * top, top)
        self.torque_Nm, self.stirring_W, self.pumping_W = self._load(self.rps)
        shaft = self.torque_Nm * 2.0 * math.pi * self.rps
        # Losses at rated load: half iron and friction, half copper (a choice; the file tells the sum).
        lost = drive.rated_W * (1.0 / drive.efficiency_norm - 1.0)
        load = shaft / drive.rated_W
        idle = (drive.idle_A / drive.rated_A) ** 2
        copper = idle + (1.0 - idle) * load ** 2
        self.electric_W = shaft + 0.5 * lost * (1.0 + copper)

    def _motor_Nm(self, rps):
        """Kloss: M = 2 Mk / (s/sk + sk/s), at the agitator's shaft, before the gear's loss."""
        drive = self.machine.drive
        rated_slip = 1.0 - drive.rated_rpm / drive.synchronous_rpm
        ratio = drive.breakdown_ratio
        peak_slip = rated_slip * (ratio + math.sqrt(ratio ** 2 - 1.0))
        rated_Nm = drive.rated_W / (2.0 * math.pi * drive.rated_rpm / 60.0)
        slip = max(1.0 - rps * 60.0 * drive.gear_ratio / drive.synchronous_rpm, 1e-9)
        return 2.0 * ratio * rated_Nm / (slip / peak_slip + peak_slip / slip) * drive.gear_ratio

    def _load(self, rps):
        """Torque that the motor must give at the agitator's shaft, and the powers in vat and well. Power
        number Kp / Re + Np with the file's constants (Metzner & Otto 1957 for the shear rate)."""
        agitator = self.machine.agitator
        stirs = rps * self.grip
        mu = self.mix.viscosity(self.t, agitator.shear_ks * max(stirs, 0.01))
        rho = self.mix.density(self.t)
        stirring = agitator.laminar_power_Kp * mu * stirs ** 2 * agitator.diameter_m ** 3
        stirring += agitator.turbulent_power_Np * rho * stirs ** 3 * agitator.diameter_m ** 5
        stirring *= self.covered
        _, bar = pump_L_per_s(self.machine, self.mix, self.t, rps, self.pump_share)
        pumping = bar * 1e5 * self.machine.pump.displacement_L_per_rev * 1e-3 * rps * self.pump_share
        rubbing = sum(b.friction_wet * b.load_N * b.diameter_m / 2.0 for b in
                      (self.machine.agitator_bushing, self.machine.shaft_end_bushing))
        omega = 2.0 * math.pi * rps
        stirring += rubbing * omega
        return (stirring + pumping) / omega / self.machine.drive.gear_efficiency_norm, stirring, pumping


class Chiller:
    """Heat taken from the evaporator's metal and power of the compressor against the metal's temperature,
    at one room temperature: simple vapour-compression cycle of propane, all pressures at rest."""

    def __init__(self, machine, room):
        self.file, self.room = machine.chiller, room
        self.superheat = self.file.valve_static_superheat_K + 0.5 * self.file.valve_gradient_K  # half open
        self.metal = np.linspace(-25.0, 100.0, 126)
        rows = np.array([self._balance(t) for t in self.metal])
        self.heat_W, self.power_W, self.evaporating, self.condensing = rows.T

    def at(self, metal):
        return tuple(float(np.interp(metal, self.metal, row)) for row in (
            self.heat_W, self.power_W, self.evaporating, self.condensing))

    def cycle(self, evaporating, condensing, suction):
        """Heat and power: volumetric efficiency 1 + c - c r^(1/1.13), overall isentropic efficiency with
        the file's falloff."""
        low, high = propane_bar(evaporating), propane_bar(condensing)
        ratio = max(high / low, 1.05)
        density = propane_vapour_density(evaporating) * (evaporating + KELVIN) / (suction + KELVIN)
        volumetric = 1.0 + self.file.clearance_norm * (1.0 - ratio ** (1.0 / 1.13))
        flow = volumetric * self.file.swept_m3_per_h / 3600.0 * density
        liquid = propane_liquid_J_per_kg(condensing - SUBCOOLING_K) - propane_liquid_J_per_kg(evaporating)
        gas = propane_evaporation_J_per_kg(evaporating) + PROPANE_GAS_CP * (suction - evaporating)
        heat = flow * (gas - liquid)
        k = (PROPANE_POLYTROPE - 1.0) / PROPANE_POLYTROPE
        isentropic = low * 1e5 / density / k * (ratio ** k - 1.0)
        falloff = self.file.isentropic_falloff_norm * math.log(ratio / 3.0) ** 2
        efficiency = self.file.isentropic_norm * (1.0 - falloff)
        return heat, flow * isentropic / max(efficiency, 0.1)

    def _condensed(self, evaporating, suction):
        """The condensing temperature at which the condenser gives off heat and power together."""
        def surplus(condensing):
            heat, power = self.cycle(evaporating, condensing, suction)
            return heat + power - self.file.condenser_W_per_K * (condensing - self.room)
        condensing = brentq(surplus, max(self.room, evaporating) + 0.01, 95.0)
        return self.cycle(evaporating, condensing, suction) + (condensing,)

    def _balance(self, metal):
        """The evaporator gives UA (metal - evaporating), which the compressor takes; above the valve's
        maximum operating pressure the valve starves it: the gas comes as warm as the metal, at most at the
        suction limit."""
        def surplus(evaporating):
            return (self._condensed(evaporating, evaporating + self.superheat)[0] -
                    self.file.evaporator_W_per_K * (metal - evaporating))
        top = self.file.maximum_evaporating_degC
        if surplus(top) < 0.0:
            suction = max(top + self.superheat, min(metal, self.file.suction_limit_degC))
            heat, power, condensing = self._condensed(top, suction)
            return heat, power, top, condensing
        evaporating = brentq(surplus, max(metal - 30.0, -45.0), metal)
        heat, power, condensing = self._condensed(evaporating, evaporating + self.superheat)
        return heat, power, evaporating, condensing
