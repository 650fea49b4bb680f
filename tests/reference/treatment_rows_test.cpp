#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <vector>

#include "tests/reference/product_rules.h"
#include "tests/reference/report.h"

using namespace stirbench;
using namespace stirbench::product;

namespace {

using tests::at;
using tests::at_moment;
using tests::look_up;

constexpr const char* part = "Heat-treatment rows";

const HeatRule* find(const char* id) { return find_heat_rule(tests::shipped_rules(), id); }

}  // namespace

// The law texts' own pairs, in the scale in which they print them.
TEST_CASE("published heat-treatment rows") {
  struct Expected {
    const char* id;
    double printed;
    char scale;  // F, C
    double hold_s;
    const char* source;
  };
  const char* const milk = "21 CFR 1240.61(b)";
  const char* const mix = "1 NYCRR 2.44";
  const char* const connecticut = "Conn. Reg. 21a-58-13";
  const char* const uk = "SI 1995/1372 Sch. 6";
  const char* const nz = "DPC 3 (2010), digest";
  const char* const egg = "9 CFR 590.570 Table I";
  const Expected expected[] = {
      {"us_milk_63c_30min", 145, 'F', 1800, milk},
      {"us_milk_72c_15s", 161, 'F', 15, milk},
      {"us_milk_89c_1s", 191, 'F', 1, milk},
      {"us_milk_90c_500ms", 194, 'F', 0.5, milk},
      {"us_milk_94c_100ms", 201, 'F', 0.1, milk},
      {"us_milk_96c_50ms", 204, 'F', 0.05, milk},
      {"us_milk_100c_10ms", 212, 'F', 0.01, milk},
      {"us_rich_66c_30min", 150, 'F', 1800, milk},
      {"us_rich_75c_15s", 166, 'F', 15, milk},
      {"mi_rich_91c_1s", 196, 'F', 1, "MCL 288.697"},
      {"us_mix_69c_30min", 155, 'F', 1800, mix},
      {"us_mix_80c_25s", 175, 'F', 25, mix},
      {"us_mix_83c_15s", 180, 'F', 15, mix},
      {"usda_mix_80c_25s", 175, 'F', 25, "7 CFR 58.635"},
      {"ct_mix_160f_15min", 160, 'F', 900, connecticut},
      {"ct_mix_165f_10min", 165, 'F', 600, connecticut},
      {"ct_mix_170f_5min", 170, 'F', 300, connecticut},
      {"ct_mix_200f_3s", 200, 'F', 3, connecticut},
      {"ct_mix_210f_0s", 210, 'F', 0, connecticut},
      {"uk_mix_65_6c_30min", 65.6, 'C', 1800, uk},
      {"uk_mix_71_1c_10min", 71.1, 'C', 600, uk},
      {"uk_mix_79_4c_15s", 79.4, 'C', 15, uk},
      {"uk_mix_148_9c_2s", 148.9, 'C', 2, uk},
      {"uk_mix_148c_2s", 148, 'C', 2, "SI 1995/1086"},
      {"ca_mix_80c_25s", 80, 'C', 25, "Alberta Dairy Industry Regulation Sch. 1"},
      {"nz_mix_69c_20min", 69, 'C', 1200, nz},
      {"nz_mix_74c_10min", 74, 'C', 600, nz},
      {"nz_mix_85_5c_10s", 85.5, 'C', 10, nz},
      {"eu_milk_72c_15s", 72, 'C', 15, "Reg. 853/2004 (from memory)"},
      {"codex_milk_63c_30min", 63, 'C', 1800, "CAC/RCP 57-2004 (from memory)"},
      {"us_egg_whole_60c", 140, 'F', 210, egg},
      {"us_egg_blend_61c", 142, 'F', 210, egg},
      {"us_egg_blend_60c", 140, 'F', 372, egg},
      {"us_yolk_sugared_63c", 146, 'F', 210, egg},
      {"us_yolk_sugared_62c", 144, 'F', 372, egg},
      {"us_albumen_57c", 134, 'F', 210, egg},
      {"us_albumen_56c", 132, 'F', 372, egg},
      {"us_eggnog_83c_15s", 180, 'F', 15, "21 CFR 1240.61(c)"},
  };
  for (const Expected& e : expected) {
    CAPTURE(e.id);
    const HeatRule* row = find(e.id);
    REQUIRE(row != nullptr);
    const bool celsius = e.scale == 'C';
    look_up(part, at(celsius ? "temperature_degC" : "temperature_degF", e.id),
            celsius ? row->temperature_degC : row->temperature_degC * 1.8 + 32.0, e.printed, e.source);
    look_up(part, at("hold_s", e.id), row->hold_s, e.hold_s, e.source);
  }
}

namespace {

// Whether a batch meets the row that is heated from 20 degC at once, kept at `t_degC` and then let go.
bool met(const HeatRule& row, double t_degC, double hold_s) {
  const std::vector<HeatRule> list = {row};
  HeatRuleWatch watch(list);
  double t_s = 0.0;
  const auto see = [&](double degC) {
    VatSample s = at_moment(t_s, degC);
    s.head_space_degC = degC + row.air_space_K + 1.0;
    s.stirred = true;
    watch.see(s);
  };
  see(20.0);
  t_s = 1.0e-7;
  see(t_degC);
  for (int i = 0; i < 50; ++i) {
    t_s += hold_s / 50.0;
    see(t_degC);
  }
  t_s += 1.0e-7;
  see(20.0);
  return watch.verdict(0).met;
}

}  // namespace

TEST_CASE("each heat-treatment row is met just at its limit, and not just beside it") {
  for (const HeatRule& row : tests::shipped_rules().rows) {
    CAPTURE(row.id);
    const double t = row.temperature_degC;
    CHECK(met(row, t + 1.0e-6, row.hold_s * 1.0001));
    CHECK_FALSE(met(row, t - 1.0e-6, row.hold_s * 1.0001));
    if (row.hold_s > 0.0) CHECK_FALSE(met(row, t + 1.0e-6, row.hold_s * 0.999));
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
