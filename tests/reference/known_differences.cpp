#include "tests/reference/known_differences.h"

namespace stirbench::tests {
namespace {

constexpr const char* safe_threshold =
    "safe side: one curve for all that is not metal, through the lowest values of ECMA-287 and, from a "
    "minute on, of "
    "metal";
constexpr const char* glass_rule =
    "one curve for all that is not metal is read between 1 s (plastic) and 10 s: above glass for a short "
    "touch, "
    "below it for a long one";
constexpr const char* slow_listeria =
    "not the safe side: the law of FDA/FSIS 2003 is a fifth slow where it is warm";
constexpr const char* shallow_listeria =
    "the square root with its lowest temperature at -1.18 degC: too little growth at the freezing point, too "
    "much fall "
    "from 8 to 4 degC";
constexpr const char* safe_D =
    "safe side: D and z of Bradshaw et al. 1985 at 71.7 degC carried away from there; pilot plant and end "
    "point find "
    "other values";
constexpr const char* additive =
    "volumes of water and sugar are added (Choi & Okos); a real solution contracts, and hot syrup expands "
    "less";
constexpr const char* fitted_fluid =
    "the fit's largest errors: the coldest row, and a quadratic for the density of liquid";
constexpr const char* linear_salt = "one slope, that of 1 % of salt: the depression of strong brine bends";
constexpr const char* dry_evaporator =
    "the machine's valve limits evaporation to -5 degC (a choice), where practice has +5 to +10; so little "
    "liquid "
    "then enters that most of the evaporator is dry";
constexpr const char* leighton =
    "the program's curve is Leighton's, made for mixes: its points lie 0.06 K from other tables of pure "
    "sugars";

}  // namespace

const std::vector<KnownDifference>& known_differences() {
  static const std::vector<KnownDifference> all = {
      {"Burns: plastic, threshold degC at 10", 0.8966, safe_threshold},
      {"Burns: ceramics and glass, threshold degC at 60", 0.9107, safe_threshold},
      {"Burns: plastic and wood, threshold degC at 60", 0.8500, safe_threshold},
      {"Burns: glass, rule of thumb degC at 1.5", 1.0721, glass_rule},
      {"Burns: glass, rule of thumb degC at 30", 0.8679, glass_rule},
      {"Cooling safety: C. perfringens, observed, h at 3", 1.4403,
       "safe side: the lag follows Juneja's prediction, which itself lies above what was observed"},
      {"Cooling safety: doubling time of Listeria in milk, h at 21", 1.2018, slow_listeria},
      {"Cooling safety: doubling time of Listeria in milk, h at 35", 1.2016, slow_listeria},
      {"Cooling safety: doubling time of Listeria in UHT milk, h at 0", 7.9948, shallow_listeria},
      {"Cooling safety: time of Listeria to a level at 8 degC over that at 4 degC", 0.8491, shallow_listeria},
      {"Lethality and heat damage: D of Listeria in milk at an end point, s at 74.4", 0.4793,
       "D and z of the same paper do not close at its end points; not the safe side: twice the decades"},
      {"Lethality and heat damage: Listeria in milk, 15 s at 65.5 degC, log10", 0.2505, safe_D},
      {"Lethality and heat damage: Salmonella in milk, 15 s at 61.5 degC, log10", 0.0198, safe_D},
      {"Kinetics: native whey protein left by Lyster, % at 77", 0.6828,
       "the model follows Dannenberg & Kessler, as what Larson & Rolleri found (32 %) does; Lyster's line "
       "lies above"},
      {"Properties: sugar solution, density_kg_per_m3, mass %, at 10", 0.9988, additive},
      {"Properties: sugar solution, density_kg_per_m3, mass %, at 20", 0.9980, additive},
      {"Properties: sugar solution, density_kg_per_m3, mass %, at 30", 0.9974, additive},
      {"Properties: sugar solution, density_kg_per_m3, mass %, at 40", 0.9974, additive},
      {"Properties: sugar solution, density_kg_per_m3, mass %, at 50", 0.9981, additive},
      {"Properties: sugar solution, density_kg_per_m3, mass %, at 70", 1.0031, additive},
      {"Sugar solutions: density of the saturated solution, kg/m3, at 40", 0.9958, additive},
      {"Sugar solutions: density of the saturated solution, kg/m3, at 60", 0.9918, additive},
      {"Sugar solutions: density of the saturated solution, kg/m3, at 80", 0.9880, additive},
      {"Sugar solutions: freezing point of sucrose solution, degC, mass %, at 16", 1.0603, leighton},
      {"Sugar solutions: freezing point of sucrose solution, degC, mass %, at 18", 1.0607, leighton},
      {"Sugar solutions: freezing point of sucrose solution, degC, mass %, at 20", 1.0454, leighton},
      {"Sugar solutions: freezing point of sucrose solution, degC, mass %, at 40", 0.9835, leighton},
      {"Sugar solutions: freezing point of glucose solution, degC, mass %, at 10", 1.1178, leighton},
      {"Sugar solutions: heat capacity of sucrose solution, J/(kg K), mass %, at 60, 60", 0.9674,
       "Choi & Okos give the sugar's own heat capacity, which grows less with temperature than the "
       "solution's"},
      {"Whole machine: ten minutes after 85 degC: evaporating temperature, degC", -0.631, dry_evaporator},
      {"Whole machine: ten minutes after 85 degC: superheat, K", 3.436, dry_evaporator},
      {"Whole machine: ten minutes after 85 degC: subcooling, K", 1.901, dry_evaporator},
      {"Heat: shah_kg_per_m2h(85.0, 25.0, room_Pa)", 1.394,
       "Carrier's form was measured with air driven along the surface; in still air over very hot water the "
       "buoyancy that it leaves out does the most"},
      {"Properties: density of a usual mix at 20 degC, kg/L", 1.0051,
       "milk's protein, lactose and ash count with their apparent densities in milk; the range is the usual "
       "one of "
       "mixes, not of this one"},
      {"Chiller: r290_pressure_bar at -40", 1.0040, fitted_fluid},
      {"Chiller: r290_liquid_kg_per_m3 at -40", 0.9959, fitted_fluid},
      {"Chiller: r290_liquid_kg_per_m3 at 30", 0.9962, fitted_fluid},
      {"Chiller: r290_liquid_kg_per_m3 at 40", 0.9951, fitted_fluid},
      {"Chiller: r290_liquid_kg_per_m3 at 50", 0.9954, fitted_fluid},
      {"Environment: freezing_point_degC of salt water, mass % at 2", 1.0204, linear_salt},
      {"Environment: freezing_point_degC of salt water, mass % at 3", 1.0246, linear_salt},
      {"Environment: freezing_point_degC of salt water, mass % at 3.5", 1.0242, linear_salt},
      {"Viscosity: sucrose solution by Bingham & Jackson, mPa s, at 40, 80", 1.0445,
       "Genotelle's equation is good to 4 % and is high in hot syrup of 40 %"},
  };
  return all;
}

const KnownDifference* find_known_difference(const std::string& part, const std::string& what) {
  for (const KnownDifference& known : known_differences())
    if (part + ": " + what == known.row) return &known;
  return nullptr;
}

}  // namespace stirbench::tests
