#include "sim_core/product/quality.h"

#include <algorithm>

#include "sim_core/product/kinetics.h"

namespace stirbench::product {

namespace {

// Egg. A tenth set shows on a spoon, and a tenth curdled as a fine grain. The harm "curdled" begins at the
// same 0.2 (bench/harms.cpp).
constexpr double thickens_norm = 0.1;
constexpr double set_norm = 0.6;
constexpr double curdling_norm = 0.1;
constexpr double curdled_norm = 0.2;

// Burnt matter. 10 g in 45 kg is tasted in the whole batch: the harm "scorched" begins there
// (bench/harms.cpp).
constexpr double few_specks_g_per_kg = 0.01;
constexpr double many_specks_g_per_kg = 0.1;
constexpr double slightly_burnt_g_per_kg = 0.05;
constexpr double burnt_g_per_kg = 0.22;

// Cooked flavour comes with the sulphur that whey protein sets free; beyond about two thirds denatured people
// name it.
constexpr double cooked_norm = 0.67;

constexpr double plain_cleaning_min = 15.0;
constexpr double film_kg_per_m2 = 0.005;           // comes off with the wash
constexpr double scrub_min_per_kg_per_m2 = 300.0;  // 30 min for 0.1 kg/m2
constexpr double longest_scrub_min = 240.0;        // beyond that it soaks overnight

EggWord egg_word(const Product& p) {
  if (!(p.mass_kg[Component::egg_protein] > 0.0)) return EggWord::none;
  if (p.egg_curd_norm >= curdled_norm) return EggWord::curdled;
  if (p.egg_curd_norm >= curdling_norm) return EggWord::curdling;
  if (p.egg_set_norm >= set_norm) return EggWord::set;
  return p.egg_set_norm >= thickens_norm ? EggWord::thickening : EggWord::liquid;
}

}  // namespace

std::string_view word(EggWord egg) {
  switch (egg) {
    case EggWord::none: return "none";
    case EggWord::liquid: return "liquid";
    case EggWord::thickening: return "thickening";
    case EggWord::set: return "set";
    case EggWord::curdling: return "curdling";
    case EggWord::curdled: return "curdled";
  }
  return "";
}

std::string_view word(SpeckWord specks) {
  switch (specks) {
    case SpeckWord::none: return "none";
    case SpeckWord::few: return "few";
    case SpeckWord::many: return "many";
  }
  return "";
}

std::string_view word(TasteWord taste) {
  switch (taste) {
    case TasteWord::clean: return "clean";
    case TasteWord::cooked: return "cooked";
    case TasteWord::slightly_burnt: return "slightly burnt";
    case TasteWord::burnt: return "burnt";
  }
  return "";
}

double cleaning_minutes(double deposit_kg_per_m2) {
  const double layer = std::max(0.0, deposit_kg_per_m2 - film_kg_per_m2);
  return plain_cleaning_min + std::min(longest_scrub_min, scrub_min_per_kg_per_m2 * layer);
}

QualityReport quality(const Product& p, double deposit_kg_per_m2, double heated_area_m2, bool aged) {
  QualityReport out;
  out.deposit_g = 1000.0 * deposit_kg_per_m2 * heated_area_m2;
  out.cleaning_min = cleaning_minutes(deposit_kg_per_m2);
  const double kg = p.total_kg();
  if (!(kg > 0.0)) return out;
  if (p.mass_kg[Component::milk_protein] > 0.0) out.whey_denatured_norm = 1.0 - p.native_whey_norm;
  out.egg = egg_word(p);
  out.egg_set_norm = p.egg_set_norm;
  out.egg_curd_norm = p.egg_curd_norm;
  out.burnt_g_per_kg = 1000.0 * p.scorched_kg / kg;
  if (out.burnt_g_per_kg >= few_specks_g_per_kg) out.specks = SpeckWord::few;
  if (out.burnt_g_per_kg >= many_specks_g_per_kg) out.specks = SpeckWord::many;
  if (out.whey_denatured_norm >= cooked_norm) out.taste = TasteWord::cooked;
  if (out.burnt_g_per_kg >= slightly_burnt_g_per_kg) out.taste = TasteWord::slightly_burnt;
  if (out.burnt_g_per_kg >= burnt_g_per_kg) out.taste = TasteWord::burnt;
  out.age_norm = p.age_norm;
  out.aged = aged;
  out.hydration_norm = hydration_norm(p);
  return out;
}

}  // namespace stirbench::product
