"""Properties of water, air, propane and the mix, from published tables and equations.

Temperatures t in degC, T in K. SI units unless a name says otherwise. Mass fractions are of the whole mix.
"""

import numpy as np
from scipy.interpolate import CubicSpline, PchipInterpolator

KELVIN = 273.15
ATMOSPHERE_PA = 101325.0
GRAVITY = 9.80665
STEFAN_BOLTZMANN = 5.670374e-8  # W/m2K4, CODATA 2018

# IAPWS-IF97 at 0.101325 MPa (saturation above 100 degC is not used): density, heat capacity, conductivity,
# viscosity, expansion, saturation pressure, heat of evaporation.
_WATER = np.array([
    # t     rho      cp J/kgK k W/mK  mu Pa s    beta 1/K   psat Pa   hfg J/kg
    [0.01,  999.845, 4219.4, 0.5557, 1.7911e-3, -0.675e-4, 611.7,    2500.9e3],
    [10.0,  999.702, 4195.4, 0.5788, 1.3059e-3, 0.881e-4,  1228.2,   2477.2e3],
    [20.0,  998.206, 4184.8, 0.5980, 1.0016e-3, 2.066e-4,  2339.2,   2453.5e3],
    [30.0,  995.652, 4180.0, 0.6144, 0.7972e-3, 3.029e-4,  4246.7,   2429.8e3],
    [40.0,  992.224, 4178.6, 0.6285, 0.6527e-3, 3.849e-4,  7384.4,   2406.0e3],
    [60.0,  983.211, 4182.8, 0.6510, 0.4660e-3, 5.231e-4,  19946.0,  2357.7e3],
    [80.0,  971.803, 4195.5, 0.6670, 0.3541e-3, 6.417e-4,  47415.0,  2308.1e3],
    [85.0,  968.622, 4200.0, 0.6701, 0.3331e-3, 6.695e-4,  57868.0,  2295.4e3],
    [90.0,  965.319, 4205.0, 0.6728, 0.3142e-3, 6.970e-4,  70182.0,  2282.6e3],
    [100.0, 958.36,  4216.6, 0.6772, 0.2816e-3, 7.510e-4,  101418.0, 2256.5e3],
])
_GRID = np.arange(-5.0, 130.0, 0.05)


def _tabulated(column, of=lambda y: y, back=lambda y: y):
    """A look-up through a spline of one column of the water table, constant outside the table."""
    spline = CubicSpline(_WATER[:, 0], of(_WATER[:, column]))
    values = back(spline(np.clip(_GRID, _WATER[0, 0], _WATER[-1, 0])))
    return lambda t: float(np.interp(t, _GRID, values))


water_density = _tabulated(1)
water_cp = _tabulated(2)
water_conductivity = _tabulated(3)
water_viscosity = _tabulated(4, np.log, np.exp)
water_expansion = _tabulated(5)
evaporation_J_per_kg = _tabulated(7)

_LN_PSAT = CubicSpline(-1.0 / (_WATER[:, 0] + KELVIN), np.log(_WATER[:, 6]))
_PSAT = np.exp(_LN_PSAT(-1.0 / (_GRID + KELVIN)))


def saturation_Pa(t):
    """Saturation pressure of water, IAPWS-IF97 (a spline of ln p over -1/T, continued beyond the table)."""
    return float(np.interp(t, _GRID, _PSAT))


# Choi & Okos 1986 as in ASHRAE Refrigeration Handbook 2006, ch. 9, tables 1 and 2: (a, b, c) of a + b t + c
# t2 for density kg/m3, heat capacity kJ/kgK, conductivity W/mK. The water part is IAPWS's: the constants of
# water of 1986 and of 2006 differ by 1.1 %.
_SOLIDS = {
    "protein": ((1329.9, -0.5184, 0), (2.0082, 1.2089e-3, -1.3129e-6), (0.17881, 1.1958e-3, -2.7178e-6)),
    "fat": ((925.59, -0.41757, 0), (1.9842, 1.4733e-3, -4.8008e-6), (0.18071, -2.7604e-4, -1.7749e-7)),
    "carbohydrate": ((1599.1, -0.31046, 0), (1.5488, 1.9625e-3, -5.9399e-6),
                     (0.20141, 1.3874e-3, -4.3312e-6)),
    "fibre": ((1311.5, -0.36589, 0), (1.8459, 1.8306e-3, -4.6509e-6), (0.18331, 1.2497e-3, -3.1683e-6)),
    "ash": ((2423.8, -0.28063, 0), (1.0926, 1.8896e-3, -3.6817e-6), (0.32962, 1.4011e-3, -2.9069e-6)),
}

# Which class of Choi & Okos each component of content/ingredients belongs to.
CLASS_OF = {
    "water": "water", "milk_fat": "fat", "other_fat": "fat", "emulsifier": "fat",
    "milk_protein": "protein", "egg_protein": "protein", "other_protein": "protein",
    "lactose": "carbohydrate", "sucrose": "carbohydrate", "monosaccharide": "carbohydrate",
    "syrup_solids": "carbohydrate", "other_carbohydrate": "carbohydrate", "stabiliser": "carbohydrate",
    "fibre": "fibre", "milk_ash": "ash", "other_ash": "ash", "salt": "ash",
}

# Solid share of milk fat in equilibrium, typical curve (from memory, +-8 points by season); anchors: 20 %
# at 20 degC and none above 37 degC (Borcherding et al. 2008), fully liquid above 40 degC.
_SOLID_FAT = PchipInterpolator([-10, 0, 5, 10, 15, 20, 25, 30, 35, 40], np.array(
    [77, 63, 56, 48, 36, 20, 12, 6, 1.5, 0]) / 100.0)
FAT_FUSION_J_PER_KG = 90e3  # milk fat, 80 .. 100 kJ/kg (from memory)
FAT_SETS_BELOW_DEGC = 21.0  # globule fat cooled at 0.15 K/min: Lopez et al. 2001, J Coll Int Sci 240:150
FAT_SETS_S = 3600.0         # time constant, 0.5 .. 2 h (from memory; a choice within it)
FAT_MELTS_S = 60.0          # follows the equilibrium on warming (a choice of how closely)


def solid_fat(t):
    return float(_SOLID_FAT(np.clip(t, -10.0, 40.0)))


def solid_fat_rate(solid, t):
    """dS/dt of the solid share of milk fat: melts at once, sets late and slowly."""
    lag = solid_fat(t) - solid
    if lag < 0.0:
        return lag / FAT_MELTS_S
    return lag / FAT_SETS_S if t < FAT_SETS_BELOW_DEGC else 0.0


GUM_HYDRATES_S = 900.0  # at 20 degC, 10 .. 20 min for guar; twice as fast each 10 K (from memory)


def hydration_rate(hydrated, t):
    """dH/dt of the share of a cold-soluble gum that has hydrated."""
    return (1.0 - hydrated) / GUM_HYDRATES_S * 2.0 ** ((t - 20.0) / 10.0)


class Mix:
    """What is in the machine: mass fractions by component, well mixed and dissolved."""

    def __init__(self, fraction):
        self.fraction = dict(fraction)
        self.of_class = {}
        for component, share in self.fraction.items():
            kind = CLASS_OF[component]
            self.of_class[kind] = self.of_class.get(kind, 0.0) + share
        self.milk_fat = self.fraction.get("milk_fat", 0.0)
        self.is_water = self.of_class.get("water", 0.0) > 0.999

    def _sum(self, column, t, water):
        total = self.of_class.get("water", 0.0) * water
        for kind, share in self.of_class.items():
            if kind != "water":
                a, b, c = _SOLIDS[kind][column]
                total += share * (a + b * t + c * t * t) * (1e3 if column == 1 else 1.0)
        return total

    def cp(self, t):
        """J/kgK without the fat's melting: sum of the parts (Choi & Okos 1986; water IAPWS)."""
        return self._sum(1, t, water_cp(t))

    def _volumes(self, t):
        """Volume of each class in 1 kg (volumes add)."""
        volume = {"water": self.of_class.get("water", 0.0) / water_density(t)}
        for kind, share in self.of_class.items():
            if kind != "water":
                a, b, _ = _SOLIDS[kind][0]
                volume[kind] = share / (a + b * t)
        return volume

    def density(self, t):
        return 1.0 / sum(self._volumes(t).values())

    def conductivity(self, t):
        """Parallel model over volume fractions, for a stirred emulsion (Choi & Okos 1986)."""
        volume = self._volumes(t)
        total = sum(volume.values())
        k = volume["water"] / total * water_conductivity(t)
        for kind, part in volume.items():
            if kind != "water":
                a, b, c = _SOLIDS[kind][2]
                k += part / total * (a + b * t + c * t * t)
        return k

    def expansion(self, t):
        """1/K, from the density."""
        return -(self.density(t + 1.0) - self.density(t - 1.0)) / (2.0 * self.density(t))

    def viscosity(self, t, shear_per_s, hydrated=1.0):
        """Pa s at a shear rate, with a share of the gum hydrated. Serum: Fernandez-Martin 1972 for the
        milk's solids, times Genotelle's ratio for the sugars; fat by Eilers with phi_max 0.79 (with these 5
        % under Phipps 1969 at 10 % fat and 40 degC, 14 % at 20 %); gum: power law of Liu, Sala & Scholten
        2023, guar 0.3 %, K 0.238 Pa s^n and n 0.67, K in proportion to the gum, with 20 kJ/mol from 20 degC
        on. The gum's part is uncertain by a factor of 2."""
        get = self.fraction.get
        water = max(get("water", 0.0), 1e-6)
        milk = sum(get(part, 0.0) for part in ("milk_protein", "egg_protein", "other_protein", "lactose",
                                               "milk_ash"))
        sugar = sum(get(c, 0.0) for c in ("sucrose", "monosaccharide", "syrup_solids"))
        tv = min(max(t, 0.0), 95.0)
        mu = water_viscosity(tv)
        mu *= _fernandez_martin(100.0 * milk / (milk + water), min(tv, 80.0))
        mu *= _sugared(100.0 * sugar / (sugar + water), min(tv, 80.0))
        volume = self._volumes(tv)
        phi = volume.get("fat", 0.0) / sum(volume.values())
        mu *= (1.0 + 1.25 * phi / (1.0 - phi / 0.79)) ** 2
        gum_pct = 100.0 * hydrated * get("stabiliser", 0.0)
        if gum_pct > 0.0:
            heat = 20e3 / 8.314463 * (1.0 / (t + KELVIN) - 1.0 / (20.0 + KELVIN))
            mu += 0.2379 * gum_pct / 0.3 * np.exp(heat) * max(shear_per_s, 0.1) ** (0.67 - 1.0)
        return float(mu)

    def water_activity(self):
        """Share of water's vapour pressure: 1 for water, 0.97 for a mix (0.95 .. 0.98, from memory)."""
        return 1.0 if self.is_water else 0.97


def _fernandez_martin(solids_pct, t):
    """Skim milk's viscosity over water's. Fernandez-Martin 1972, J Dairy Res 39:75; constants from
    memory."""
    s = min(solids_pct, 30.0)
    b = 2.549e-2 - 9.8e-5 * t + 4e-7 * t * t
    c = 5.43e-4 - 1.39e-5 * t + 1.117e-7 * t * t
    return 10.0 ** (b * s + c * s * s)


def _genotelle(sugar_pct, t):
    """mPa s of a sucrose solution, Genotelle's equation (0 .. 80 degC, 4 %)."""
    n = sugar_pct / (1900.0 - 18.0 * sugar_pct)
    return 10.0 ** (22.46 * n - 0.114 + (30.0 - t) / (91.0 + t) * (1.1 + 43.1 * n ** 1.25))


def _sugared(sugar_pct, t):
    """Viscosity over water's: Genotelle's from 20 % on, below blended into water's own (3.5 % above
    his)."""
    own = (water_viscosity(t) * 1e3 / _genotelle(0.0, t)) ** max(0.0, 1.0 - sugar_pct / 20.0)
    return _genotelle(sugar_pct, t) * own / (1e3 * water_viscosity(t))


def air_film(t):
    """Conductivity W/mK, kinematic viscosity m2/s, Prandtl number of dry air (Sutherland, 1 atm;
    linear)."""
    return 0.02572 + 7.68e-5 * (t - 20.0), 1.506e-5 + 9.5e-8 * (t - 20.0), 0.709


# Propane at saturation, -40 .. 70 degC: fits to the reference equation of Lemmon et al. 2009 (0.5 %).
def propane_bar(t):
    return float(np.exp(9.58173 - 2102.237 / (t + 261.931)))


def propane_evaporation_J_per_kg(t):
    return 1e3 * (374.90 - 1.3678 * t - 5.876e-3 * t * t - 5.977e-5 * t ** 3)


def propane_vapour_density(t):
    return float(np.exp(2.337535 + 2.947343e-2 * t - 9.38430e-5 * t * t + 6.24627e-7 * t ** 3))


def propane_liquid_J_per_kg(t):
    """Enthalpy above -10 degC: quadratic through cycle values of the same equation (0.3 % of capacity)."""
    x = t + 10.0
    return 1e3 * (2.401 * x + 0.00485 * x * x)


PROPANE_GAS_CP = 1750.0  # J/kgK near 0 degC at 4 bar (from memory)
# With this k, k/(k-1) p v (r^((k-1)/k) - 1) meets that equation's isentropic work within
# 0.5 % at -10 .. 0 degC evaporating, 1.5 % at -20 degC.
PROPANE_POLYTROPE = 1.06
