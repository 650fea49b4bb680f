#pragma once

#include <string_view>

#include "sim_core/product/product.h"

// What a batch is like to eat and what it leaves to clean, in the words of the trade, from the product's
// histories and the deposit on the heated wall. Every limit between two words is a CHOICE of this project (no
// source gives numbers) unless quality.cpp states its source.
namespace stirbench::product {

enum class EggWord : unsigned char { none, liquid, thickening, set, curdling, curdled };
enum class SpeckWord : unsigned char { none, few, many };
enum class TasteWord : unsigned char { clean, cooked, slightly_burnt, burnt };

std::string_view word(EggWord egg);  // "thickening"
std::string_view word(SpeckWord specks);
std::string_view word(TasteWord taste);

struct QualityReport {
  double whey_denatured_norm = 0.0;  // beta-lactoglobulin no longer native; 0 without milk protein
  EggWord egg = EggWord::none;
  double egg_set_norm = 0.0;
  double egg_curd_norm = 0.0;
  double burnt_g_per_kg = 0.0;  // burnt matter in the product
  SpeckWord specks = SpeckWord::none;
  TasteWord taste = TasteWord::clean;
  double deposit_g = 0.0;     // still on the heated wall
  double cleaning_min = 0.0;  // rinse, wash, rinse, sanitise, and the time that the deposit adds
  double age_norm = 0.0;
  bool aged = false;  // long enough and cold enough by the first ageing rule
  double hydration_norm = 1.0;
};

// `aged`: as judged by cooling_watch.h. An empty product gives no words.
QualityReport quality(const Product& product, double deposit_kg_per_m2, double heated_area_m2, bool aged);

// Minutes to clean the well by hand: at least 15; a burnt layer soaks and is scrubbed.
double cleaning_minutes(double deposit_kg_per_m2);

}  // namespace stirbench::product
