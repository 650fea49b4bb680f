#include <doctest/doctest.h>

#include <cmath>
#include <tuple>

#include "sim_core/product/kinetics.h"
#include "sim_core/product/lethality.h"
#include "sim_core/product/quality.h"
#include "tests/reference/product_rules.h"
#include "tests/reference/report.h"

using namespace stirbench;
using namespace stirbench::product;

// What heat does: the judge's lethality integral, the organisms of the content, whey protein and custard.
namespace {

using tests::absolute;
using tests::at;
using tests::at_moment;
using tests::look_up;
using tests::measured;
using tests::own_arithmetic;
using tests::reference_check;
using tests::relative;
using tests::Source;
using tests::worked_example;

constexpr const char* part = "Lethality and heat damage";

const Inactivation& organism(const char* id) { return tests::by_id(tests::shipped_rules().inactivation, id); }

// log10 reduction of a hold, sampled each second.
double held_log10(const Inactivation& one, double t_degC, double hold_s) {
  const std::vector<Inactivation> list = {one};
  LethalityWatch watch(list);
  const auto steps = std::lround(hold_s);
  for (long i = 0; i <= steps; ++i) watch.see(at_moment(static_cast<double>(i), t_degC));
  return watch.log10(0);
}

}  // namespace

// D and z are content's own numbers; what the same papers say besides them is evidence (process tables 3a).
TEST_CASE("heat resistance of the organisms in the content") {
  const Inactivation& mix = organism("listeria_mix");
  const Inactivation& milk = organism("listeria_milk");
  const Inactivation& cells = organism("listeria_phagocytes");
  const auto z_K = [](const Inactivation& one) {
    return 1.0 / std::log10(D_at_s(one, 65.0) / D_at_s(one, 66.0));
  };
  const char* const bradshaw_1987 = "Bradshaw et al. 1987, J Food Prot 50:543";
  const char* const bradshaw_1985 = "Bradshaw et al. 1985, J Food Prot 48:743";
  const char* const bunning = "Bunning et al. 1988, Appl Environ Microbiol";
  look_up(part, "D(79.4 degC) of Listeria in ice-cream mix, s", D_at_s(mix, 79.4), 0.5, bradshaw_1987);
  look_up(part, "z of Listeria in ice-cream mix, K", z_K(mix), 7.0, bradshaw_1987);
  look_up(part, "D(71.7 degC) of Listeria in milk, s", D_at_s(milk, 71.7), 0.9, bradshaw_1985);
  look_up(part, "z of Listeria in milk, K", z_K(milk), 6.3, bradshaw_1985);
  look_up(part, "z of Listeria in phagocytes, K", z_K(cells), 5.6, bunning);
  look_up(part, "D(71.7 degC) of Coxiella in milk, s", D_at_s(organism("coxiella_milk"), 71.7), 1.99,
          "IAFP 2016, abstract of paper 11323");
  reference_check(part, "D(52.2 degC) of Listeria in milk by D and z, s", D_at_s(milk, 52.2), 1121.0,
                  absolute(0.5), own_arithmetic("D and z of Bradshaw et al. 1985, by hand", "whole seconds"));
  const Source ends = measured("Bradshaw et al. 1985, J Food Prot 48:743, end points of the measured range",
                               "5 % of z (estimated) over the distance from 71.7 degC: 43 % at 52.2 degC; a "
                               "tenth of a second and as much for heating up at 74.4 degC: 20 %")
                          .held_out();
  reference_check(part, at("D of Listeria in milk at an end point, s", 52.2), D_at_s(milk, 52.2), 1683.7,
                  relative(0.43), ends);
  reference_check(part, at("D of Listeria in milk at an end point, s", 74.4), D_at_s(milk, 74.4), 0.7,
                  2 * relative(0.2), ends);
  reference_check(
      part, "D(71.7 degC) of Listeria in other milks and cream, s", D_at_s(milk, 71.7), 1.8, absolute(0.9),
      measured("Bradshaw et al. 1987, J Food Prot 50:543: 0.9 to 2.7 s", "half the range").held_out());
  reference_check(part, "decades of Listeria in phagocytes in 30 min at 62.8 degC",
                  held_log10(cells, 62.8, 1800.0), 33.4, 2 * absolute(0.05),
                  worked_example("Bunning et al. 1988, Appl Environ Microbiol, their own figure from their D",
                                 "half of the last digit"));
  // Reductions so large that the plant could show only a lower bound.
  const Source plant = measured(
                           "Pearce et al. 2012, J Dairy Sci 95:20, 15 s in a pilot pasteuriser, log10 "
                           "reduction of at least",
                           "counting of 1 in 10^7: a third of a decade, estimated")
                           .held_out();
  reference_check(part, "Listeria in milk, 15 s at 65.5 degC, log10", held_log10(milk, 65.5, 15.0), 6.9,
                  2 * absolute(0.33), plant);
  reference_check(part, "Salmonella in milk, 15 s at 61.5 degC, log10",
                  held_log10(organism("salmonella_milk"), 61.5, 15.0), 6.9, 2 * absolute(0.33), plant);
  // Codex aims at 5 decades of Coxiella for 72 degC 15 s and 63 degC 30 min (CAC/RCP 57-2004, digest).
  CHECK(held_log10(organism("coxiella_milk"), 72.0, 15.0) > 5.0);
  CHECK(held_log10(organism("coxiella_milk"), 62.7778, 1800.0) > 5.0);
  // Enright et al. 1957, AJPH 47:695: 145 degF 30 min has a margin over 143 degF 30 min.
  CHECK(held_log10(organism("coxiella_milk"), 62.7778, 1800.0) >
        1.7 * held_log10(organism("coxiella_milk"), 61.6667, 1800.0));
}

// Decades in the legal rows with Listeria in ice-cream mix, by hand (process table 3c).
TEST_CASE("the judge's lethality in the legal rows") {
  const Source source = own_arithmetic("D and z of Bradshaw et al. 1987, by hand", "half of the last digit");
  struct Row {
    double t, seconds, log10;
  };
  const Row rows[] = {{65.6, 1800, 38.4}, {68.3333, 1800, 94.5}, {69, 1200, 78.4},   {71.1, 600, 78.2},
                      {79.4, 15, 30.0},   {79.4444, 25, 50.7},   {82.2222, 15, 75.9}};
  for (const Row& row : rows) {
    CAPTURE(row.t);
    reference_check(part, at("decades by the judge", row.t, row.seconds),
                    held_log10(organism("listeria_mix"), row.t, row.seconds), row.log10, absolute(0.05),
                    source);
  }
}

TEST_CASE("the judge's integral is exact on a ramp, however far apart the samples are") {
  const std::vector<Inactivation> list = {organism("listeria_mix")};
  for (const double every_s : {0.1, 10.0, 60.0}) {
    LethalityWatch watch(list);
    // 1 K/min up to 79.4 degC from where nothing dies.
    const auto steps = std::lround(50.0 * 60.0 / every_s);
    for (long i = 0; i <= steps; ++i) {
      const double t_s = static_cast<double>(i) * every_s;
      watch.see(at_moment(t_s, 29.4 + t_s / 60.0));
    }
    reference_check(part, at("minutes at 79.4 degC after a ramp of 1 K/min, samples each s", every_s),
                    watch.log10(0) * 0.5 / 60.0, 7.0 / std::log(10.0), relative(1e-4),
                    own_arithmetic("Closed form z / (r ln 10)", "the ramp's lower end, where little dies"));
  }
  reference_check(part, "ramp in one step, s", lethal_seconds(69.4, 79.4, 600.0, 79.4, 7.0),
                  600.0 * (1.0 - std::pow(10.0, -10.0 / 7.0)) / (std::log(10.0) * 10.0 / 7.0),
                  relative(1e-12), own_arithmetic("Closed form of one step", "last bits"));
  reference_check(part, "no ramp in one step, s", lethal_seconds(79.4, 79.4, 600.0, 79.4, 7.0), 600.0,
                  relative(1e-12), own_arithmetic("Closed form of one step", "last bits"));
}

// Mullan, dairyscience.info (after Stumbo 1973); Food Biochemistry and Food Processing 2e (2012), Table 38.4;
// lecture table z 10 K.
TEST_CASE("published worked examples by the judge's integral") {
  const Source mullan = worked_example(
      "Mullan, dairyscience.info (after Stumbo 1973): 15 min at 85 degC, z 8.7 K", "half of the last digit");
  const double minutes = lethal_seconds(85.0, 85.0, 15.0, 102.0, 8.7);
  reference_check(part, "equal minutes at 102 degC", minutes, 0.167, absolute(0.0005), mullan);
  reference_check(part, "exponent of the lethal rate", std::log10(minutes / 15.0), -1.954, absolute(0.0005),
                  mullan);
  double value = 0.0;
  const double t_degF[] = {62, 71, 99, 134, 171, 202, 231, 241, 247, 248, 250, 250, 231, 181, 137, 97};
  for (const double t : t_degF) value += lethal_seconds(t, t, 4.0, 250.0, 18.0) / 2.52;
  reference_check(part, "sterilising value of the retort", value, 6.27, absolute(0.005),
                  worked_example("Food Biochemistry and Food Processing 2e (2012), Table 38.4",
                                 "half of the last digit"));
  const Source lecture = worked_example("Lecture table (secondary): z 10 K, reference 121.1 degC, 12 decades",
                                        "one or two digits: 5 %");
  for (const auto& [t, rate, minutes_12D] :
       {std::tuple{101.1, 0.01, 240.0}, {111.1, 0.1, 24.0}, {131.1, 10.0, 0.25}}) {
    const double ours = lethal_seconds(t, t, 1.0, 121.1, 10.0);
    reference_check(part, at("lethal rate", t), ours, rate, relative(0.05), lecture);
    reference_check(part, at("minutes for 12 decades", t), 2.4 / ours, minutes_12D, relative(0.05), lecture);
  }
  // Exam question: D(121.1) 1.2 min, D(139.1) 0.019 min, 12 decades at 130 degC (the often quoted 132 s is
  // wrong).
  Inactivation spore;
  spore.D_s = 72.0;
  spore.at_degC = 121.1;
  spore.z_K = 18.0 / std::log10(1.2 / 0.019);
  reference_check(part, "12 decades at 130 degC, s", 12.0 * D_at_s(spore, 130.0), 111.3, absolute(0.05),
                  own_arithmetic("By hand from the two D values", "half of the last digit"));
}

TEST_CASE("raw additions carry survivors: a mass balance by hand") {
  const std::vector<Inactivation> list = {organism("listeria_mix")};
  LethalityWatch watch(list);
  watch.see(at_moment(0.0, 85.0));
  watch.see(at_moment(60.0, 85.0));
  REQUIRE(watch.log10(0) > 100.0);
  VatSample late = at_moment(61.0, 80.0);
  late.mass_kg = late.brought_kg = 41.0;
  watch.see(late);
  reference_check(part, "decades after 1 kg raw into 40 kg treated", watch.log10(0), std::log10(41.0),
                  relative(1e-9), own_arithmetic("Mass balance", "last bits"));
}

// product_kinetics_test.cpp checks the share itself against Larson & Rolleri 1955.
TEST_CASE("whey protein in the quality report") {
  for (const double t : {62.0, 74.0, 96.0}) {
    Product p;
    p.mass_kg[Component::water] = 35.0;
    p.mass_kg[Component::milk_protein] = 1.3;
    for (int i = 0; i < 1800; ++i) advance(p, {t, t, t, 40.0, 0.2}, 1.0);
    CHECK(p.native_whey_norm < 1.0);
    CHECK(quality(p, 0.0, 0.1, false).whey_denatured_norm == doctest::Approx(1.0 - p.native_whey_norm));
  }
}

// A food-science textbook (McGee, title from memory): custard with milk and sugar starts to thicken near
// 78-80 degC; egg by itself sets near 70. Tertiary pages and memory: working limit 82-85 degC, curdled a few
// kelvins above. Windows, not figures: the model's rates are a choice.
TEST_CASE("custard windows") {
  const auto cooked = [](double t_degC, double seconds) {
    Product p;
    p.mass_kg[Component::water] = 25.0;
    p.mass_kg[Component::egg_protein] = 0.4;
    p.mass_kg[Component::milk_protein] = 1.2;
    for (int i = 0; i < static_cast<int>(seconds); ++i) advance(p, {t_degC, t_degC, t_degC, 40.0, 0.2}, 1.0);
    return quality(p, 0.0, 0.1, false);
  };
  CHECK(cooked(60.0, 300.0).egg == EggWord::liquid);
  CHECK(cooked(80.0, 60.0).egg == EggWord::set);
  CHECK(cooked(79.0, 15.0).egg == EggWord::thickening);
  CHECK(cooked(82.0, 60.0).egg == EggWord::set);
  CHECK(cooked(88.0, 60.0).egg == EggWord::curdled);
  CHECK(cooked(85.0, 300.0).egg == EggWord::curdled);
}
