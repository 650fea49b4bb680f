#include <cairo/cairo.h>

#include <glad/gl.h>
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "app/desk/shell/window.h"
#include "app/desk/views/body/renderer.h"
#include "app/library/library.h"
#include "app/library/reading/paths.h"
#include "sim_core/training/lesson_run.h"

// Contact sheets of the lessons: each lesson's right run, the machine's body at the moments in which its
// steps were done. Needs a display:
//   xvfb-run -s "-screen 0 1280x800x24" build/release/tests/bench_lesson_sheet FOLDER [LESSON]
// writes FOLDER/lessons-1.png ... with a row for each lesson.
namespace {

using namespace stirbench;
using desk::views::body::Look;

constexpr int picture_w = 400;
constexpr int picture_h = 300;
constexpr int caption_h = 40;
constexpr int columns = 5;
constexpr int rows = 6;

struct Shot {
  double at_s = 0.0;
  std::string step;
  machine::State state;
};

// The state at the end of every step, thinned out evenly to as many as a row holds; the run's end is among
// them.
std::vector<Shot> moments(const machine::Machine& machine, const training::Lesson& lesson,
                          const std::string& file) {
  training::LessonRun run(machine, lesson, "actions_file", "sheet", lesson.start.seed);
  bench::ActionScript script(library::read_actions(file, machine).actions);
  std::vector<Shot> all;
  int step = 0;
  bench::drive(
      run, script, [&run] { return run.over(); },
      [&](const machine::State& state, const std::vector<machine::Event>&) {
        const int current = run.scorer().current_step();
        if (current == step) return;
        all.push_back(
            {machine::time_s(state), lesson.steps[static_cast<std::size_t>(current - 1)].id, state});
        step = current;
      });
  if (all.empty()) all.push_back({machine::time_s(run.session().state()), "end", run.session().state()});
  std::vector<Shot> out;
  const std::size_t most = std::min<std::size_t>(columns, all.size());
  for (std::size_t i = 0; i < most; ++i)
    out.push_back(std::move(all[most == 1 ? 0 : i * (all.size() - 1) / (most - 1)]));
  return out;
}

std::array<float, 4> colour(desk::kit::Token token) {
  return desk::views::body::rgba(desk::kit::token_colour(desk::kit::ThemeKind::light, token));
}

// From before the machine; near the first part that is off.
std::vector<unsigned char> draw(desk::views::body::BodyRenderer& renderer,
                                const desk::views::body::BodyModel& model, const machine::Machine& machine,
                                const machine::State& state, int& w, int& h) {
  using namespace desk::kit;
  using namespace desk::views;
  const Vessel vessel(machine.plant);
  MachineMotion motion;
  motion.advance(machine, state, 0.0, true, true);
  motion.advance(machine, state, 1.37, true, false);
  const body::PartPositions moment = body::part_positions(state, motion);
  const body::Choice choice{Look::cutaway, 0.0, 1.0, false};
  body::Camera camera;
  camera.azimuth_deg = 18.0;
  camera.height_deg = 18.0;
  camera.fit(bounds_of(model, moment, choice), static_cast<double>(picture_w) / picture_h);
  for (const auto& part : model.parts) {
    if (part.place < 0 || (moment.off >> static_cast<unsigned>(part.place) & 1U) == 0) continue;
    camera.target = pose_of(part, moment, choice).apply(part.bounds.centre());
    camera.zoom(0.5);
    break;
  }
  const body::RenderInput in{
      machine,
      state,
      motion,
      vessel,
      choice,
      camera,
      {colour(Token::stage), colour(Token::floor), colour(Token::metal_dark), colour(Token::act)},
      picture_w,
      picture_h,
      1,
      -1};
  renderer.render(in);
  return renderer.pixels(w, h);
}

class Page {
 public:
  Page()
      : surface_(cairo_image_surface_create(CAIRO_FORMAT_RGB24, columns * picture_w,
                                            rows * (picture_h + caption_h))),
        cr_(cairo_create(surface_)) {
    cairo_set_source_rgb(cr_, 1.0, 1.0, 1.0);
    cairo_paint(cr_);
    cairo_select_font_face(cr_, "sans-serif", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cr_, 15.0);
  }
  ~Page() {
    cairo_destroy(cr_);
    cairo_surface_destroy(surface_);
  }
  Page(const Page&) = delete;
  Page& operator=(const Page&) = delete;

  void put(int column, int row, const std::string& words, const std::vector<unsigned char>& rgb, int w,
           int h) {
    cairo_surface_t* picture = cairo_image_surface_create(CAIRO_FORMAT_RGB24, w, h);
    cairo_surface_flush(picture);
    unsigned char* data = cairo_image_surface_get_data(picture);
    const int stride = cairo_image_surface_get_stride(picture);
    for (int y = 0; y < h; ++y) {
      for (int x = 0; x < w; ++x) {
        const unsigned char* from = &rgb[static_cast<std::size_t>(y * w + x) * 3];
        unsigned char* to = data + y * stride + 4 * x;
        to[0] = from[2];
        to[1] = from[1];
        to[2] = from[0];
      }
    }
    cairo_surface_mark_dirty(picture);
    const double left = column * picture_w;
    const double top = row * (picture_h + caption_h);
    cairo_set_source_surface(cr_, picture, left, top + caption_h);
    cairo_paint(cr_);
    cairo_surface_destroy(picture);
    cairo_set_source_rgb(cr_, 0.1, 0.1, 0.1);
    cairo_move_to(cr_, left + 6.0, top + 25.0);
    cairo_show_text(cr_, words.c_str());
  }
  bool write(const std::string& file) const {
    return cairo_surface_write_to_png(surface_, file.c_str()) == CAIRO_STATUS_SUCCESS;
  }

 private:
  cairo_surface_t* surface_;
  cairo_t* cr_;
};

std::string clock(double s) {
  char text[24];
  std::snprintf(text, sizeof text, "%d:%02d", static_cast<int>(s) / 60, static_cast<int>(s) % 60);
  return text;
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
  std::map<std::string, std::unique_ptr<desk::views::body::BodyModel>> models;
  std::map<std::string, std::unique_ptr<desk::views::body::BodyRenderer>> renderers;
  for (const auto& [id, body] : loaded.library.bodies) {
    models[id] = std::make_unique<desk::views::body::BodyModel>(body);
    renderers[id] = std::make_unique<desk::views::body::BodyRenderer>(*models[id]);
  }
  auto page = std::make_unique<Page>();
  int row = 0, pages = 0;
  const auto turn = [&] {
    const std::string file = folder + "/lessons-" + std::to_string(++pages) + ".png";
    if (!page->write(file)) std::fprintf(stderr, "%s cannot be written\n", file.c_str());
    page = std::make_unique<Page>();
    row = 0;
  };
  for (const auto& [id, lesson] : loaded.library.lessons) {
    if ((argc > 2 && id != argv[2]) || models.count(lesson.machine) == 0) continue;
    const machine::Machine machine = loaded.library.machine(lesson.machine);
    const auto shots = moments(machine, lesson, library::content_dir() + "/lessons/" + id + "/right.jsonl");
    for (std::size_t i = 0; i < shots.size(); ++i) {
      int w = 0, h = 0;
      const auto rgb =
          draw(*renderers[lesson.machine], *models[lesson.machine], machine, shots[i].state, w, h);
      page->put(static_cast<int>(i), row,
                (i == 0 ? id + "   " : "") + clock(shots[i].at_s) + "  " + shots[i].step, rgb, w, h);
    }
    std::printf("page %d, row %d: %s, %zu moments\n", pages + 1, row + 1, id.c_str(), shots.size());
    if (++row == rows) turn();
  }
  if (row > 0) turn();
  return 0;
}
