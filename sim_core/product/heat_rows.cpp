#include <algorithm>
#include <tuple>

#include "sim_core/product/figures.h"

namespace stirbench::product {
namespace {

constexpr double minute_s = 60.0;

double from_degF(double t_degF) {
  return (t_degF - 32.0) / 1.8;
}

const char* const us_milk_source =
    "21 CFR 1240.61(b), as amended 1992; same rows in 1 NYCRR 2.44 (text seen)";
const char* const us_rich_source =
    "21 CFR 1240.61(b) note 1: 10 % fat or more, or sweetened: 5 degF (3 K) higher (text seen)";
const char* const us_state_source = "MCL 288.697 (2001/2008): 5 degF higher on every row (text seen)";
const char* const us_mix_source =
    "1 NYCRR 2.44; MCL 288.697; PMO 2019; eggnog rows of 21 CFR 1240.61(c) are the same (text seen; PMO in a "
    "digest)";
const char* const usda_source = "7 CFR 58.635 (text seen)";
const char* const connecticut_source = "Conn. Agencies Reg. 21a-58-13 (text seen)";
const char* const uk_source =
    "SI 1995/1372 (Scotland) Sch. 6 Pt V (text seen); replaced in 2006 by the EU hygiene rules, kept as "
    "guidance (from memory)";
const char* const uk_sterile_source =
    "SI 1995/1372 (Scotland) Sch. 6 Pt VI; SI 1995/1086 (England) says 148 degC (text seen)";
const char* const canada_source = "Alberta Dairy Industry Regulation Sch. 1; Ontario summary (digest seen)";
const char* const nz_source = "DPC 3 (2010), particles up to 1 mm (digest seen)";
const char* const australia_source = "Food Standards Code, Standard 4.2.4 cl. 15 (digest seen)";
const char* const eu_source =
    "Reg. (EC) 853/2004 Annex III Sec. IX Ch. II as amended by 1662/2006 (from memory)";
const char* const codex_source = "CAC/RCP 57-2004 Annex II App. B (from memory)";

std::vector<HeatRow> united_states_milk() {
  const char* const j = "United States, milk";
  return {
      {"us_milk_63c_30min", "US milk, 145 degF (63 degC) for 30 min", j, us_milk_source, from_degF(145.0),
       30.0 * minute_s},
      {"us_milk_72c_15s", "US milk, 161 degF (72 degC) for 15 s", j, us_milk_source, from_degF(161.0), 15.0},
      {"us_milk_89c_1s", "US milk, 191 degF (89 degC) for 1 s", j, us_milk_source, from_degF(191.0), 1.0},
      {"us_milk_90c_500ms", "US milk, 194 degF (90 degC) for 0.5 s", j, us_milk_source, from_degF(194.0),
       0.5},
      {"us_milk_94c_100ms", "US milk, 201 degF (94 degC) for 0.1 s", j, us_milk_source, from_degF(201.0),
       0.1},
      {"us_milk_96c_50ms", "US milk, 204 degF (96 degC) for 0.05 s", j, us_milk_source, from_degF(204.0),
       0.05},
      {"us_milk_100c_10ms", "US milk, 212 degF (100 degC) for 0.01 s", j, us_milk_source, from_degF(212.0),
       0.01},
  };
}

std::vector<HeatRow> united_states_rich_milk() {
  const char* const j = "United States, milk rich or sweetened";
  const char* const m = "Michigan, milk rich or sweetened";
  return {
      {"us_rich_66c_30min", "US milk, 10 % fat or sweetened, 150 degF (66 degC) for 30 min", j,
       us_rich_source, from_degF(150.0), 30.0 * minute_s},
      {"us_rich_75c_15s", "US milk, 10 % fat or sweetened, 166 degF (75 degC) for 15 s", j, us_rich_source,
       from_degF(166.0), 15.0},
      {"us_rich_89c_1s", "US milk, 10 % fat or sweetened, 191 degF (89 degC) for 1 s", j, us_milk_source,
       from_degF(191.0), 1.0},
      {"us_rich_90c_500ms", "US milk, 10 % fat or sweetened, 194 degF (90 degC) for 0.5 s", j, us_milk_source,
       from_degF(194.0), 0.5},
      {"us_rich_94c_100ms", "US milk, 10 % fat or sweetened, 201 degF (94 degC) for 0.1 s", j, us_milk_source,
       from_degF(201.0), 0.1},
      {"us_rich_96c_50ms", "US milk, 10 % fat or sweetened, 204 degF (96 degC) for 0.05 s", j, us_milk_source,
       from_degF(204.0), 0.05},
      {"us_rich_100c_10ms", "US milk, 10 % fat or sweetened, 212 degF (100 degC) for 0.01 s", j,
       us_milk_source, from_degF(212.0), 0.01},
      {"mi_rich_66c_30min", "Michigan milk, 10 % fat or sweetened, 150 degF for 30 min", m, us_state_source,
       from_degF(150.0), 30.0 * minute_s},
      {"mi_rich_75c_15s", "Michigan milk, 10 % fat or sweetened, 166 degF for 15 s", m, us_state_source,
       from_degF(166.0), 15.0},
      {"mi_rich_91c_1s", "Michigan milk, 10 % fat or sweetened, 196 degF for 1 s", m, us_state_source,
       from_degF(196.0), 1.0},
      {"mi_rich_93c_500ms", "Michigan milk, 10 % fat or sweetened, 199 degF for 0.5 s", m, us_state_source,
       from_degF(199.0), 0.5},
      {"mi_rich_97c_100ms", "Michigan milk, 10 % fat or sweetened, 206 degF for 0.1 s", m, us_state_source,
       from_degF(206.0), 0.1},
      {"mi_rich_98c_50ms", "Michigan milk, 10 % fat or sweetened, 209 degF for 0.05 s", m, us_state_source,
       from_degF(209.0), 0.05},
      {"mi_rich_103c_10ms", "Michigan milk, 10 % fat or sweetened, 217 degF for 0.01 s", m, us_state_source,
       from_degF(217.0), 0.01},
  };
}

std::vector<HeatRow> north_american_mix() {
  const char* const us = "United States, frozen dessert mix";
  const char* const nog = "United States, eggnog";
  const char* const usda = "United States, USDA plants";
  const char* const ct = "Connecticut, frozen dessert mix";
  const char* const nog_source = "21 CFR 1240.61(c) (text seen)";
  return {
      {"us_mix_69c_30min", "US frozen dessert mix, 155 degF (69 degC) for 30 min", us, us_mix_source,
       from_degF(155.0), 30.0 * minute_s},
      {"us_mix_80c_25s", "US frozen dessert mix, 175 degF (80 degC) for 25 s", us, us_mix_source,
       from_degF(175.0), 25.0},
      {"us_mix_83c_15s", "US frozen dessert mix, 180 degF (83 degC) for 15 s", us, us_mix_source,
       from_degF(180.0), 15.0},
      {"us_eggnog_69c_30min", "US eggnog, 155 degF (69 degC) for 30 min", nog, nog_source, from_degF(155.0),
       30.0 * minute_s},
      {"us_eggnog_80c_25s", "US eggnog, 175 degF (80 degC) for 25 s", nog, nog_source, from_degF(175.0),
       25.0},
      {"us_eggnog_83c_15s", "US eggnog, 180 degF (83 degC) for 15 s", nog, nog_source, from_degF(180.0),
       15.0},
      {"usda_mix_69c_30min", "USDA plant rule, mix, 155 degF for 30 min", usda, usda_source, from_degF(155.0),
       30.0 * minute_s},
      {"usda_mix_80c_25s", "USDA plant rule, mix, 175 degF for 25 s", usda, usda_source, from_degF(175.0),
       25.0},
      {"ct_mix_155f_30min", "Connecticut mix, 155 degF for 30 min", ct, connecticut_source, from_degF(155.0),
       30.0 * minute_s},
      {"ct_mix_160f_15min", "Connecticut mix, 160 degF for 15 min", ct, connecticut_source, from_degF(160.0),
       15.0 * minute_s},
      {"ct_mix_165f_10min", "Connecticut mix, 165 degF for 10 min", ct, connecticut_source, from_degF(165.0),
       10.0 * minute_s},
      {"ct_mix_170f_5min", "Connecticut mix, 170 degF for 5 min", ct, connecticut_source, from_degF(170.0),
       5.0 * minute_s},
      {"ct_mix_175f_25s", "Connecticut mix, 175 degF for 25 s", ct, connecticut_source, from_degF(175.0),
       25.0},
      {"ct_mix_200f_3s", "Connecticut mix, 200 degF for 3 s", ct, connecticut_source, from_degF(200.0), 3.0},
      {"ct_mix_210f_0s", "Connecticut mix, 210 degF reached, no hold", ct, connecticut_source,
       from_degF(210.0), 0.0},
      {"ca_milk_63c_30min", "Canada milk, 63 degC for 30 min", "Canada, milk", canada_source, 63.0,
       30.0 * minute_s},
      {"ca_milk_72c_16s", "Canada milk, 72 degC for 16 s", "Canada, milk", canada_source, 72.0, 16.0},
      {"ca_rich_66c_30min", "Canada milk, 10 % fat or sugar, 66 degC for 30 min",
       "Canada, milk rich or sweetened", canada_source, 66.0, 30.0 * minute_s},
      {"ca_rich_75c_16s", "Canada milk, 10 % fat or sugar, 75 degC for 16 s",
       "Canada, milk rich or sweetened", canada_source, 75.0, 16.0},
      {"ca_mix_69c_30min", "Canada frozen dairy mix, 69 degC for 30 min", "Canada, frozen dairy mix",
       canada_source, 69.0, 30.0 * minute_s},
      {"ca_mix_80c_25s", "Canada frozen dairy mix, 80 degC for 25 s", "Canada, frozen dairy mix",
       canada_source, 80.0, 25.0},
      {"ca_mix_83c_16s", "Canada frozen dairy mix, 83 degC for 16 s", "Canada, frozen dairy mix",
       canada_source, 83.0, 16.0},
  };
}

std::vector<HeatRow> other_countries() {
  const char* const uk = "United Kingdom, ice-cream";
  const char* const nz = "New Zealand, ice-cream mix";
  const char* const eu = "European Union, milk";
  const char* const codex = "Codex Alimentarius, milk";
  return {
      {"uk_mix_65_6c_30min", "UK ice-cream, 65.6 degC for 30 min", uk, uk_source, 65.6, 30.0 * minute_s},
      {"uk_mix_71_1c_10min", "UK ice-cream, 71.1 degC for 10 min", uk, uk_source, 71.1, 10.0 * minute_s},
      {"uk_mix_79_4c_15s", "UK ice-cream, 79.4 degC for 15 s", uk, uk_source, 79.4, 15.0},
      {"uk_mix_148_9c_2s", "UK sterilised ice-cream, 148.9 degC for 2 s", uk, uk_sterile_source, 148.9, 2.0},
      {"nz_mix_69c_20min", "New Zealand mix, 69 degC for 20 min", nz, nz_source, 69.0, 20.0 * minute_s},
      {"nz_mix_74c_10min", "New Zealand mix, 74 degC for 10 min", nz, nz_source, 74.0, 10.0 * minute_s},
      {"nz_mix_79_5c_15s", "New Zealand mix, 79.5 degC for 15 s", nz, nz_source, 79.5, 15.0},
      {"nz_mix_85_5c_10s", "New Zealand mix, 85.5 degC for 10 s", nz, nz_source, 85.5, 10.0},
      {"au_milk_72c_15s", "Australia milk, 72 degC for 15 s", "Australia, milk", australia_source, 72.0,
       15.0},
      {"eu_milk_63c_30min", "EU milk, 63 degC for 30 min", eu, eu_source, 63.0, 30.0 * minute_s},
      {"eu_milk_72c_15s", "EU milk, 72 degC for 15 s", eu, eu_source, 72.0, 15.0},
      {"codex_milk_63c_30min", "Codex milk, 63 degC for 30 min", codex, codex_source, 63.0, 30.0 * minute_s},
      {"codex_milk_72c_15s", "Codex milk, 72 degC for 15 s", codex, codex_source, 72.0, 15.0},
  };
}

std::vector<HeatRow> all_rows() {
  std::vector<HeatRow> rows;
  for (auto part :
       {united_states_milk(), united_states_rich_milk(), north_american_mix(), other_countries()}) {
    rows.insert(rows.end(), part.begin(), part.end());
  }
  std::sort(rows.begin(), rows.end(), [](const HeatRow& a, const HeatRow& b) {
    return std::tie(a.jurisdiction, a.temperature_degC, a.id) <
           std::tie(b.jurisdiction, b.temperature_degC, b.id);
  });
  return rows;
}

}  // namespace

const std::vector<HeatRow>& heat_rows() {
  static const std::vector<HeatRow> rows = all_rows();  // constant data
  return rows;
}

}  // namespace stirbench::product
