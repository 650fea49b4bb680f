#include "tests/habits/layers.h"

#include <doctest/doctest.h>

#include <set>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

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

TEST_CASE(
    "the desk: work draws nothing, folders do not include each other both ways, a namespace for each layer") {
  const auto files = read_sources();
  CHECK(list(check_drawing_is_out_of_reach(files, "app/desk/work")) == "");
  CHECK(list(check_folders_both_ways(files, "app/desk/")) == "");
  CHECK(list(check_desk_namespaces(files)) == "");
  for (const char* top : {"sim_core/", "app/"}) CHECK(list(check_folder_sizes(files, top, 40)) == "");
}

TEST_CASE("every layer of the desk holds files, and every file of the desk is in a layer") {
  std::set<std::string> met;
  for (const SourceFile& file : read_sources()) {
    if (!file.path.starts_with("app/desk/")) continue;
    CAPTURE(file.path);
    CHECK(layer_of(file.path) != "");
    met.insert(layer_of(file.path));
  }
  CHECK(met == std::set<std::string>{"app/desk/kit", "app/desk/views", "app/desk/work", "app/desk/screens",
                                     "app/desk/shell"});
}

namespace {

// Why a file at `path` with this text breaks the layers, or "".
std::string first_reason(const std::string& path, const std::string& text) {
  const auto violations = check_layers({{path, text}});
  return violations.empty() ? std::string() : violations.front().text();
}

// Whether the check lets a file of `from` include a header of `to`.
bool lets_through(const std::string& from, const std::string& to) {
  const std::string file = from == "app/main.cpp" ? from : from + "/a.cpp";
  const std::string header = to == "app/main.cpp" ? to : to + "/a.h";
  return first_reason(file, "#include \"" + header + "\"\n").empty();
}

}  // namespace

TEST_CASE("the layer check finds each include that runs back in the desk") {
  const std::vector<std::string> desk = {"app/desk/kit", "app/desk/views", "app/desk/work",
                                         "app/desk/screens", "app/desk/shell"};
  for (std::size_t from = 0; from < desk.size(); ++from)
    for (std::size_t to = 0; to < desk.size(); ++to) {
      CAPTURE(desk[from]);
      CAPTURE(desk[to]);
      CHECK(lets_through(desk[from], desk[to]) == (to <= from));
      CHECK(lets_through(desk[from] + "/deeper/down", desk[to] + "/deeper") == (to <= from));
    }
  // Of the rest of the program, each layer sees a little more than the one to its left.
  const std::vector<std::pair<std::string, std::size_t>> since = {
      {"sim_core/plant", 1}, {"sim_core/diagnosis", 1}, {"app/library", 1}, {"app/library/food", 1},
      {"app/records", 2},    {"app/reports", 3},        {"app/cli", 9},     {"app/main.cpp", 9}};
  for (const auto& [other, first] : since)
    for (std::size_t from = 0; from < desk.size(); ++from) {
      CAPTURE(desk[from]);
      CAPTURE(other);
      CHECK(lets_through(desk[from], other) == (from >= first));
      if (other != "app/main.cpp") CHECK_FALSE(lets_through(other, desk[from]));
    }
  for (const char* header : {"imgui.h", "imgui_internal.h", "GLFW/glfw3.h", "glad/gl.h", "stb_image.h"}) {
    CAPTURE(header);
    for (const std::string& layer : desk)
      CHECK(first_reason(layer + "/a.cpp", "#include <" + std::string(header) + ">\n").empty() ==
            (layer != "app/desk/work"));
  }
}

TEST_CASE("the layer check finds each include that runs back in the core and in the library") {
  const auto row = [](const std::string& layer, const std::set<std::string>& allowed, const char* top) {
    for (const std::string& other : layers()) {
      if (!other.starts_with(top) || other == layer) continue;
      CAPTURE(layer);
      CAPTURE(other);
      CHECK(lets_through(layer, other) == allowed.contains(other));
    }
  };
  std::set<std::string> left;
  const auto core = [&](const char* layer, std::initializer_list<const char*> more) {
    for (const char* one : more) left.insert(std::string("sim_core/") + one);
    row(std::string("sim_core/") + layer, left, "sim_core/");
  };
  core("bytes", {});
  core("product", {});
  core("electrics", {});
  core("refrigeration", {});
  core("plant", {"product", "electrics", "refrigeration"});
  core("faults", {"plant", "bytes"});
  core("control", {});
  core("machine", {"faults", "control"});
  core("hands", {"machine"});
  core("bench", {"hands"});
  core("signals", {"bench"});
  core("explore", {"signals"});
  core("journal", {});
  core("diagnosis", {"explore", "journal"});
  core("training", {"diagnosis"});
  row("app/library/reading", {}, "app/library");
  for (const char* room :
       {"app/library/machine", "app/library/food", "app/library/lessons", "app/library/guide"})
    row(room, {"app/library", "app/library/reading"}, "app/library");
  CHECK(layer_of("app/library/extras/a.cpp") == "");
  CHECK(layer_of("app/desk/a.cpp") == "");
  CHECK(layer_of("app/desk/extras/a.cpp") == "");
  CHECK(layer_of("sim_core/plant/deeper/a.cpp") == "sim_core/plant");
}

TEST_CASE("includes between layers are counted by their ends, those within a layer and of tests are not") {
  const auto found = includes_between_layers({
      {"sim_core/plant/a.cpp", "#include \"sim_core/plant/a.h\"\n#include \"sim_core/product/a.h\"\n"},
      {"sim_core/plant/freezer/b.cpp", "#include <vector>\n#include \"sim_core/product/b.h\"\n"},
      {"sim_core/product/b.cpp", "#include \"sim_core/plant/a.h\"\n"},
      {"tests/sim_core/plant/a_test.cpp", "#include \"sim_core/plant/a.h\"\n"},
  });
  REQUIRE(found.size() == 2);
  CHECK(found[0].from == "sim_core/plant");
  CHECK(found[0].to == "sim_core/product");
  CHECK(found[0].count == 2);
  CHECK(found[1].from == "sim_core/product");
  CHECK(found[1].count == 1);
  CHECK(may_include(found[0].from, found[0].to));
  CHECK_FALSE(may_include(found[1].from, found[1].to));
  CHECK(left_of("app/desk/shell") == std::vector<std::string>{"app/desk/screens"});
  CHECK_THROWS_AS(left_of("app/attic"), std::out_of_range);
}

TEST_CASE("a header of the window system is found behind others") {
  const std::vector<SourceFile> files = {
      {"app/desk/work/run.h", "#include \"app/desk/views/log.h\"\n"},
      {"app/desk/views/log.h", "#include <vector>\n#include \"app/desk/kit/theme.h\"\n"},
      {"app/desk/kit/theme.h", "#include <imgui.h>\n"},
      {"app/desk/work/desk.h", "#include <string>\n"},
  };
  const auto violations = check_drawing_is_out_of_reach(files, "app/desk/work");
  REQUIRE(violations.size() == 1);
  CHECK(violations[0].text() ==
        "app/desk/work/run.h:1: reaches <imgui.h> through app/desk/views/log.h through app/desk/kit/theme.h");
}

TEST_CASE("folders that include each other, crowded folders and wrong namespaces are found") {
  const SourceFile view{"app/desk/views/body/a.cpp",
                        "#include \"app/desk/views/trend/b.h\"\nnamespace stirbench::desk::views {\n}\n"};
  const SourceFile back{
      "app/desk/views/trend/b.h",
      "\n#include \"app/desk/views/body/c.h\"\nnamespace stirbench::desk::views::trend {\n}\n"};
  CHECK(check_folders_both_ways({view}, "app/desk/").empty());
  CHECK(list(check_folders_both_ways({view, back}, "app/desk/")).find("trend/b.h:2:") != std::string::npos);
  CHECK(check_desk_namespaces({view, back}).empty());
  CHECK(list(check_desk_namespaces(
            {{"app/desk/views/body/a.cpp", "namespace stirbench::desk::views::trend {\n}\n"}})) != "");
  CHECK(list(check_desk_namespaces({{"app/desk/views/body/a.cpp", "\nnamespace stirbench::desk {\n}\n"}}))
            .find(":2:") != std::string::npos);
  CHECK(list(check_desk_namespaces(
            {{"app/desk/views/body/a.cpp", "namespace stirbench::desk::kit {\n}\n"}})) != "");
  CHECK(list(check_desk_namespaces({{"app/desk/views/body/a.cpp", "int x;\n"}})) != "");
  CHECK(check_desk_namespaces(
            {{"app/desk/kit/all.h", "#pragma once\n// All of them.\n#include \"app/desk/kit/a.h\"\n"}})
            .empty());
  CHECK(check_folder_sizes({view, back}, "app/", 1).empty());
  CHECK(check_folder_sizes({view, {"app/desk/views/body/d.cpp", ""}}, "app/", 1).size() == 1);
}

TEST_CASE("the layer check finds each kind of wrong include") {
  // Inside sim_core, against the arrow and beside it.
  CHECK(first_reason("sim_core/product/a.h", "#include \"sim_core/plant/state.h\"\n").find(":1:") !=
        std::string::npos);
  CHECK(first_reason("sim_core/plant/a.cpp", "\n#include \"sim_core/control/recipe.h\"\n").find(":2:") !=
        std::string::npos);
  CHECK(first_reason("sim_core/refrigeration/a.cpp", "#include \"sim_core/plant/state.h\"\n") != "");
  CHECK(first_reason("sim_core/control/a.cpp", "#include \"sim_core/faults/fault.h\"\n") != "");
  CHECK(first_reason("sim_core/bench/a.cpp", "#include \"sim_core/training/lesson.h\"\n") != "");
  CHECK(first_reason("sim_core/diagnosis/a.cpp", "#include \"sim_core/training/lesson.h\"\n") != "");
  CHECK(first_reason("sim_core/bench/a.cpp", "#include \"app/library/library.h\"\n") != "");
  // Between the parts of the program.
  CHECK(first_reason("app/library/a.cpp", "#include \"app/desk/kit/theme/theme.h\"\n") != "");
  CHECK(first_reason("app/library/a.cpp", "#include \"app/records/store.h\"\n") != "");
  CHECK(first_reason("app/records/a.cpp", "  #  include \"app/cli/cli.h\"\n") != "");
  CHECK(first_reason("app/cli/a.cpp", "#include \"app/desk/shell/run_desk.h\"\n") != "");
  CHECK(first_reason("app/desk/shell/a.cpp", "#include \"app/cli/cli.h\"\n") != "");
  // The world outside, where it has no business.
  for (const char* header : {"chrono", "fstream", "filesystem", "thread", "iostream", "imgui.h",
                             "GLFW/glfw3.h", "glad/gl.h", "nlohmann/json.hpp", "random", "unordered_map"}) {
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
            {"sim_core/training/a.cpp",
             "#include <vector>\n#include \"sim_core/bench/step.h\"\n#include "
             "\"sim_core/product/product.h\"\n"},
            {"sim_core/bench/a.cpp",
             "#include \"sim_core/faults/fault.h\"\n#include \"sim_core/control/recipe.h\"\n"},
            {"app/library/a.cpp",
             "#include <fstream>\n#include <nlohmann/json.hpp>\n#include \"sim_core/bench/machine.h\"\n"},
            {"app/desk/screens/a.cpp",
             "#include <imgui.h>\n#include \"app/records/store.h\"\n#include \"app/library/library.h\"\n"},
            {"app/main.cpp", "#include \"app/desk/shell/run_desk.h\"\n#include \"app/cli/cli.h\"\n"},
            {"tests/app/cli/a.cpp", "#include <thread>\n#include \"app/desk/kit/theme/theme.h\"\n"},
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
