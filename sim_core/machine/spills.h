#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim_core/plant/spec.h"
#include "sim_core/product/product.h"

// Wet floors and the wash bucket: what is in it, how strong it is, and what it gives off.
namespace stirbench::machine {

struct Machine;
struct State;

enum class ChemicalKind : std::uint8_t { alkaline, acid, chlorine };

// A cleaning chemical as content describes it: the concentrate.
struct Chemical {
  std::string id;
  std::string title;
  std::string source;  // where the numbers come from
  ChemicalKind kind = ChemicalKind::alkaline;
  double active_norm = 0.0;   // mass share of the active substance
  double use_low_norm = 0.0;  // active in the solution that the label asks for
  double use_high_norm = 0.0;
  double irritant_norm = 0.0;        // limit above which it irritates skin and eyes
  double corrosive_norm = 0.0;       // limit above which it burns them
  double reactive_mol_per_kg = 0.0;  // acid: H+; chlorine: available Cl2; per kg active
  std::vector<plant::SanitiserLine>
      lines;  // chlorine: the table that it must meet, weakest and warmest first
};

struct Bucket {
  double water_kg = 0.0;
  double chemical_kg = 0.0;  // concentrates
  double active_kg = 0.0;
  // CLP's additivity rule: mass of each active substance over its own limit; the sum over total mass is 1 at
  // the limit.
  double irritant_kg = 0.0;
  double corrosive_kg = 0.0;
  double acid_mol = 0.0;      // H+ that can react
  double chlorine_mol = 0.0;  // available chlorine as Cl2
};

double bucket_kg(const Bucket& bucket);
double strength_norm(const Bucket& bucket);    // active substance over total mass
double irritant_index(const Bucket& bucket);   // at or above 1 it irritates
double corrosive_index(const Bucket& bucket);  // at or above 1 it burns

// Chlorine gas in the room after complete reaction: OCl- + Cl- + 2 H+ -> Cl2 + H2O, so two H+ for each Cl2;
// ideal gas at 25 degC in a closed room of 30 m3 (choice). 10 ppm is immediately dangerous to life or health
// (NIOSH, from memory).
double chlorine_gas_ppm(const Bucket& bucket);
inline constexpr double dangerous_chlorine_ppm = 10.0;

// The field of a product that holds the active substance of this kind.
double product::Product::*active_of(ChemicalKind kind);
// The same for the vat's contents, by content's first chemical of each kind.
double vat_irritant_index(const Machine& machine, const product::Product& product);
double vat_gas_ppm(const Machine& machine, const product::Product& product);

// From this amount on the floor counts as wet: a puddle to slip on (choice).
inline constexpr double wet_floor_kg = 0.1;
double on_floor_kg(const State& state);  // product, and dew that ran down the outside
bool floor_wet(const State& state);

}  // namespace stirbench::machine
