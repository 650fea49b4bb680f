#include "tests/habits/layers.h"

#include <doctest/doctest.h>

using namespace stirbench::habits;

namespace {

// All violations as one text, so that a failing run names every line.
std::string list(const std::vector<Violation>& violations) {
  std::string text;
  for (const Violation& violation : violations) text += violation.text() + "\n";
  return text;
}

}  // namespace

TEST_CASE("includes run one way: desk, cli -> reports, records, library -> sim_core") {
  const auto files = read_sources();
  REQUIRE(files.size() > 20);
  CHECK(list(check_layers(files)) == "");
}

TEST_CASE("the layer check finds each kind of wrong include") {
  const auto first_reason = [](const char* path, const char* text) {
    const auto violations = check_layers({{path, text}});
    return violations.empty() ? std::string() : violations.front().text();
  };
  // Inside sim_core, against the arrow and beside it.
  CHECK(first_reason("sim_core/product/a.h", "#include \"sim_core/plant/state.h\"\n").find(":1:") != std::string::npos);
  CHECK(first_reason("sim_core/plant/a.cpp", "\n#include \"sim_core/control/recipe.h\"\n").find(":2:") != std::string::npos);
  CHECK(first_reason("sim_core/refrigeration/a.cpp", "#include \"sim_core/plant/state.h\"\n") != "");
  CHECK(first_reason("sim_core/control/a.cpp", "#include \"sim_core/faults/fault.h\"\n") != "");
  CHECK(first_reason("sim_core/bench/a.cpp", "#include \"sim_core/training/lesson.h\"\n") != "");
  CHECK(first_reason("sim_core/training/a.cpp", "#include \"sim_core/diagnosis/cause.h\"\n") != "");
  CHECK(first_reason("sim_core/bench/a.cpp", "#include \"app/library/library.h\"\n") != "");
  // Between the parts of the program.
  CHECK(first_reason("app/library/a.cpp", "#include \"app/desk/ui/theme.h\"\n") != "");
  CHECK(first_reason("app/library/a.cpp", "#include \"app/records/store.h\"\n") != "");
  CHECK(first_reason("app/records/a.cpp", "  #  include \"app/cli/cli.h\"\n") != "");
  CHECK(first_reason("app/cli/a.cpp", "#include \"app/desk/shell/shell.h\"\n") != "");
  CHECK(first_reason("app/desk/a.cpp", "#include \"app/cli/cli.h\"\n") != "");
  // The world outside, where it has no business.
  for (const char* header : {"chrono", "fstream", "filesystem", "thread", "iostream", "imgui.h", "GLFW/glfw3.h", "glad/gl.h",
                             "nlohmann/json.hpp", "random", "unordered_map"}) {
    CAPTURE(header);
    CHECK(first_reason("sim_core/plant/a.cpp", ("#include <" + std::string(header) + ">\n").c_str()) != "");
  }
  CHECK(first_reason("app/cli/a.cpp", "#include <imgui.h>\n") != "");
  CHECK(first_reason("app/library/a.cpp", "#include <soci/soci.h>\n") != "");
  // Ways round the rule.
  CHECK(first_reason("sim_core/plant/a.cpp", "#include \"../control/recipe.h\"\n") != "");
  CHECK(first_reason("sim_core/plant/a.cpp", "#include \"state.h\"\n") != "");
  CHECK(first_reason("sim_core/plant/a.cpp", "#include <sim_core/control/recipe.h>\n") != "");
  CHECK(first_reason("sim_core/extras/a.cpp", "int x;\n") != "");
}

TEST_CASE("the layer check lets right includes pass") {
  CHECK(list(check_layers({
            {"sim_core/training/a.cpp", "#include <vector>\n#include \"sim_core/bench/step.h\"\n#include \"sim_core/product/product.h\"\n"},
            {"sim_core/bench/a.cpp", "#include \"sim_core/faults/fault.h\"\n#include \"sim_core/control/recipe.h\"\n"},
            {"app/library/a.cpp", "#include <fstream>\n#include <nlohmann/json.hpp>\n#include \"sim_core/bench/machine.h\"\n"},
            {"app/desk/a.cpp", "#include <imgui.h>\n#include \"app/records/store.h\"\n#include \"app/library/library.h\"\n"},
            {"app/main.cpp", "#include \"app/desk/shell/shell.h\"\n#include \"app/cli/cli.h\"\n"},
            {"tests/app/cli/a.cpp", "#include <thread>\n#include \"app/desk/ui/theme.h\"\n"},
        })) == "");
}

TEST_CASE("functions stay under 60 lines") {
  std::string found;
  for (const SourceFile& file : read_sources())
    if (!file.path.starts_with("tests/")) found += list(check_function_length(file, 60));
  CHECK(found == "");
}

TEST_CASE("the length check counts a function from its signature to its brace") {
  const auto body = [](int lines) {
    std::string text = "namespace a {\n\nstruct Long {\n";
    for (int i = 0; i < 100; ++i) text += "  int x;\n";
    text += "};\n\nint short_one() { return 1; }\n\nint f(int x,\n      int y) {\n";
    for (int i = 0; i < lines - 3; ++i) text += i % 5 == 0 ? "\n" : "  ++x;\n";
    return text + "}\n\n}  // namespace a\n";
  };
  CHECK(check_function_length({"a.cpp", body(60)}, 60).empty());
  const auto violations = check_function_length({"a.cpp", body(61)}, 60);
  REQUIRE(violations.size() == 1);
  CHECK(violations[0].line == 108);
}
