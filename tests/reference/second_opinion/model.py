"""The whole machine as ordinary differential equations, run by scipy's LSODA between switchings.

State: product in vat and well, walls of vat and well, elements, lid, evaporator, probe and its pocket (degC), solid
share of the milk fat, share of the gum that has hydrated, kg evaporated, and the energies (J) that elements and
shaft gave, the chiller took and the room got. Each flux is written once, in Balance.
"""

import math

import numpy as np
from scipy.integrate import solve_ivp

import drives
import transfer
from properties import (FAT_FUSION_J_PER_KG, evaporation_J_per_kg, hydration_rate, solid_fat,
                        solid_fat_rate)

(VAT, WELL, VAT_WALL, WELL_WALL, ELEMENT, LID, EVAPORATOR, PROBE, SOLID_FAT, HYDRATED, VAPOUR, HEATED, WORKED,
 CHILLED, LOST, POCKET) = range(16)
BOILING_DEGC = 100.0  # the mix boils at most 0.6 K higher


def probe_lags_s(machine):
    """Of the pocket's wall, and of the element behind it: two lags in series."""
    share, whole_s = machine.probe.pocket_share_norm, machine.probe.tau_s
    return share * whole_s, (1.0 - share) * whole_s


class Model:
    """One run: the machine, its mix and room, and what is switched on. A run's actions change lid_open and,
    by press(), the key's demand with its target."""

    def __init__(self, machine, mix, kg, degC, room, humidity, dead_elements=0, grip=1.0, pump_share=1.0):
        self.machine, self.mix, self.kg = machine, mix, kg
        self.room, self.humidity = room, humidity
        self.grip, self.pump_share = grip, pump_share
        self.heaters_W = drives.elements_W(machine, dead_elements)
        self.chiller = drives.Chiller(machine, room)
        self.lid_open, self.stirring, self.mode, self.target_degC = True, False, "off", 0.0
        self.power_on, self.cut_out, self.chiller_rests_until = False, False, 0.0
        self.area = math.pi / 4.0 * machine.vat.diameter_m ** 2
        self.fill_L = 1e3 * kg / mix.density(degC)
        self.y = np.full(16, float(room))
        self.y[[VAT, WELL]] = degC
        self.y[[PROBE, POCKET]] = room
        self.y[SOLID_FAT] = solid_fat(degC)
        self.y[[HYDRATED, VAPOUR, HEATED, WORKED, CHILLED, LOST]] = 0.0
        # Enthalpy of 1 kg of the mix, without its fat's melting.
        self.enthalpy_degC = np.linspace(-5.0, 120.0, 251)
        cp = [mix.cp(t) for t in self.enthalpy_degC]
        self.enthalpy = np.concatenate(([0.0], np.cumsum(0.25 * (np.array(cp[1:]) + cp[:-1]))))
        self.stored_at_start_J = self.stored_J()
        self._shafts()

    def _shafts(self):
        """Shaft's speed and powers over the temperature, worked out once."""
        self.shaft_degC = np.linspace(0.0, 100.0, 11)
        self.shafts = [drives.Shaft(self.machine, self.mix, t, self.fill_L, self.grip, self.pump_share)
                       for t in self.shaft_degC]
        self.shaft_rows = {name: [getattr(s, name) for s in self.shafts] for name in (
            "rps", "torque_Nm", "stirring_W", "pumping_W", "electric_W")}
        self.shaft_rows["circulation_L_per_min"] = [60.0 * drives.pump_L_per_s(
            self.machine, self.mix, s.t, s.rps, self.pump_share)[0] for s in self.shafts]

    def shaft(self, name, t):
        return float(np.interp(t, self.shaft_degC, self.shaft_rows[name])) if self.stirring else 0.0

    def enthalpy_of(self, t):
        return float(np.interp(t, self.enthalpy_degC, self.enthalpy))

    def well_kg(self, y):
        return min(self.machine.well.volume_L * 1e-3 * self.mix.density(y[WELL]), 0.9 * (self.kg - y[VAPOUR]))

    def stored_J(self):
        """What product and metal hold, from the state alone."""
        y, file = self.y, self.machine
        left, well_kg = self.kg - y[VAPOUR], self.well_kg(self.y)
        metal = (file.vat.wall_mass_kg * file.vat.wall_cp_J_per_kgK * y[VAT_WALL] +
                 file.well.wall_mass_kg * file.well.wall_cp_J_per_kgK * y[WELL_WALL] +
                 file.elements.mass_kg * file.elements.cp_J_per_kgK * y[ELEMENT] +
                 file.vat.lid_mass_kg * file.vat.lid_cp_J_per_kgK * y[LID] +
                 file.chiller.evaporator_mass_kg * file.chiller.evaporator_cp_J_per_kgK * y[EVAPORATOR])
        return (metal + (left - well_kg) * self.enthalpy_of(y[VAT]) + well_kg * self.enthalpy_of(y[WELL]) -
                left * self.mix.milk_fat * FAT_FUSION_J_PER_KG * y[SOLID_FAT])

    def unexplained_J(self):
        """Change of what is stored, less what came and went: 0 when each flux is booked on both sides."""
        y = self.y
        return self.stored_J() - self.stored_at_start_J - (y[HEATED] + y[WORKED] - y[CHILLED] - y[LOST])

    def moved_J(self):
        """Energies that passed: what the unexplained part is measured by."""
        y = self.y
        return y[HEATED] + y[WORKED] + y[CHILLED] + y[LOST]

    def wetted_share(self):
        """Of the vat's wall: the level's share of the level at working volume (a cylinder on the well)."""
        well = self.machine.well.volume_L
        return min(1.0, max(0.05, (self.fill_L - well) / (self.machine.vat.working_L - well)))

    def press(self, key, target_degC):
        """The keys heat and chill: a demand with its target; the agitator turns."""
        self.mode, self.target_degC, self.stirring, self.power_on = key, target_degC, True, False

    def ahead(self, y, lead_s):
        """What the thermostats look at: the probe, and as far ahead as it would go at the slope that it
        has."""
        return y[PROBE] + lead_s * (y[POCKET] - y[PROBE]) / probe_lags_s(self.machine)[1]

    def duty(self, y):
        """Share of the time that the elements are on while the thermostat calls: 1, or less where what it looks
        at is near the target and the controller tapers (a mean over its short cycle)."""
        control = self.machine.control
        taper = control.get("heat_taper_K", 0.0)
        least = control.get("heat_least_norm", 1.0)
        if taper <= 0.0:
            return 1.0
        short_K = self.target_degC - self.ahead(y, control.heat_lead_s)
        return least + (1.0 - least) * min(max(short_K / taper, 0.0), 1.0)

    def switching(self):
        """The function of (t, y) that crosses zero upwards when the power must change, or None."""
        control = self.machine.control
        target, heat, chill = self.target_degC, control.heat_hysteresis_K, control.chill_hysteresis_K
        if self.mode == "heat" and not self.cut_out:
            if self.power_on:
                return lambda t, y: max(self.ahead(y, control.heat_lead_s) - target - heat,
                                        y[WELL_WALL] - self.machine.elements.cutout_degC)
            return lambda t, y: target - self.ahead(y, control.heat_lead_s)
        if self.mode == "chill":
            if self.power_on:
                return lambda t, y: target - chill - self.ahead(y, control.chill_lead_s)
            return lambda t, y: min(self.ahead(y, control.chill_lead_s) - target,
                                    t - self.chiller_rests_until)
        return None

    def switch(self, t):
        """What happens at that crossing."""
        if self.mode == "heat" and self.y[WELL_WALL] >= self.machine.elements.cutout_degC - 0.01:
            self.cut_out = True
        if self.mode == "chill" and self.power_on:
            self.chiller_rests_until = t + self.machine.chiller.minimum_off_s
        self.power_on = not self.power_on

    def run_to(self, t, end, rows):
        """Integrates from t to end; appends (t, y, what is on, W of the elements, stirring) of the accepted
        steps to rows."""
        while t < end - 1e-9:
            crossing = self.switching()
            if crossing is not None and crossing(t, self.y) >= 0.0:
                self.switch(t)
                continue
            events = []
            if crossing is not None:
                crossing.__dict__.update(terminal=True, direction=1.0)
                events.append(crossing)
            done = solve_ivp(self.rates, (t, end), self.y, method="LSODA", events=events, rtol=1e-5,
                             atol=1e-5, max_step=30.0)
            if not done.success:
                raise RuntimeError(f"the integrator stopped at {done.t[-1]:.1f} s: {done.message}")
            on = self.mode if self.power_on else "off"
            heats = self.heaters_W if on == "heat" and self.stirring else 0.0
            rows.extend((t_k, y_k.copy(), on, heats * self.duty(y_k), self.stirring)
                        for t_k, y_k in zip(done.t, done.y.T))
            t, self.y = float(done.t[-1]), done.y[:, -1].copy()
            if done.status == 1:
                self.switch(t)
                # Over the crossing, so that it is not found again.
                t = min(end, t + 0.1)

    def rates(self, t, y):
        return Balance(self, y).rates()


class Balance:
    """All fluxes at one moment, W and kg/s, and the rates that they make."""

    def __init__(self, model, y):
        self.model, self.y = model, y
        self.rps = model.shaft("rps", y[VAT])
        machine, mix = model.machine, model.mix
        shear = machine.agitator.shear_ks * max(self.rps * model.grip, 0.1)
        heats = model.mode == "heat" and model.power_on and model.stirring
        self.heat_W = model.heaters_W * model.duty(y) if heats else 0.0
        self.chill_W = model.chiller.at(y[EVAPORATOR])[0] if model.mode == "chill" and model.power_on else 0.0
        self.vat_wall_W = self._vat_film(machine, mix, shear) * (y[VAT_WALL] - y[VAT])
        self.well_wall_W = self._well_heat(machine, mix, shear)
        self.element_W = machine.elements.contact_W_per_K * (y[ELEMENT] - y[WELL_WALL])
        self.flow_L_per_s = self._exchange(machine, mix)
        self.exchange_W = self.flow_L_per_s * 1e-3 * mix.density(y[VAT]) * mix.cp(y[VAT]) * (y[WELL] - y[VAT])
        plates = machine.chiller.wall_W_per_K
        on_well = machine.well.evaporator_share_norm
        self.vat_plate_W = plates * (1.0 - on_well) * model.wetted_share() * (y[VAT_WALL] - y[EVAPORATOR])
        self.well_plate_W = plates * on_well * (y[WELL_WALL] - y[EVAPORATOR])
        self.vat_loss_W = machine.vat.loss_W_per_K * (y[VAT_WALL] - model.room)
        self.well_loss_W = machine.well.loss_W_per_K * (y[WELL_WALL] - model.room)
        self._surface(machine, mix)

    def _vat_film(self, machine, mix, shear):
        """W/K at the wetted wall, with the file's constant a."""
        y = self.y
        forced = transfer.stirred_film(mix, y[VAT], y[VAT_WALL], self.rps * self.model.grip,
                                       machine.agitator.diameter_m, machine.vat.diameter_m,
                                       machine.agitator.nusselt_wall_a, shear, y[HYDRATED])
        still = transfer.still_film(mix, y[VAT], y[VAT_WALL] - y[VAT], 0.13, y[HYDRATED])
        return transfer.blend(forced, still) * machine.vat.wall_area_m2 * self.model.wetted_share()

    def _well_heat(self, machine, mix, shear):
        """W from the heated wall: the paddle at the shaft's foot with the file's constant a, buoyancy, and
        boiling above 100 degC. Where the file tells no foot, what it calls a goes with an agitator wider
        than the well, and a paddle is assumed."""
        y, well, agitator = self.y, machine.well, machine.agitator
        foot_m = agitator.get("foot_m", transfer.WELL_PADDLE * well.diameter_m)
        a = agitator.nusselt_well_a if agitator.get("foot_m", 0.0) else transfer.PADDLE_A
        forced = transfer.stirred_film(mix, y[WELL], y[WELL_WALL], self.rps * self.model.grip, foot_m,
                                       well.diameter_m, a, shear, y[HYDRATED])
        still = transfer.still_film(mix, y[WELL], y[WELL_WALL] - y[WELL], 0.15, y[HYDRATED])
        boiling = transfer.boiling_W_per_m2(y[WELL_WALL] - BOILING_DEGC)
        return well.heated_area_m2 * (transfer.blend(forced, still) * (y[WELL_WALL] - y[WELL]) + boiling)

    def _exchange(self, machine, mix):
        """L/s between the zones: the pump's, or what rises through the passage by itself when that is
        more."""
        y = self.y
        pumped = 0.0
        if self.rps > 0.0:
            pumped, _ = drives.pump_L_per_s(machine, mix, y[WELL], self.rps, self.model.pump_share)
        return max(pumped, transfer.passage_L_per_s(mix, y[WELL], y[VAT], machine.well.passage_m))

    def _surface(self, machine, mix):
        """What leaves by the surface: vapour to the room, heat to the room or to the lid."""
        y, model = self.y, self.model
        open_kg_per_s = transfer.shah_kg_per_m2s(mix, y[VAT], model.room, model.humidity) * model.area
        size = machine.vat.diameter_m / 4.0
        self.lid_room_W = transfer.lid_outside_W(y[LID], model.room, machine.vat.lid_area_m2)
        if model.lid_open:
            self.vapour_kg_per_s = open_kg_per_s
            open_W_per_m2 = transfer.open_surface_W_per_m2(y[VAT], model.room, model.humidity, mix, size)
            self.surface_W = model.area * open_W_per_m2
            self.lid_W = 0.0
            return
        self.vapour_kg_per_s = open_kg_per_s * machine.vat.lid_vapour_leak_norm
        gap = max(1e-3 * (machine.vat.brim_L - model.fill_L) / model.area, 0.02)
        sensible, condensing = transfer.under_lid(y[VAT], y[LID], gap, mix)
        self.surface_W = self.lid_W = model.area * (sensible + condensing * evaporation_J_per_kg(y[VAT]))

    def rates(self):
        y, model, machine = self.y, self.model, self.model.machine
        left = model.kg - y[VAPOUR]
        well_kg = model.well_kg(y)
        fusion = model.mix.milk_fat * FAT_FUSION_J_PER_KG
        rate = np.zeros(16)
        rate[SOLID_FAT] = solid_fat_rate(y[SOLID_FAT], y[VAT]) if fusion > 0.0 else 0.0
        rate[HYDRATED] = hydration_rate(y[HYDRATED], y[VAT])
        vat = (self.vat_wall_W + self.exchange_W + model.shaft("stirring_W", y[VAT]) - self.surface_W -
               self.vapour_kg_per_s * evaporation_J_per_kg(y[VAT]))
        well = self.well_wall_W - self.exchange_W + model.shaft("pumping_W", y[VAT])
        rate[VAT] = (vat / (left - well_kg) + fusion * rate[SOLID_FAT]) / model.mix.cp(y[VAT])
        rate[WELL] = (well / well_kg + fusion * rate[SOLID_FAT]) / model.mix.cp(y[WELL])
        rate[VAT_WALL] = -(self.vat_wall_W + self.vat_plate_W + self.vat_loss_W) / (
            machine.vat.wall_mass_kg * machine.vat.wall_cp_J_per_kgK)
        rate[WELL_WALL] = (self.element_W - self.well_wall_W - self.well_plate_W - self.well_loss_W) / (
            machine.well.wall_mass_kg * machine.well.wall_cp_J_per_kgK)
        rate[ELEMENT] = (self.heat_W - self.element_W) / (
            machine.elements.mass_kg * machine.elements.cp_J_per_kgK)
        rate[LID] = (self.lid_W - self.lid_room_W) / (machine.vat.lid_mass_kg * machine.vat.lid_cp_J_per_kgK)
        rate[EVAPORATOR] = (self.vat_plate_W + self.well_plate_W - self.chill_W) / (
            machine.chiller.evaporator_mass_kg * machine.chiller.evaporator_cp_J_per_kgK)
        share = machine.probe.vat_share_norm
        pocket_s, element_s = probe_lags_s(machine)
        rate[POCKET] = (share * y[VAT] + (1.0 - share) * y[WELL] - y[POCKET]) / pocket_s
        rate[PROBE] = (y[POCKET] - y[PROBE]) / element_s
        rate[VAPOUR] = self.vapour_kg_per_s
        rate[HEATED] = self.heat_W
        rate[WORKED] = model.shaft("stirring_W", y[VAT]) + model.shaft("pumping_W", y[VAT])
        rate[CHILLED] = self.chill_W
        rate[LOST] = (self.vat_loss_W + self.well_loss_W + self.lid_room_W +
                      (self.surface_W if model.lid_open else 0.0) +
                      self.vapour_kg_per_s * (evaporation_J_per_kg(y[VAT]) + model.enthalpy_of(y[VAT])))
        return rate
