#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "tests/reference/product_rules.h"
#include "tests/reference/report.h"

using namespace stirbench;
using namespace stirbench::product;

namespace {

using tests::absolute;
using tests::at;
using tests::reference_check;
using tests::relative;

constexpr const char* part = "Heat-treatment rows";

const HeatRule* find(const char* id) { return find_heat_rule(tests::shipped_rules(), id); }

}  // namespace

// The law texts' own pairs; degF converted exactly (the Celsius figure printed beside it is rounded).
TEST_CASE("published heat-treatment rows") {
  const char* const source = "The law texts named beside each row in treatment_rows_test.cpp";
  struct Expected {
    const char* id;
    double t, hold_s;
  };
  const Expected expected[] = {
      {"us_milk_63c_30min", 62.7778, 1800},  // 21 CFR 1240.61(b): 145 degF
      {"us_milk_72c_15s", 71.6667, 15},      // 161 degF
      {"us_milk_89c_1s", 88.3333, 1},        // 191 degF
      {"us_milk_90c_500ms", 90.0, 0.5},      // 194 degF
      {"us_milk_94c_100ms", 93.8889, 0.1},   // 201 degF
      {"us_milk_96c_50ms", 95.5556, 0.05},   // 204 degF
      {"us_milk_100c_10ms", 100.0, 0.01},    // 212 degF
      {"us_rich_66c_30min", 65.5556, 1800},  // 150 degF
      {"us_rich_75c_15s", 74.4444, 15},      // 166 degF
      {"mi_rich_91c_1s", 91.1111, 1},        // MCL 288.697: 196 degF
      {"us_mix_69c_30min", 68.3333, 1800},   // 1 NYCRR 2.44: 155 degF
      {"us_mix_80c_25s", 79.4444, 25},       // 175 degF
      {"us_mix_83c_15s", 82.2222, 15},       // 180 degF
      {"usda_mix_80c_25s", 79.4444, 25},     // 7 CFR 58.635
      {"ct_mix_160f_15min", 71.1111, 900},   // Conn. Reg. 21a-58-13
      {"ct_mix_165f_10min", 73.8889, 600},   {"ct_mix_170f_5min", 76.6667, 300},
      {"ct_mix_200f_3s", 93.3333, 3},        {"ct_mix_210f_0s", 98.8889, 0},
      {"uk_mix_65_6c_30min", 65.6, 1800},  // SI 1995/1372 Sch. 6
      {"uk_mix_71_1c_10min", 71.1, 600},     {"uk_mix_79_4c_15s", 79.4, 15},
      {"ca_mix_80c_25s", 80.0, 25},          // Alberta Dairy Industry Regulation Sch. 1
      {"nz_mix_85_5c_10s", 85.5, 10},        // DPC 3 (2010)
      {"eu_milk_72c_15s", 72.0, 15},         // Reg. 853/2004 (from memory)
      {"codex_milk_63c_30min", 63.0, 1800},  // CAC/RCP 57-2004 (from memory)
      {"us_egg_whole_60c", 60.0, 210},       // 9 CFR 590.570 Table I: 140 degF 3.5 min
      {"us_egg_blend_61c", 61.1111, 210},    // 142 degF 3.5 min
      {"us_egg_blend_60c", 60.0, 372},       // 140 degF 6.2 min
      {"us_yolk_sugared_63c", 63.3333, 210}, {"us_yolk_sugared_62c", 62.2222, 372},  // 146, 144 degF
      {"us_albumen_57c", 56.6667, 210},      {"us_albumen_56c", 55.5556, 372},       // 134, 132 degF
      {"uk_mix_148_9c_2s", 148.9, 2},        {"uk_mix_148c_2s", 148.0, 2},
      {"nz_mix_69c_20min", 69.0, 1200},      {"nz_mix_74c_10min", 74.0, 600},
      {"us_eggnog_83c_15s", 82.2222, 15},  // 21 CFR 1240.61(c)
  };
  for (const Expected& e : expected) {
    CAPTURE(e.id);
    const HeatRule* row = find(e.id);
    REQUIRE(row != nullptr);
    reference_check(part, at("temperature_degC", e.id), row->temperature_degC, e.t, relative(1.0e-5), source);
    reference_check(part, at("hold_s", e.id), row->hold_s, e.hold_s, relative(1.0e-5), source);
  }
}

TEST_CASE("rows are complete, unique and sorted") {
  const auto& rows = tests::shipped_rules().rows;
  REQUIRE(rows.size() >= 78);
  std::set<std::string> ids;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    CAPTURE(rows[i].id);
    CHECK(ids.insert(rows[i].id).second);
    CHECK_FALSE(rows[i].title.empty());
    CHECK_FALSE(rows[i].source.empty());
    if (i == 0) continue;
    CHECK(rows[i - 1].jurisdiction <= rows[i].jurisdiction);
    if (rows[i - 1].jurisdiction == rows[i].jurisdiction && rows[i - 1].kind == rows[i].kind) {
      CHECK(rows[i - 1].temperature_degC <= rows[i].temperature_degC);
    }
  }
  // Hotter is never longer within one authority and product; liquid egg is several products in one list.
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const bool same = rows[i - 1].jurisdiction == rows[i].jurisdiction && rows[i - 1].kind == rows[i].kind;
    if (same && rows[i].kind != ProductKind::liquid_egg) CHECK(rows[i].hold_s <= rows[i - 1].hold_s);
  }
}
