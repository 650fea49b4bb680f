#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "app/library/food/recipe_check.h"
#include "app/library/food/recipe_store.h"
#include "tests/app/library/scratch.h"

namespace fs = std::filesystem;
using namespace stirbench;
using control::PhaseKind;
using library_test::joined;
using library_test::Scratch;
using library_test::shipped;

namespace {

control::Recipe holds(const std::vector<control::Phase>& phases) {
  control::Recipe out;
  out.phases = phases;
  return out;
}

control::Phase phase(PhaseKind kind, double target_degC, double duration_s = 0.0) {
  control::Phase out;
  out.kind = kind;
  out.target_degC = target_degC;
  out.duration_s = duration_s;
  return out;
}

control::Recipe own_recipe(const std::string& id) {
  control::Recipe out = shipped().recipes.at("white-base-high");
  out.id = id;
  out.title = "Mine";
  return out;
}

bool warns(const control::Recipe& recipe, const std::string& words) {
  const auto cautions = library::check_recipe(shipped(), "hm-45", recipe, "r").cautions;
  return std::any_of(cautions.begin(), cautions.end(),
                     [&](const std::string& one) { return one.find(words) != std::string::npos; });
}

double mass_kg(const control::Recipe& recipe) { return library::whole_product(shipped(), recipe).total_kg(); }

}  // namespace

TEST_CASE("a row is met by holds alone, without a break and with nothing added after them") {
  const product::HeatRule row{"r", "", "", "", 69.0, 1800.0};
  using K = PhaseKind;
  CHECK(library::meets_heat_rule(holds({phase(K::hold, 69.0, 1800.0)}), row));
  CHECK(library::meets_heat_rule(holds({phase(K::hold, 75.0, 3000.0)}), row));
  CHECK_FALSE(library::meets_heat_rule(holds({phase(K::hold, 68.9, 1800.0)}), row));
  CHECK_FALSE(library::meets_heat_rule(holds({phase(K::hold, 69.0, 1799.0)}), row));
  CHECK_FALSE(library::meets_heat_rule(holds({phase(K::heat, 90.0)}), row));
  // Two holds in a row count together, also when it is heated further between them ...
  CHECK(library::meets_heat_rule(
      holds({phase(K::hold, 69.0, 900.0), phase(K::heat, 72.0), phase(K::hold, 72.0, 900.0)}), row));
  // ... but not across a chill or a hold below.
  CHECK_FALSE(library::meets_heat_rule(
      holds({phase(K::hold, 69.0, 900.0), phase(K::chill, 60.0), phase(K::hold, 69.0, 900.0)}), row));
  CHECK_FALSE(library::meets_heat_rule(
      holds({phase(K::hold, 69.0, 900.0), phase(K::hold, 60.0, 60.0), phase(K::hold, 69.0, 900.0)}), row));
  // An addition starts everything again.
  CHECK_FALSE(library::meets_heat_rule(holds({phase(K::hold, 69.0, 1800.0), phase(K::add, 60.0)}), row));
  CHECK_FALSE(library::meets_heat_rule(
      holds({phase(K::hold, 69.0, 900.0), phase(K::add, 69.0), phase(K::hold, 69.0, 900.0)}), row));
  CHECK(library::meets_heat_rule(
      holds({phase(K::add, 40.0), phase(K::hold, 69.0, 1800.0), phase(K::chill, 3.0), phase(K::keep, 3.0)}),
      row));
  // A row without a hold still asks for a hold phase.
  CHECK_FALSE(library::meets_heat_rule(holds({phase(K::heat, 95.0)}), {"r", "", "", "", 90.0, 0.0}));
}

TEST_CASE("the rows of the high hold: published figures") {
  // 85 degC for 30 s against the process reference, tables 1a and 1b.
  const auto report = library::check_recipe(shipped(), "hm-45", shipped().recipes.at("white-base-high"), "r");
  const auto met = [&](const std::string& id) {
    for (const auto& one : report.rows) {
      if (one.row.id == id) return one.met;
    }
    FAIL("no row " << id);
    return false;
  };
  CHECK(met("us_mix_80c_25s"));    // 175 degF 25 s, 1 NYCRR 2.44
  CHECK(met("us_mix_83c_15s"));    // 180 degF 15 s, 1 NYCRR 2.44
  CHECK(met("uk_mix_79_4c_15s"));  // SI 1995/1372 Sch. 6 Pt V
  CHECK(met("nz_mix_79_5c_15s"));  // DPC 3 (2010)
  CHECK_FALSE(met("nz_mix_85_5c_10s"));
  CHECK_FALSE(met("us_mix_69c_30min"));
  CHECK_FALSE(met("us_milk_89c_1s"));
}

TEST_CASE("scaled: every amount by the same factor") {
  const control::Recipe& recipe = shipped().recipes.at("chocolate-base");
  const control::Recipe half = library::scaled(recipe, 20.0);
  CHECK(mass_kg(half) == doctest::Approx(20.0).epsilon(1e-12));
  CHECK(half.start[0].kg / recipe.start[0].kg == doctest::Approx(20.0 / mass_kg(recipe)));
  CHECK(half.phases[1].additions[3].kg / recipe.phases[1].additions[3].kg ==
        doctest::Approx(20.0 / mass_kg(recipe)));
  CHECK(library::check_recipe(shipped(), "hm-45", half, "r").figures.fat_pct ==
        doctest::Approx(library::check_recipe(shipped(), "hm-45", recipe, "r").figures.fat_pct));
  CHECK(mass_kg(library::scaled(recipe, 0.0)) == mass_kg(recipe));
  CHECK(mass_kg(library::scaled(recipe, std::nan(""))) == mass_kg(recipe));
  // Half a batch of it is too little for this machine, and the message says so.
  CHECK(joined(library::check_recipe(shipped(), "hm-45", half, "r").problems) ==
        "r:/start: expected at least 18 L in the vat before Run on hm-45, found 10.7 L");
}

TEST_CASE("save, load, save again: the same recipe, the same bytes") {
  Scratch scratch("save");
  control::Recipe recipe = own_recipe("my-base");
  recipe.title = "Vanille \"süß\" \\ 4";
  recipe.start[0].kg = 22.123456789012345;
  recipe.overshoot_K = 0.7;
  REQUIRE(library::save_recipe(shipped(), "hm-45", recipe, scratch.own()) == "");
  const auto loaded = library::load(scratch.dir(), scratch.own());
  REQUIRE(joined(loaded.problems) == "");
  const control::Recipe& back = loaded.library.recipes.at("my-base");
  CHECK(back.title == recipe.title);
  CHECK(back.start[0].kg == recipe.start[0].kg);
  CHECK(back.overshoot_K == recipe.overshoot_K);
  CHECK(back.phases.size() == recipe.phases.size());
  CHECK(library::recipe_text(back) == library::recipe_text(recipe));
  CHECK(loaded.library.own_recipes.count("my-base") == 1);
  CHECK(loaded.library.recipe_files.at("my-base") == scratch.own() + "/recipes/my-base.json");
  CHECK(test_support::read_file(scratch.own() + "/recipes/my-base.json") == library::recipe_text(recipe));
  // Once more over itself, then gone.
  CHECK(library::save_recipe(loaded.library, "hm-45", back, scratch.own()) == "");
  CHECK(library::delete_recipe(loaded.library, "my-base", scratch.own()) == "");
  CHECK_FALSE(fs::exists(scratch.own() + "/recipes/my-base.json"));
  CHECK(library::delete_recipe(loaded.library, "my-base", scratch.own()) ==
        "cannot remove " + scratch.own() + "/recipes/my-base.json: No such file or directory");
}

TEST_CASE("recipes that cannot be saved are refused with the reason") {
  Scratch scratch("refuse");
  const auto save = [&](const control::Recipe& recipe) {
    return library::save_recipe(shipped(), "hm-45", recipe, scratch.own());
  };
  for (const char* id : {"", "a", "../../outside", "/etc/passwd", "a/b", "A-B", "a b", "..", "a.json",
                         "an-id-that-is-much-longer-than-forty-characters"}) {
    CAPTURE(std::string(id));
    CHECK(save(own_recipe(id)).starts_with("A recipe's id has 2 to 40 characters a-z, 0-9, -; found "));
  }
  CHECK(save(own_recipe("white-base-low")) ==
        "The id \"white-base-low\" belongs to a shipped recipe. Give yours another.");
  const std::string file = scratch.own() + "/recipes/mine.json";
  control::Recipe recipe = own_recipe("mine");
  recipe.start[0].kg = 40.0;
  CHECK(save(recipe) == file + ":/phases: expected at most 45 L when hot on hm-45, found 55.4 L");
  recipe = own_recipe("mine");
  recipe.phases[1].additions[0].kg = -1.0;
  CHECK(save(recipe) == file + ":/phases/1/additions/0/kg: expected a number in 0.001 .. 1000 kg, found -1");
  recipe.phases[1].additions[0].kg = std::nan("");
  CHECK(save(recipe) ==
        file + ":/phases/1/additions/0/kg: expected a number in 0.001 .. 1000 kg, found not a finite number");
  recipe = own_recipe("mine");
  recipe.phases[1].additions.clear();
  CHECK(save(recipe) == file + ":/phases/1/additions: expected at least one addition, found none");
  recipe = own_recipe("mine");
  recipe.phases[1].instruction.clear();
  CHECK(save(recipe) == file + ":/phases/1/instruction: expected text of 1 to 200 characters, found \"\"");
  recipe = own_recipe("mine");
  recipe.phases.clear();
  CHECK(save(recipe) == file + ":/phases: expected at least one phase, found none");
  recipe = own_recipe("mine");
  recipe.title = "bad \xff bytes";
  CHECK(save(recipe) == file + ": expected text in UTF-8, found \"bad \xef\xbf\xbd bytes\"");
  recipe = own_recipe("mine");
  recipe.note = std::string(500, 'x');
  CHECK(save(recipe) == file + ":/note: expected text of 0 to 200 characters, found 500 characters");
  CHECK_FALSE(fs::exists(scratch.own() + "/recipes"));

  test_support::write_file(scratch.own() + "/recipes", "a file in the way");
  CHECK(save(own_recipe("mine")).find("cannot make the folder " + scratch.own() + "/recipes") == 0);
  CHECK(library::delete_recipe(shipped(), "white-base-low", scratch.own()) ==
        "The recipe \"white-base-low\" is a shipped one and stays.");
  CHECK(library::delete_recipe(shipped(), "../x", scratch.own()) == "There is no recipe \"../x\".");
  CHECK(joined(library::check_recipe(shipped(), "hm-99", own_recipe("mine"), "r").problems) ==
        "r: expected a known machine, found \"hm-99\"");
}

TEST_CASE("cautions: what a recipe is warned of, and the right one is not") {
  const control::Recipe custard = shipped().recipes.at("egg-custard");
  CHECK_FALSE(warns(custard, "curdles"));
  control::Recipe hot = custard;
  for (auto& one : hot.phases) {
    if (one.kind == PhaseKind::heat || one.kind == PhaseKind::hold)
      one.target_degC = std::max(one.target_degC, 84.0);
  }
  CHECK(warns(hot, "Egg curdles above about 83 °C, and these phases go to 84.5 °C."));
  control::Recipe raw = custard;
  raw.phases[3].duration_s = 10.0;
  CHECK(warns(raw, "Egg without a hold"));

  control::Recipe vegan = shipped().recipes.at("oat-coconut-base");
  CHECK_FALSE(warns(vegan, "thickens only above"));
  vegan.phases[2].target_degC = vegan.phases[3].target_degC = 70.0;
  CHECK(warns(vegan, "Locust bean gum thickens only above 80 °C; the phases go to 71 °C."));

  control::Recipe white = shipped().recipes.at("white-base-high");
  CHECK(warns(white, "Contains allergens: milk."));
  control::Recipe cold_add = white;
  cold_add.phases[1].target_degC = 10.0;
  CHECK(warns(cold_add, "they dissolve slowly"));
  control::Recipe late = white;
  std::swap(late.phases[1], late.phases[3]);
  CHECK(warns(late, "comes after the hold and is not heat-treated"));
  CHECK(warns(late, "No published heat-treatment row is met"));
  control::Recipe warm = white;
  warm.phases[5].target_degC = 8.0;
  CHECK(warns(warm, "cold holding is usually 5 °C (41 °F) or below"));
  control::Recipe icy = white;
  icy.phases[4].target_degC = -2.4;
  CHECK(warns(icy, "too near the freezing point"));
  control::Recipe sweet = shipped().recipes.at("fruit-syrup");
  CHECK_FALSE(warns(sweet, "crystals"));
  sweet.phases[1].additions[0].kg = 60.0;
  CHECK(warns(sweet, "it comes out as crystals"));
  CHECK(warns(sweet, "turns thick when cold"));
  control::Recipe full = white;
  full.start[0].kg = 28.0;
  CHECK(warns(full, "Nearly full when hot"));
  control::Recipe brief = shipped().recipes.at("white-base-low");
  brief.phases[5].duration_s = 3600.0;
  CHECK(warns(brief, "Ageing takes 4 h or more"));
}
