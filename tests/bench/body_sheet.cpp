#include <stb_image_write.h>

#include <glad/gl.h>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

#include "app/desk/shell/window.h"
#include "app/desk/views/body/renderer.h"
#include "app/desk/views/machine_view/sample_states.h"
#include "app/library/library.h"
#include "app/library/reading/paths.h"

// Contact sheets of the machines' bodies: each look, and the moments a trainee meets. Needs a display:
//   xvfb-run -s "-screen 0 1280x800x24" build/release/tests/bench_body_sheet FOLDER
// writes FOLDER/ID.png (the sheet) and, with a third word, that picture alone in full size: ... FOLDER hm-45
// cutaway.
namespace {

using namespace stirbench;
using desk::views::body::Look;

struct View {
  const char* name;
  const char* state;  // of sample_states
  Look look;
  double azimuth_deg;
  double height_deg;
  double zoom = 1.0;
  const char* at = "";  // part in the middle
  bool freezer = false;
  const char* marked = "";
};

const std::vector<View>& views() {
  static const std::vector<View> all = {
      {"whole", "empty", Look::whole, 26, 16},
      {"whole-left", "hot", Look::whole, -42, 20},
      {"lid-open", "alarm", Look::whole, 14, 38},
      {"cutaway", "hot", Look::cutaway, 10, 12},
      {"filling", "warm", Look::cutaway, 24, 26},
      {"chill", "chill", Look::cutaway, -14, 10},
      {"draw", "draw", Look::cutaway, 22, 8, 0.55, "valve_body"},
      {"dry", "dry", Look::cutaway, 8, 14, 0.6, "elements"},
      {"spill", "spill", Look::whole, 20, 22, 1.0, "", true},
      {"see-through", "hot", Look::see_through, 30, 14},
      {"apart", "empty", Look::apart, 30, 12},
      {"valve", "draw", Look::cutaway, 14, 10, 0.22, "valve_plunger", false, "oring_front"},
      {"freezer", "draw", Look::cutaway, 16, 10, 1.0, "", true},
      {"shaft", "empty", Look::cutaway, 10, 12, 0.22, "shaft_end_bushing", false, "shaft_end_bushing"},
      {"rim", "empty", Look::whole, -70, 24, 0.24, "reed_switch", false, "reed_switch"},
      {"valve-apart", "empty", Look::apart, 24, 14, 0.34, "valve_spring"}};
  return all;
}

std::array<float, 4> colour(desk::kit::Token token) {
  return desk::views::body::rgba(desk::kit::token_colour(desk::kit::ThemeKind::light, token));
}

struct Picture {
  int width = 0;
  int height = 0;
  std::vector<unsigned char> rgb;
};

// Halves the picture both ways.
Picture halved(int width, int height, const std::vector<unsigned char>& rgb) {
  Picture out{width / 2, height / 2,
              std::vector<unsigned char>(static_cast<std::size_t>(width / 2) *
                                         static_cast<std::size_t>(height / 2) * 3)};
  for (int y = 0; y < out.height; ++y)
    for (int x = 0; x < out.width; ++x)
      for (int c = 0; c < 3; ++c) {
        int sum = 0;
        for (int k = 0; k < 4; ++k)
          sum += rgb[static_cast<std::size_t>(((2 * y + k / 2) * width + 2 * x + k % 2) * 3 + c)];
        out.rgb[static_cast<std::size_t>((y * out.width + x) * 3 + c)] = static_cast<unsigned char>(sum / 4);
      }
  return out;
}

Picture draw(desk::views::body::BodyRenderer& renderer, const desk::views::body::BodyModel& model,
             const machine::Machine& machine, const View& view, int width, int height) {
  using namespace desk::kit;
  using namespace desk::views;
  const Vessel vessel(machine.plant);
  SampleState shown{};
  for (SampleState& one : sample_states(machine))
    if (one.name == view.state) shown = one;
  shown.state.plant.coefficients.volume_L *= machine.plant.vat.working_L / 45.0;
  if (std::string(view.state) != "spill") shown.state.plant.fittings.hose = plant::HoseEnd::none;
  MachineMotion motion;
  motion.advance(machine, shown.state, 0.0, true, true);
  motion.advance(machine, shown.state, 1.37, true, false);
  body::Choice choice{view.look, 0.0, 1.0, view.freezer};
  body::Camera camera;
  camera.azimuth_deg = view.azimuth_deg;
  camera.height_deg = view.height_deg;
  const body::PartPositions moment = body::part_positions(shown.state, motion);
  camera.fit(bounds_of(model, moment, choice), static_cast<double>(width) / height);
  const int middle = model.index(view.at);
  if (middle >= 0) {
    const auto& part = model.parts[static_cast<std::size_t>(middle)];
    camera.target = pose_of(part, moment, choice).apply(part.bounds.centre());
  }
  camera.zoom(view.zoom);
  body::RenderInput in{
      machine,
      shown.state,
      motion,
      vessel,
      choice,
      camera,
      {colour(Token::stage), colour(Token::floor), colour(Token::metal_dark), colour(Token::act)},
      width,
      height,
      2,
      model.index(view.marked)};
  const auto start = std::chrono::steady_clock::now();
  renderer.render(in);
  int w = 0;
  int h = 0;
  const std::vector<unsigned char> rgb = renderer.pixels(w, h);
  const double ms =
      std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
  std::printf("  %-14s %6.1f ms at %d x %d\n", view.name, ms, w, h);
  return halved(w, h, rgb);
}

bool write(const std::string& file, const Picture& p) {
  return stbi_write_png(file.c_str(), p.width, p.height, 3, p.rgb.data(), p.width * 3) != 0;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string folder = argc > 1 ? argv[1] : ".";
  std::filesystem::create_directories(folder);
  const auto loaded = library::load(library::content_dir(), "");
  for (const auto& problem : loaded.problems) std::fprintf(stderr, "%s\n", problem.text().c_str());
  if (!loaded.problems.empty()) return 2;
  desk::shell::Window window({.vsync = false, .visible = false});
  if (!window.ok()) {
    std::fprintf(stderr, "%s\n", window.error().c_str());
    return 4;
  }
  for (const auto& [id, machine_body] : loaded.library.bodies) {
    if (argc > 2 && id != argv[2]) continue;
    const machine::Machine machine = loaded.library.machine(id);
    const desk::views::body::BodyModel model(machine_body);
    desk::views::body::BodyRenderer renderer(model);
    if (!renderer.error().empty()) {
      std::fprintf(stderr, "%s\n", renderer.error().c_str());
      return 1;
    }
    std::printf("%s: %zu parts, %zu triangles\n", id.c_str(), model.parts.size(), model.triangles());
    constexpr int width = 640;
    constexpr int height = 480;
    constexpr int columns = 4;
    const int rows = (static_cast<int>(views().size()) + columns - 1) / columns;
    Picture sheet{
        width * columns, height * rows,
        std::vector<unsigned char>(static_cast<std::size_t>(width * columns * height * rows) * 3, 255)};
    for (std::size_t i = 0; i < views().size(); ++i) {
      const View& view = views()[i];
      if (argc > 3) {
        if (view.name != std::string(argv[3])) continue;
        write(folder + "/" + id + "-" + view.name + ".png", draw(renderer, model, machine, view, 1200, 900));
        continue;
      }
      const Picture one = draw(renderer, model, machine, view, width, height);
      const int left = static_cast<int>(i) % columns * width;
      const int top = static_cast<int>(i) / columns * height;
      for (int y = 0; y < one.height; ++y)
        std::copy_n(one.rgb.begin() + static_cast<std::ptrdiff_t>(y) * one.width * 3, one.width * 3,
                    sheet.rgb.begin() + (static_cast<std::ptrdiff_t>(top + y) * sheet.width + left) * 3);
    }
    if (argc <= 3 && !write(folder + "/" + id + ".png", sheet)) return 1;
  }
  return 0;
}
