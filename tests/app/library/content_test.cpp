#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <filesystem>

#include "app/library/food/recipe_check.h"
#include "app/library/food/recipe_store.h"
#include "app/library/reading/content_hash.h"
#include "app/library/schema.h"
#include "app/library/tables.h"
#include "sim_core/product/properties.h"
#include "tests/app/library/scratch.h"
#include "tests/support/hm20_spec.h"
#include "tests/support/hm45_spec.h"

using namespace stirbench;
using library_test::content_dir;
using library_test::shipped;

namespace {

// A struct's numbers as a row: its members from the first number on, all of them eight bytes wide (an int
// takes its padding along).
template <class T, class First>
std::vector<double> row(const T& part, const First& first) {
  const auto* begin = reinterpret_cast<const char*>(&first);
  const auto bytes = sizeof(T) - static_cast<std::size_t>(begin - reinterpret_cast<const char*>(&part));
  std::vector<double> out(bytes / sizeof(double));
  std::memcpy(out.data(), begin, bytes);
  return out;
}

void same_machine(const plant::MachineSpec& file, const plant::MachineSpec& code) {
  CHECK(file.id == code.id);
  CHECK(file.title == code.title);
  CHECK(file.supply_V == code.supply_V);
  CHECK(row(file.vat, file.vat) == row(code.vat, code.vat));
  CHECK(row(file.well, file.well) == row(code.well, code.well));
  CHECK(file.elements.count == code.elements.count);
  CHECK(row(file.elements, file.elements.rated_W_each) == row(code.elements, code.elements.rated_W_each));
  CHECK(file.chiller.refrigerant == code.chiller.refrigerant);
  CHECK(row(file.chiller, file.chiller.swept_m3_per_h) == row(code.chiller, code.chiller.swept_m3_per_h));
  CHECK(row(file.drive, file.drive) == row(code.drive, code.drive));
  CHECK(row(file.agitator, file.agitator) == row(code.agitator, code.agitator));
  CHECK(row(file.pump, file.pump) == row(code.pump, code.pump));
  CHECK(file.agitator_bushing.material == code.agitator_bushing.material);
  CHECK(row(file.agitator_bushing, file.agitator_bushing.diameter_m) ==
        row(code.agitator_bushing, code.agitator_bushing.diameter_m));
  CHECK(file.shaft_end_bushing.material == code.shaft_end_bushing.material);
  CHECK(row(file.shaft_end_bushing, file.shaft_end_bushing.diameter_m) ==
        row(code.shaft_end_bushing, code.shaft_end_bushing.diameter_m));
  CHECK(row(file.draw, file.draw) == row(code.draw, code.draw));
  CHECK(row(file.rinse, file.rinse) == row(code.rinse, code.rinse));
  CHECK(row(file.probe, file.probe) == row(code.probe, code.probe));
  CHECK(row(file.seal, file.seal) == row(code.seal, code.seal));
}

}  // namespace

TEST_CASE("the shipped content is without problem") {
  CHECK(library_test::joined(library::load(content_dir(), "").problems) == "");
  CHECK(shipped().machines.size() >= 2);
  CHECK(shipped().ingredients.size() >= 18);
  CHECK(shipped().recipes.size() >= 7);
  CHECK(shipped().cautions.size() >= 10);
  for (const char* id : {"white-base-high", "white-base-low", "chocolate-base", "egg-custard", "fruit-syrup",
                         "oat-coconut-base"}) {
    CAPTURE(id);
    CHECK(shipped().recipes.count(id) == 1);
  }
}

TEST_CASE("the machine files hold the numbers of the tests' own machines") {
  same_machine(shipped().machines.at("hm-45"), tests::hm45_spec());
  same_machine(shipped().machines.at("hm-20"), tests::hm20_spec());
}

TEST_CASE("no member of a machine's parts is missing from its table") {
  // All members are numbers of eight bytes but the few named here, so the size of a struct counts them.
  const auto parts = library::machine_parts();
  constexpr std::size_t one = sizeof(double);
  constexpr std::size_t text = sizeof(std::string);
  CHECK(parts.at("vat") == sizeof(plant::VatSpec) / one);
  CHECK(parts.at("well") == sizeof(plant::WellSpec) / one);
  CHECK(parts.at("elements") == sizeof(plant::ElementSpec) / one);
  CHECK(parts.at("chiller") == (sizeof(refrigeration::ChillerSpec) - text) / one + 1);
  CHECK(parts.at("drive") == sizeof(plant::DriveSpec) / one);
  CHECK(parts.at("agitator") == sizeof(plant::AgitatorSpec) / one);
  CHECK(parts.at("pump") == sizeof(plant::PumpSpec) / one);
  CHECK(parts.at("bushing") == (sizeof(plant::BushingSpec) - text) / one + 1);
  CHECK(parts.at("draw") == sizeof(plant::DrawSpec) / one);
  CHECK(parts.at("freezer") ==
        sizeof(plant::FreezerSpec) / one);  // its count of blades fills eight bytes too
  CHECK(parts.at("rinse") == sizeof(plant::RinseSpec) / one);
  CHECK(parts.at("probe") == sizeof(plant::ProbeSpec) / one);
  CHECK(parts.at("seal") == sizeof(plant::SealSpec) / one);
  CHECK(parts.at("control") == (sizeof(control::ControlSpec) - sizeof(control::AlarmRules)) / one + 1);
}

TEST_CASE("ingredients against published values") {
  const auto density = [](const char* id) {
    return product::density_kg_per_m3(shipped().ingredients.at(id).fraction, 20.0);
  };
  // Goff & Hartel, Ice Cream, 2025, Table 3.2 (as digested): skim 1.036, milk of 3-5 % 1.032, cream of 35 %
  // 0.997 g/mL.
  CHECK(density("skim_milk") == doctest::Approx(1036.0).epsilon(0.01));
  CHECK(density("whole_milk") == doctest::Approx(1032.0).epsilon(0.01));
  CHECK(density("cream_35") == doctest::Approx(997.0).epsilon(0.015));
  for (const auto& [id, one] : shipped().ingredients) {
    CAPTURE(id);
    CHECK(std::fabs(one.fraction.sum() - 1.0) < 1e-6);
    CHECK(one.source.size() > 10);
    const bool milk = one.fraction[product::Component::milk_protein] > 0.0 ||
                      one.fraction[product::Component::lactose] > 0.0;
    const bool says_milk =
        std::find(one.allergens.begin(), one.allergens.end(), "milk") != one.allergens.end();
    CHECK(milk == says_milk);
    const bool egg = one.fraction[product::Component::egg_protein] > 0.0;
    CHECK(egg == (std::find(one.allergens.begin(), one.allergens.end(), "egg") != one.allergens.end()));
  }
}

TEST_CASE("the shipped recipes have the composition that their names claim") {
  const auto figures = [](const char* id) {
    return library::check_recipe(shipped(), "hm-45", shipped().recipes.at(id), id).figures;
  };
  for (const char* id : {"white-base-high", "white-base-low"}) {
    CAPTURE(id);
    const auto f = figures(id);
    // Goff, Ice Cream Technology e-Book, ch. 16: fat above 10 .. 16, solids-not-fat 9 .. 12, sweeteners 12 ..
    // 16, stabiliser 0 .. 0.4 %. 21 CFR 135.110(a)(2): fat and nonfat milk solids 10 % each. Freezing point
    // -1.4 .. -3 degC (paper excerpt).
    CHECK(f.fat_pct > 10.0);
    CHECK(f.fat_pct < 16.0);
    CHECK(f.milk_solids_not_fat_pct > 10.0);
    CHECK(f.milk_solids_not_fat_pct < 12.0);
    CHECK(f.sugars_pct > 12.0);
    CHECK(f.sugars_pct < 16.0);
    CHECK(f.stabiliser_pct <= 0.4001);
    CHECK(f.freezing_point_degC < -1.4);
    CHECK(f.freezing_point_degC > -3.0);
  }
  // Frozen custard: at least 1.4 % egg-yolk solids (21 CFR 135.110 as copied in state law).
  CHECK(figures("egg-custard").yolk_solids_pct >= 1.4);
  CHECK(figures("fruit-syrup").milk_solids_not_fat_pct == 0.0);
  CHECK(figures("oat-coconut-base").milk_solids_not_fat_pct == 0.0);
  for (const auto& [id, recipe] : shipped().recipes) {
    CAPTURE(id);
    const std::string machine = id == "white-base-small" ? "hm-20" : "hm-45";
    const auto report = library::check_recipe(shipped(), machine, recipe, id);
    CHECK(library_test::joined(report.problems) == "");
    for (const std::string& caution : report.cautions) CHECK(caution.starts_with("Contains allergens: "));
    for (const auto& verdict : report.rows) CHECK((!verdict.claimed || verdict.met));
  }
}

TEST_CASE("shipped recipes are written as the store writes them") {
  for (const auto& [id, recipe] : shipped().recipes) {
    CAPTURE(id);
    CHECK(test_support::read_file(content_dir() + "/recipes/" + id + ".json") ==
          library::recipe_text(recipe));
  }
}

TEST_CASE("a machine's model lists everything, own recipes last, and carries its content hash") {
  library_test::Scratch scratch("model");
  const auto before = library::load(scratch.dir(), scratch.own()).library;
  control::Recipe own = before.recipes.at("white-base-high");
  own.id = "a-first";
  REQUIRE(library::save_recipe(before, "hm-45", own, scratch.own()) == "");
  const auto after = library::load(scratch.dir(), scratch.own()).library;
  const machine::Machine machine = after.machine("hm-45");
  REQUIRE(machine.recipes.size() == before.recipes.size() + 1);
  CHECK(machine.recipes.back().id == "a-first");
  CHECK(machine.recipe_index("a-first") == static_cast<int>(before.recipes.size()));
  CHECK(machine.recipe_index("egg-custard") == before.machine("hm-45").recipe_index("egg-custard"));
  CHECK(machine.ingredient_index("whole_milk") >= 0);
  // Saving an own recipe disowns no journal that was kept before.
  CHECK(machine.content_hash == before.machine("hm-45").content_hash);
  CHECK(machine.content_hash.size() == 16);
  CHECK(machine.content_hash != before.machine("hm-20").content_hash);
  CHECK_THROWS_AS(after.machine("hm-99"), std::out_of_range);

  const std::string old = before.machine("hm-45").content_hash;
  for (const char* file : {"machines/hm-45.json", "ingredients/salt.json", "recipes/egg-custard.json"}) {
    CAPTURE(file);
    library_test::Scratch other("hash");
    other.write(file, other.read(file) + " ");
    CHECK(library::load(other.dir(), "").library.machine("hm-45").content_hash != old);
  }
  library_test::Scratch other("hash");
  other.write("machines/hm-20.json", other.read("machines/hm-20.json") + " ");
  CHECK(library::load(other.dir(), "").library.machine("hm-45").content_hash == old);
}
