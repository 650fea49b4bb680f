#pragma once

#include <string>
#include <vector>

// Published rules that a batch is judged by, and the organisms behind them. Content fills these structs
// (content/rules); the code knows no jurisdiction or organism by name. Every entry is a published figure with
// its source, not a permit: local law and the approving authority decide.
namespace stirbench::product {

// What a figure is based on: the text itself, a digest of it, or memory only.
enum class Surety : unsigned char { text_seen, digest, memory };

// The product that a rule is for. `rich_milk`: 10 % fat or more, or sweetened; `egg_mix`: eggnog and custard
// mixes; `liquid_egg`: egg by itself.
enum class ProductKind : unsigned char { milk, rich_milk, mix, egg_mix, liquid_egg };

// One published heat-treatment rule: the coldest product is held at or above `temperature_degC` for `hold_s`
// without a break.
struct HeatRule {
  std::string id;     // "us_mix_80c_25s"
  std::string title;  // "US frozen dessert mix, 175 degF for 25 s"
  std::string jurisdiction;
  std::string source;
  double temperature_degC = 0.0;
  double hold_s = 0.0;  // 0: reaching the temperature is enough
  ProductKind kind = ProductKind::mix;
  Surety sure = Surety::memory;
  std::string note;
  double temperature_degF = 0.0;  // as published; 0 when published in degC
  double air_space_K = 0.0;       // air above the product at least this much hotter; 0: not required
  double spread_K = 0.0;          // well and vat at most this far apart; 0: not required
  bool stirred = false;           // the agitator turns throughout the hold
};

// When a cooling rule's clock starts.
enum class CoolingStart : unsigned char {
  falls_below,  // the warmest product falls below from_degC, having been at or above it
  heat_ends,    // the product leaves its highest temperature, which was at least from_degC
  made_cold     // the last addition, provided the batch has not been heated to from_degC
};

struct CoolingStage {
  double to_degC = 0.0;
  double within_s = 0.0;  // counted from the clock's start
};

struct CoolingRule {
  std::string id;
  std::string title;
  std::string jurisdiction;
  CoolingStart start = CoolingStart::falls_below;
  double from_degC = 0.0;
  std::vector<CoolingStage> stages;  // each colder and later than the one before
  std::string source;
  Surety sure = Surety::memory;
  std::string note;
};

struct StorageRule {
  std::string id;
  std::string title;
  std::string jurisdiction;
  double at_most_degC = 0.0;
  double days = 0.0;  // date mark: use or discard within; 0: none
  std::string source;
  Surety sure = Surety::memory;
  std::string note;
};

struct AgeingRule {
  std::string id;
  std::string title;
  double at_most_degC = 0.0;
  double at_least_s = 0.0;
  std::string source;
  Surety sure = Surety::memory;
  std::string note;
};

// Heat resistance: D(T) = D_s 10^((at_degC - T) / z_K).
struct Inactivation {
  std::string id;
  std::string title;
  std::string medium;
  double D_s = 1.0;
  double at_degC = 72.0;
  double z_K = 7.0;
  std::string source;
  Surety sure = Surety::memory;
  std::string note;
};

enum class GrowthLaw : unsigned char {
  square_root,  // sqrt(rate) = root_per_h_K (T - lowest)(1 - exp(bend_per_K (T - highest))); bend 0: without
                // the last factor
  cardinal      // Rosso et al. 1993, cardinal temperatures with best_log10_per_h at best_degC
};

struct Growth {
  std::string id;
  std::string title;
  std::string medium;
  GrowthLaw law = GrowthLaw::square_root;
  double root_per_h_K = 0.0;      // (log10/h)^0.5 / K
  double best_log10_per_h = 0.0;  // cardinal
  double lowest_degC = 0.0;       // no growth at or below
  double best_degC = 0.0;         // cardinal
  double highest_degC = 0.0;      // no growth at or above
  double bend_per_K = 0.0;
  double h0 = 0.0;           // work done in the lag phase (Baranyi & Roberts 1994); 0: no lag
  double start_log10 = 0.0;  // count at the start, for the upper limit
  double most_log10 = 9.0;
  std::string source;
  Surety sure = Surety::memory;
  std::string note;
};

struct Rules {
  std::vector<HeatRule> rows;        // sorted by jurisdiction, kind, temperature, id
  std::vector<CoolingRule> cooling;  // these in the order of their files
  std::vector<StorageRule> storage;
  std::vector<AgeingRule> ageing;
  std::vector<Inactivation> inactivation;
  std::vector<Growth> growth;
};

void sort_heat_rules(std::vector<HeatRule>& rows);
const HeatRule* find_heat_rule(const Rules& rules, const std::string& id);  // nullptr when unknown

// All jurisdictions of rows, cooling and storage rules, sorted, each once.
std::vector<std::string> jurisdictions(const Rules& rules);

}  // namespace stirbench::product
