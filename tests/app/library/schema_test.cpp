#include <doctest/doctest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "app/library/schema.h"
#include "tests/app/library/scratch.h"

// The schema files against the reader's tables, and the content against the schema files by an independent validator.
namespace fs = std::filesystem;
using nlohmann::json;
using namespace stirbench;

namespace {

class Validator {
 public:
  explicit Validator(const std::string& name) {
    const json document = json::parse(test_support::read_file(library_test::content_dir() + "/schema/" + name));
    valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
    parser.populateSchema(valijson::adapters::NlohmannJsonAdapter(document), schema_);
  }
  bool accepts(const json& value) const {
    valijson::Validator validator;
    return validator.validate(schema_, valijson::adapters::NlohmannJsonAdapter(value), nullptr);
  }

 private:
  valijson::Schema schema_;
};

void all_fit(const std::string& schema, const std::string& folder) {
  const Validator validator(schema);
  int files = 0;
  for (const auto& entry : fs::recursive_directory_iterator(fs::path(library_test::content_dir()) / folder)) {
    if (entry.path().extension() != ".json" || entry.path().filename() == "expect.json") continue;
    CAPTURE(entry.path().string());
    CHECK(validator.accepts(json::parse(test_support::read_file(entry.path()))));
    ++files;
  }
  CHECK(files > 0);
}

}  // namespace

TEST_CASE("the schema files are what the field tables say") {
  // When this fails: `build/release/tests/test_library -ts=write -tc='*write the schema files*' --no-skip`.
  std::size_t files = 0;
  for (const auto& entry : fs::directory_iterator(fs::path(library_test::content_dir()) / "schema")) {
    CAPTURE(entry.path().string());
    CHECK(library::schema_files().count(entry.path().filename().string()) == 1);
    ++files;
  }
  CHECK(files == library::schema_files().size());
  for (const auto& [name, text] : library::schema_files()) {
    CAPTURE(name);
    CHECK(test_support::read_file(library_test::content_dir() + "/schema/" + name) == text);
  }
}

TEST_SUITE("write") {
  TEST_CASE("write the schema files" * doctest::skip()) { CHECK(library::write_schemas(library_test::content_dir() + "/schema") == ""); }
}

TEST_CASE("every shipped file fits its schema") {
  all_fit("machine.schema.json", "machines");
  all_fit("ingredient.schema.json", "ingredients");
  all_fit("recipe.schema.json", "recipes");
  CHECK(Validator("cautions.schema.json")
            .accepts(json::parse(test_support::read_file(library_test::content_dir() + "/text/cautions.json"))));
  CHECK(Validator("lesson.schema.json").accepts(json::parse(library_test::small_lesson())));
  if (fs::exists(fs::path(library_test::content_dir()) / "lessons")) all_fit("lesson.schema.json", "lessons");
}

TEST_CASE("the schemas refuse what the reader refuses") {
  const json salt = json::parse(test_support::read_file(library_test::content_dir() + "/ingredients/salt.json"));
  const Validator ingredient("ingredient.schema.json");
  REQUIRE(ingredient.accepts(salt));
  const auto refused = [&](const char* pointer, const json& value) {
    CAPTURE(pointer);
    json changed = salt;
    changed[json::json_pointer(pointer)] = value;
    CHECK_FALSE(ingredient.accepts(changed));
    library_test::Scratch scratch("schema");
    scratch.write("ingredients/salt.json", changed.dump());
    CHECK(scratch.problems() != "");
  };
  refused("/supply_degC", 1000);
  refused("/supply_degC", "20");
  refused("/form", "dust");
  refused("/format", 2);
  refused("/unknown", 1);
  refused("/id", "Salt!");
  refused("/fraction/wtaer", 0.0);
  refused("/allergens", "milk");
  json without = salt;
  without.erase("source");
  CHECK_FALSE(ingredient.accepts(without));

  const Validator lesson("lesson.schema.json");
  json bad = json::parse(library_test::small_lesson());
  bad["end"] = json{{"signal", "probe_degC"}, {"at_least", 3}, {"at_most", 4}};
  CHECK_FALSE(lesson.accepts(bad));
  bad["end"] = json{{"any", json::array()}};
  CHECK_FALSE(lesson.accepts(bad));
}
