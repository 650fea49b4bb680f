#include <doctest/doctest.h>

#include "tests/app/library/scratch.h"

// One case for each kind of bad content, with the whole message: file, place, expected, found.
using stirbench::library_test::Scratch;

namespace {

struct Case {
  const char* what;
  const char* file;
  const char* from;
  const char* to;
  const char* message;
};

void check(const Case& bad) {
  CAPTURE(std::string(bad.what));
  Scratch scratch("bad-content");
  REQUIRE(scratch.problems() == "");
  scratch.change(bad.file, bad.from, bad.to);
  CHECK(scratch.problems() == std::string(bad.message));
}

}  // namespace

TEST_CASE("malformed JSON is located by line and column") {
  for (const Case& bad : {
           Case{"comma left out", "ingredients/salt.json", "\"id\": \"salt\",", "\"id\": \"salt\"",
                "ingredients/salt.json:line 4, column 3: expected ',' or '}', found '\"title\"'"},
           Case{"wrong word", "ingredients/salt.json", "\"id\": \"salt\"", "\"id\": salt",
                "ingredients/salt.json:line 3, column 9: expected a value, found 'salt'"},
           Case{"key without quotes", "ingredients/salt.json", "\"id\": \"salt\"", "id: \"salt\"",
                "ingredients/salt.json:line 3, column 3: expected a key in quotes, found 'id'"},
           Case{"comma before the end", "ingredients/salt.json", "\"allergens\": []", "\"allergens\": [],",
                "ingredients/salt.json:line 10, column 1: expected a key in quotes, found '}'"},
           Case{"number too great", "ingredients/salt.json", "20", "1e999",
                "ingredients/salt.json:line 8, column 18: expected a number that a double can hold, found "
                "'1e999'"},
           Case{"not a number", "ingredients/salt.json", "20", "NaN",
                "ingredients/salt.json:line 8, column 18: expected a value, found 'NaN'"},
           Case{"bytes that are no UTF-8", "ingredients/salt.json", "\"Salt\"", "\"Sal\xff\"",
                "ingredients/salt.json:line 4, column 16: expected UTF-8 text, found the byte 0xff"},
           Case{"raw control character", "ingredients/salt.json", "\"Salt\"", "\"Sa\x01lt\"",
                "ingredients/salt.json:line 4, column 15: expected text without raw control characters, "
                "found the byte 0x01"},
           Case{"more after the end", "ingredients/salt.json", "[]\n}", "[]\n}}",
                "ingredients/salt.json:line 10, column 2: expected nothing more, found '}'"},
       })
    check(bad);
}

TEST_CASE("an empty or cut file says where it ends") {
  Scratch scratch("cut");
  scratch.write("ingredients/salt.json", "");
  CHECK(scratch.problems() ==
        "ingredients/salt.json:line 1, column 1: expected a value, found the end of the file");
  scratch.write("ingredients/salt.json", "{\n  \"format\": 1,\n");
  CHECK(scratch.problems().find("ingredients/salt.json:line 3, column 1: expected") == 0);
  CHECK(scratch.problems().find("found the end of the file") != std::string::npos);
}

TEST_CASE("keys: twice, unknown, missing, wrong type") {
  for (const Case& bad : {
           Case{"twice", "ingredients/salt.json", "\"format\": 1,", "\"format\": 1, \"id\": \"salt\",",
                "ingredients/salt.json:/id: expected each key once, found \"id\" again"},
           Case{"unknown, near", "ingredients/salt.json", "\"form\":", "\"from\":",
                "ingredients/salt.json:/from: expected a known key (did you mean \"form\"?), found \"from\"\n"
                "ingredients/salt.json:/form: expected one of liquid, crystals, powder, gum, found nothing"},
           Case{"unknown, far", "recipes/white-base-high.json", "\"kg\": 22.2",
                "\"kg\": 22.2, \"whatever\": 1",
                "recipes/white-base-high.json:/start/0/whatever: expected a known key (one of ingredient, "
                "kg), found \"whatever\""},
           Case{"missing", "machines/hm-20.json", "\"working_L\": 20.0,", "",
                "machines/hm-20.json:/vat/working_L: expected a number in 1 .. 1000 L, found nothing"},
           Case{"text for a number", "machines/hm-20.json", "\"working_L\": 20.0", "\"working_L\": \"20\"",
                "machines/hm-20.json:/vat/working_L: expected a number in 1 .. 1000 L, found \"20\""},
           Case{"a list for an object", "machines/hm-20.json", "\"supply_V\": 400.0", "\"supply_V\": [400]",
                "machines/hm-20.json:/supply_V: expected a number in 50 .. 1000 V, found a list"},
           Case{"null", "ingredients/salt.json", "\"Salt\"", "null",
                "ingredients/salt.json:/title: expected text of 1 to 60 characters, found null"},
           Case{"fraction for a whole number", "machines/hm-20.json", "\"count\": 3", "\"count\": 3.5",
                "machines/hm-20.json:/elements/count: expected a whole number in 1 .. 24, found 3.5"},
           Case{"another version", "ingredients/salt.json", "\"format\": 1", "\"format\": 2",
                "ingredients/salt.json:/format: expected 1, found 2"},
           Case{"a word that is none of those", "ingredients/salt.json", "\"crystals\"", "\"crystal\"",
                "ingredients/salt.json:/form: expected one of liquid, crystals, powder, gum (did you mean "
                "\"crystals\"?), found \"crystal\""},
           Case{"a kind of gum that nobody knows", "ingredients/locust_bean_gum.json",
                "\"gum\": \"locust_bean\"", "\"gum\": \"locust-bean\"",
                "ingredients/locust_bean_gum.json:/gum: expected one of blend, guar, locust_bean, xanthan, "
                "iota_carrageenan (did you mean \"locust_bean\"?), found \"locust-bean\""},
           Case{"a kind of gum without gum", "ingredients/salt.json",
                "\"form\":", "\"gum\": \"guar\", \"form\":",
                "ingredients/salt.json:/gum: expected no kind of gum for an ingredient without stabiliser, "
                "found guar"},
       })
    check(bad);
}

TEST_CASE("values: out of range, too long, not matching each other") {
  for (
      const Case& bad : {
          Case{"below the range", "ingredients/salt.json", "20", "-200",
               "ingredients/salt.json:/supply_degC: expected a number in -2 .. 60 degC, found -200"},
          Case{
              "negative mass", "recipes/white-base-high.json", "\"kg\": 22.2", "\"kg\": -22.2",
              "recipes/white-base-high.json:/start/0/kg: expected a number in 0.001 .. 1000 kg, found -22.2"},
          Case{"shares", "ingredients/butter.json", "0.82", "0.72",
               "ingredients/butter.json:/fraction: expected shares that sum to 1 (within 0.000001), found a "
               "sum of 0.9"},
          Case{"id is not the file's name", "ingredients/salt.json", "\"id\": \"salt\"", "\"id\": \"salty\"",
               "ingredients/salt.json:/id: expected the file's name (\"salt\"), found \"salty\""},
          Case{"id with capitals", "ingredients/salt.json", "\"id\": \"salt\"", "\"id\": \"Salt\"",
               "ingredients/salt.json:/id: expected an id of 2 to 40 characters a-z, 0-9, _, found \"Salt\""},
          Case{"empty title", "ingredients/salt.json", "\"Salt\"", "\"\"",
               "ingredients/salt.json:/title: expected text of 1 to 60 characters, found 0 characters"},
          Case{"unknown allergen", "ingredients/whole_milk.json", "[\"milk\"]", "[\"mlik\"]",
               "ingredients/whole_milk.json:/allergens/0: expected one of milk, egg, soy, wheat, gluten, "
               "peanut, tree nuts, sesame, fish, "
               "crustaceans, molluscs, celery, mustard, lupin, sulphites (did you mean \"milk\"?), found "
               "\"mlik\""},
          Case{"allergen twice", "ingredients/whole_milk.json", "[\"milk\"]", "[\"milk\", \"milk\"]",
               "ingredients/whole_milk.json:/allergens/1: expected each entry once, found \"milk\" again"},
          Case{"vat without room", "machines/hm-20.json", "\"brim_L\": 23.5", "\"brim_L\": 19",
               "machines/hm-20.json:/vat/brim_L: expected more than working_L (20), found 19"},
          Case{"least above most", "machines/hm-20.json", "\"minimum_L\": 8.0", "\"minimum_L\": 20",
               "machines/hm-20.json:/vat/minimum_L: expected less than working_L (20), found 20"},
          Case{"motor faster than its field", "machines/hm-20.json", "1380.0", "1600",
               "machines/hm-20.json:/drive/rated_rpm: expected less than synchronous_rpm (1500), found 1600"},
          Case{"refrigerant that the model does not know", "machines/hm-20.json",
               "\"refrigerant\": \"R-290\"", "\"refrigerant\": \"R-404A\"",
               "machines/hm-20.json:/chiller/refrigerant: expected one of R-290, found \"R-404A\""},
          Case{"caution too short", "text/cautions.json", "\"guards\": {", "\"Guards\": {",
               "text/cautions.json:/cautions/Guards: expected a key of 2 to 40 characters a-z, 0-9, _, found "
               "\"Guards\""},
      })
    check(bad);
}

TEST_CASE("recipes: names, phases, limits, claims") {
  const char* const file = "recipes/white-base-high.json";
  for (const Case& bad : {
           Case{"unknown ingredient", file, "whole_milk", "whole_mlik",
                "recipes/white-base-high.json:/start/0/ingredient: expected a known ingredient (did you mean "
                "\"whole_milk\"?), found "
                "\"whole_mlik\""},
           Case{
               "over the working volume", file, "22.2", "32.2",
               "recipes/white-base-high.json:/phases: expected at most 45 L when hot on hm-45, found 47.6 L"},
           Case{"under the least", file, "22.2", "12.2",
                "recipes/white-base-high.json:/start: expected at least 18 L in the vat before Run on hm-45, "
                "found 11.8 L"},
           Case{"hotter than the machine goes", file,
                "\"id\": \"cook\", \"kind\": \"heat\", \"title\": \"Heat\", \"target_degC\": 86.0",
                "\"id\": \"cook\", \"kind\": \"heat\", \"title\": \"Heat\", \"target_degC\": 97",
                "recipes/white-base-high.json:/phases/2/target_degC: expected a number in 0 .. 95 degC, "
                "found 97"},
           Case{"phase id twice", file, "\"id\": \"chill\"", "\"id\": \"hold\"",
                "recipes/white-base-high.json:/phases/4/id: expected an id that is not used yet, found "
                "\"hold\""},
           Case{"hold without time", file, ", \"duration_s\": 30.0", "",
                "recipes/white-base-high.json:/phases/3/duration_s: expected a number in 1 .. 172800 s, "
                "found 0"},
           Case{"heat with a time", file, "\"title\": \"Warm up\",",
                "\"title\": \"Warm up\", \"duration_s\": 3,",
                "recipes/white-base-high.json:/phases/0/duration_s: expected left out or 0 (only hold and "
                "age take time), found 3"},
           Case{
               "no keep at the end", file, "\"kind\": \"keep\"", "\"kind\": \"chill\"",
               "recipes/white-base-high.json:/phases/5/kind: expected keep as the last phase, found another"},
           Case{"kept without chilling", file,
                "\"kind\": \"chill\", \"title\": \"Chill\", \"target_degC\": 3.0",
                "\"kind\": \"heat\", \"title\": \"Chill\", \"target_degC\": 85",
                "recipes/white-base-high.json:/phases/5/target_degC: expected at least the target of the "
                "phase before, less 1 K (chill "
                "first), found 3"},
           Case{"unknown claim", file, "us_mix_80c_25s", "us_mix_80c_26s",
                "recipes/white-base-high.json:/claims/5: expected the id of a heat-treatment row (did you "
                "mean \"us_mix_80c_25s\"?), found "
                "\"us_mix_80c_26s\""},
           Case{"claim that is not met", file, "\"duration_s\": 30.0", "\"duration_s\": 20",
                "recipes/white-base-high.json:/claims/0: expected a hold at 80 degC or above for 25 s with "
                "nothing added after it, found no "
                "such hold\n"
                "recipes/white-base-high.json:/claims/2: expected a hold at 79.45 degC or above for 25 s "
                "with nothing added after it, found "
                "no such hold\n"
                "recipes/white-base-high.json:/claims/5: expected a hold at 79.45 degC or above for 25 s "
                "with nothing added after it, found "
                "no such hold\n"
                "recipes/white-base-high.json:/claims/8: expected a hold at 79.45 degC or above for 25 s "
                "with nothing added after it, found "
                "no such hold"},
       })
    check(bad);
}

TEST_CASE("all problems of all files are reported, in a stable order") {
  Scratch scratch("many");
  scratch.change("ingredients/salt.json", "\"Salt\"", "7");
  scratch.change("ingredients/butter.json", "0.82", "0.9");
  scratch.change("recipes/egg-custard.json", "\"heat\"", "\"haet\"");
  scratch.change("machines/hm-45.json", "\"supply_V\"", "\"suply_V\"");
  const std::string expected =
      "ingredients/butter.json:/fraction: expected shares that sum to 1 (within 0.000001), found a sum of "
      "1.08\n"
      "ingredients/salt.json:/title: expected text of 1 to 60 characters, found 7\n"
      "recipes/egg-custard.json:/phases/0/kind: expected one of heat, add, hold, chill, age, keep (did you "
      "mean \"heat\"?), found \"haet\"\n"
      "machines/hm-45.json:/suply_V: expected a known key (did you mean \"supply_V\"?), found \"suply_V\"\n"
      "machines/hm-45.json:/supply_V: expected a number in 50 .. 1000 V, found nothing";
  CHECK(scratch.problems() == expected);
  CHECK(scratch.problems() == expected);
}

TEST_CASE("missing folders and files") {
  CHECK(stirbench::library_test::joined(stirbench::library::load("/nonexistent/content", "").problems) ==
        "/nonexistent/content: expected a content folder (machines, ingredients, recipes, lessons, text), "
        "found no such folder");
  Scratch scratch("missing");
  scratch.remove("text/cautions.json");
  CHECK(scratch.problems() == "text/cautions.json: expected the caution texts, found no such file");
  scratch.remove("text/alarms.json");
  scratch.remove("machines");
  CHECK(scratch.problems() ==
        "text/cautions.json: expected the caution texts, found no such file\n"
        "text/alarms.json: expected the alarm texts, found no such file\nmachines: expected at least one "
        "machine file, found none");
}

TEST_CASE("nesting without end is refused, not followed") {
  Scratch scratch("deep");
  scratch.write("ingredients/salt.json", std::string(100000, '['));
  const std::string found = scratch.problems();
  CHECK(found.find("at most 64 levels of lists and objects, found more") != std::string::npos);
  CHECK(found.size() < 2000);
}

TEST_CASE("an own recipe is located by its full path, and cannot take a shipped id") {
  Scratch scratch("own");
  const std::string own = scratch.own() + "/recipes/white-base-high.json";
  stirbench::test_support::write_file(own, scratch.read("recipes/white-base-high.json"));
  CHECK(scratch.problems() ==
        own + ":/id: expected an id that no shipped recipe has, found \"white-base-high\"");
}
