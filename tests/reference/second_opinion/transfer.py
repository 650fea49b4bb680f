"""Heat and vapour between product, walls, lid and room, each from a published equation."""

import math

from properties import (ATMOSPHERE_PA, GRAVITY, KELVIN, STEFAN_BOLTZMANN, air_film, saturation_Pa)

DRY_AIR_J_PER_KGK = 287.04
VAPOUR_J_PER_KGK = 461.5
LEWIS = 0.93          # Le^(2/3) of moist air at these conditions, 0.92 .. 0.95
AIR_CP = 1006.0       # J/kgK
STEEL_EMISSIVITY = 0.2     # stainless steel sheet, handbook value (from memory)
PRODUCT_EMISSIVITY = 0.95  # water, handbook value (from memory)
PADDLE_A = 0.36       # Chilton, Drew & Jebens 1944; also Coker 2001, table 7-14: paddle, Re > 4000; 30 %
# Diameter of what stirs the well over the well's: a choice, the file tells no such part.
WELL_PADDLE = 5.0 / 6.0


def blend(forced, natural):
    """Forced and natural convection together (Churchill 1977: third powers; from memory)."""
    return (forced ** 3 + natural ** 3) ** (1.0 / 3.0)


def stirred_film(mix, t, wall, rps, stirrer_m, vessel_m, a, shear_per_s, hydrated=1.0):
    """W/m2K of Nu = a Re^(2/3) Pr^(1/3) (mu/mu_wall)^0.14, Re on the stirrer's diameter, Nu on the vessel's
    (Sieder & Tate's factor as in Penney & Atiemo-Obeng, Handbook of Industrial Mixing 2004, ch. 14.4)."""
    if rps <= 0.0:
        return 0.0
    mu, k = mix.viscosity(t, shear_per_s, hydrated), mix.conductivity(t)
    reynolds = mix.density(t) * rps * stirrer_m ** 2 / mu
    prandtl = mu * mix.cp(t) / k
    sieder_tate = (mu / mix.viscosity(wall, shear_per_s, hydrated)) ** 0.14
    return a * reynolds ** (2.0 / 3.0) * prandtl ** (1.0 / 3.0) * sieder_tate * k / vessel_m


def still_film(mix, t, difference_K, constant, hydrated=1.0):
    """W/m2K of Nu = constant Ra^(1/3), which no length enters: 0.15 over a heated bottom (McAdams 1954),
    0.13 at a vertical wall (Churchill & Chu 1975, limit of high Ra at Pr about 7)."""
    mu, k, rho = mix.viscosity(t, 1.0, hydrated), mix.conductivity(t), mix.density(t)
    expansion = max(abs(mix.expansion(t)), 2e-5)
    diffusivity = k / (rho * mix.cp(t))
    return constant * k * (GRAVITY * expansion * abs(difference_K) * rho / (mu * diffusivity)) ** (1.0 / 3.0)


def boiling_W_per_m2(excess_K):
    """Developed nucleate boiling of water at 1 atm: Rohsenow 1952 with C_sf 0.013, 140.2 dT^3."""
    return 140.2 * excess_K ** 3 if excess_K > 0.0 else 0.0


def dry_air_density(t, vapour_Pa):
    """kg of dry air in a m3 of moist air."""
    return (ATMOSPHERE_PA - vapour_Pa) / (DRY_AIR_J_PER_KGK * (t + KELVIN))


def moist_density(t, vapour_Pa):
    return dry_air_density(t, vapour_Pa) + vapour_Pa / (VAPOUR_J_PER_KGK * (t + KELVIN))


def humidity_ratio(vapour_Pa):
    return 0.62198 * vapour_Pa / (ATMOSPHERE_PA - vapour_Pa)


def surface_vapour_Pa(mix, t):
    return min(mix.water_activity() * saturation_Pa(t), 0.95 * ATMOSPHERE_PA)


def shah_kg_per_m2s(mix, t, room, humidity):
    """Evaporation from an undisturbed surface: Shah 2012 (form and constant from memory, table of 2014 met
    by 0.3 %), E = 35 rho_w (rho_r - rho_w)^(1/3) (W_w - W_r) kg/m2h with dry air per volume of moist air in
    both densities; the larger of this and 5e-5 (p_w - p_r). Mean deviation from 11 data sets 18 % (Shah
    2002)."""
    p_w, p_r = surface_vapour_Pa(mix, t), humidity * saturation_Pa(room)
    light, heavy = dry_air_density(t, p_w), dry_air_density(room, p_r)
    drier = humidity_ratio(p_w) - humidity_ratio(p_r)
    buoyant = 35.0 * light * max(heavy - light, 0.0) ** (1.0 / 3.0) * drier
    return max(buoyant, 5e-5 * (p_w - p_r), 0.0) / 3600.0


def plate_film(surface, room, size_m):
    """W/m2K of air above a horizontal warm plate of area/perimeter size_m (McAdams 1954): 0.54 Ra^(1/4) up
    to 1e7, 0.15 Ra^(1/3) beyond; below a cold one 0.27 Ra^(1/4)."""
    film = 0.5 * (surface + room)
    k, nu, prandtl = air_film(film)
    rayleigh = GRAVITY * abs(surface - room) / (film + KELVIN) * size_m ** 3 * prandtl / nu ** 2
    if surface < room:
        nusselt = 0.27 * rayleigh ** 0.25
    elif rayleigh < 1e7:
        nusselt = 0.54 * rayleigh ** 0.25
    else:
        nusselt = 0.15 * rayleigh ** (1.0 / 3.0)
    return nusselt * k / size_m


def radiation_W_per_m2(warm, cold, emissivity):
    return emissivity * STEFAN_BOLTZMANN * ((warm + KELVIN) ** 4 - (cold + KELVIN) ** 4)


def open_surface_W_per_m2(t, room, humidity, mix, size_m):
    """Sensible heat of an open surface: McAdams's plate with the moist air's buoyancy, and radiation."""
    p_w, p_r = surface_vapour_Pa(mix, t), humidity * saturation_Pa(room)
    lift = moist_density(room, p_r) / moist_density(t, p_w) - 1.0
    virtual = room + max(lift, 0.0) * (room + KELVIN)  # the dry plate with the same buoyancy
    return plate_film(max(virtual, room + 0.1), room, size_m) * (t - room) + radiation_W_per_m2(
        t, room, PRODUCT_EMISSIVITY)


def under_lid(t, lid, gap_m, mix):
    """From the surface to a shut lid: (W/m2 sensible with radiation, kg/m2s that condense and drip back).
    Globe & Dropkin 1959 between horizontal plates heated from below, Nu = 0.069 Ra^(1/3) Pr^0.074, vapour
    by Lewis's analogy; still air when the lid is the warmer."""
    p_s, p_l = surface_vapour_Pa(mix, t), saturation_Pa(lid)
    film = 0.5 * (t + lid)
    k, nu, prandtl = air_film(film)
    mean = 0.5 * (moist_density(t, p_s) + moist_density(lid, p_l))
    lift = (moist_density(lid, p_l) - moist_density(t, p_s)) / mean
    rayleigh = GRAVITY * lift * gap_m ** 3 * prandtl / nu ** 2
    nusselt = max(1.0, 0.069 * max(rayleigh, 0.0) ** (1.0 / 3.0) * prandtl ** 0.074)
    h = nusselt * k / gap_m
    vapour = (p_s / (t + KELVIN) - p_l / (lid + KELVIN)) / VAPOUR_J_PER_KGK
    condensing = max(h / (mean * AIR_CP * LEWIS) * vapour, 0.0)
    pair = 1.0 / (1.0 / PRODUCT_EMISSIVITY + 1.0 / STEEL_EMISSIVITY - 1.0)
    return h * (t - lid) + radiation_W_per_m2(t, lid, pair), condensing


def lid_outside_W(lid, room, area_m2):
    """From the lid's upper side to the room: McAdams's plate and radiation."""
    size = math.sqrt(area_m2 / math.pi) / 2.0  # area over perimeter of a disc
    radiated = radiation_W_per_m2(lid, room, STEEL_EMISSIVITY)
    return area_m2 * (plate_film(lid, room, size) * (lid - room) + radiated)


def passage_L_per_s(mix, warm_below, cold_above, bore_m):
    """Exchange through an opening between a lighter liquid below and a heavier one above: Epstein 1988 (J
    Heat Transfer 110:885), Q = 0.055 sqrt(g drho/rho D^5) for a short opening (from memory; 40 %)."""
    lift = 1.0 - mix.density(warm_below) / mix.density(cold_above)
    return 1e3 * 0.055 * math.sqrt(GRAVITY * lift * bore_m ** 5) if lift > 0.0 else 0.0

