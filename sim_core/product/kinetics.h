#pragma once

#include <optional>

#include "sim_core/product/product.h"

// What time, heat and stirring do to the product: dissolving, wetting, hydration, lumps, whey-protein
// denaturation, lethality, egg setting and curdling, ageing, growth. Equations, sources and engineering
// choices are stated beside each function in kinetics.cpp and pour.cpp and summarised in sim_core/MODELS.md.
namespace stirbench::product {

// What the product goes through during dt.
struct Treatment {
  double coldest_degC = 20.0;       // coldest zone: judges lethality
  double hottest_degC = 20.0;       // hottest bulk zone: judges curdling
  double mean_degC = 20.0;          // mass-weighted
  double shear_per_s = 0.0;         // mean shear rate of the agitator; 0 when it is stopped
  double stir_W_per_kg = 0.0;       // specific stirring power
  double fat_setting_factor = 1.0;  // on the rate at which undercooled fat sets
};

// Pours `kg` of an ingredient into the product; nothing happens unless kg is positive. `stirred`: whether
// there is flow to disperse it. More of a gum or powder lumps or sinks when it is added to product at rest,
// or too much at once. Mass is conserved exactly. Histories are blended by mass; the survivors of a heat
// treatment add up, so raw additions after the hold undo most of log10_reduction. The ingredient's fat has
// set as far as it does at `added_degC`, its temperature; left out: the ingredient's supply temperature.
void add_ingredient(Product& product, const Ingredient& ingredient, double kg, double mean_degC, bool stirred,
                    std::optional<double> added_degC = std::nullopt);

// Advances all kinetics by dt_s. Any positive length is stable, but the treatment counts as constant within
// it, so use at most 10 s while temperatures change. Masses of components stay; only the histories change.
// Heat that setting fat gives off is the caller's to book, from the change of unset_fat_kg.
// Foam (air_norm) only drains here.
void advance(Product& product, const Treatment& treatment, double dt_s);

// Removes a representative share (0..1, clamped) of everything (drawing off), solids on the floor excluded.
void remove_share(Product& product, double share_norm);
// The same; returns what was removed.
Product draw_share(Product& product, double share_norm);
// Pours one product into another: masses add, histories blend as in add_ingredient.
void merge(Product& into, const Product& from);

// Solids outside the solution: suspended, dry, lumped or on the floor.
double solids_not_dissolved_kg(const Product& product);
// Hydrated stabiliser by kind [kg], blends included. Which of it still waits is known only by whether it
// needs heat: kinds that do (locust bean, iota) wait first where a part needs heat, the others where none
// does.
PerGum hydrated_gum_kg(const Product& product);
// What is in solution (or emulsified, wetted): the input of freezing.h.
PerComponent dissolved_kg(const Product& product);
// Share of the stabiliser that is hydrated, 1 when there is none.
double hydration_norm(const Product& product);
double log10_reduction(const Product& product);  // lethality / D(79.4 degC) = 0.5 s (Bradshaw et al. 1987)

inline constexpr double reference_D_s = 0.5;

// Rate at which undercooled milk fat sets [1/s]: a time constant of an hour from 5 degC down (half an hour to
// two, from memory, weak), slower towards 21 degC, above which fat globules that are cooled stay liquid
// (Lopez et al. 2001: they begin at about 21 degC); the straight line between is a choice.
double fat_setting_per_s(double t_degC);

// Sucrose in a saturated solution [% by mass], 0..90 degC (nearest legal temperature outside); cubic from
// memory, within 0.3 % of the table 66.74 @ 20, 70.22 @ 40, 74.32 @ 60, 78.74 @ 80.
double sugar_solubility_pct(double t_degC);

// Time [s] in which half-millimetre crystals dissolve in a solution of constant strength: shrinking sphere
// with the transfer coefficient of Calderbank & Moo-Young, kL = 0.13 (eps nu)^(1/4) Sc^(-2/3), not below
// diffusion into still liquid (Sh = 2). Accurate to a factor of 3. 1e12 when the solution is saturated.
double dissolving_time_s(double sugars_pct, double t_degC, double stir_W_per_kg);

// Bigelow: 10^((t - reference) / z), the seconds at the reference temperature equivalent to one second at t.
// The defaults are those of lethality_s: Listeria monocytogenes in ice-cream mix, Bradshaw et al. 1987. All
// three arguments use the same temperature scale.
double lethal_rate(double t_degC, double reference_degC = 79.4, double z_K = 7.0);

// Exponential growth rate of Listeria monocytogenes in pasteurised milk [log10/day]: 0.257 ((t + 1.18)
// / 6.18)^2 (FDA/FSIS 2003, App. 8) for 1..45 degC, 0 outside; 14-20 % slow at 21-35 degC against Rosenow &
// Marth 1987.
double growth_log10_per_day(double t_degC);

}  // namespace stirbench::product
