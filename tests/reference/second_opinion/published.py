"""The second opinion's own parts against published values: (label, value, published, band, unit,
source)."""

from types import SimpleNamespace

import drives
import transfer
from machine import mix
from properties import Mix, saturation_Pa


def _shah(water, room):
    return 3600.0 * transfer.shah_kg_per_m2s(Mix({"water": 1.0}), water, room, 0.5)


def _cycle(evaporating, condensing):
    """kJ/kg and coefficient of performance with 8 K superheat, 5 K subcooling, isentropic efficiency
    0.65."""
    chiller = drives.Chiller.__new__(drives.Chiller)
    chiller.file = SimpleNamespace(clearance_norm=0.0, swept_m3_per_h=3600.0, isentropic_norm=0.65,
                                   isentropic_falloff_norm=0.0)
    # The table's subcooling is 1.5 K less than the model's: liquid as of a condenser that much warmer.
    warmer = drives.SUBCOOLING_K - 5.0
    flow = drives.propane_vapour_density(evaporating) * (evaporating + 273.15) / (evaporating + 281.15)
    heat, _ = chiller.cycle(evaporating, condensing + warmer, evaporating + 8.0)
    _, power = chiller.cycle(evaporating, condensing, evaporating + 8.0)
    return heat / flow / 1e3, heat / power


def published(content):
    table = "table of Shah's equation in a public evaporation code (seen at second hand)"
    lemmon = "cycle with the equation of state of Lemmon et al. 2009"
    rows = [(f"evaporation {w:g}/{r:g} degC", _shah(w, r), e, 0.005, "kg/m2h", table)
            for w, r, e in ((28.0, 28.0, 0.1360), (29.0, 30.0, 0.1268), (30.0, 28.0, 0.1959))]
    for te, tc, heat, cop in ((-10.0, 45.0, 269.9, 2.40), (0.0, 35.0, 310.0, 4.38),
                              (-20.0, 45.0, 257.8, 1.86)):
        ours = _cycle(te, tc)
        rows.append((f"refrigeration {te:g}/{tc:g} degC", ours[0], heat, 0.01, "kJ/kg", lemmon))
        rows.append((f"performance {te:g}/{tc:g} degC", ours[1], cop, 0.02, "-", lemmon))
    milk, _, _ = mix(content, [("whole_milk", 1.0, 4.0)])
    rows.append(("heat capacity of whole milk, 5 degC", milk.cp(5.0), 3890.0, 0.02, "J/kgK",
                 "ASHRAE Refrigeration Handbook, table 3 (from memory)"))
    sucrose = Mix({"water": 0.6, "sucrose": 0.4})
    for t, mu in ((20.0, 6.198), (40.0, 3.270), (60.0, 1.977)):
        rows.append((f"viscosity of sucrose 40 %, {t:g} degC", 1e3 * sucrose.viscosity(t, 1.0), mu, 0.05,
                     "mPa s", "Bingham & Jackson 1918"))
    rows.append(("vapour pressure of water, 65 degC", saturation_Pa(65.0), 25041.0, 0.002, "Pa",
                 "IAPWS-IF97, not a point of the spline"))
    return rows
