#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/desk/views/body/effects.h"
#include "app/desk/views/body/paint.h"

// Draws a machine's body into a texture with OpenGL 3.3. What stands still is kept with its depth, and only
// what moves is drawn over it; nothing is drawn at all when nothing changed.
namespace stirbench::desk::views::body {

struct Colours {
  std::array<float, 4> stage{};
  std::array<float, 4> floor{};
  std::array<float, 4> line{};
  std::array<float, 4> mark{};
  bool operator==(const Colours&) const = default;
};

struct RenderInput {
  const machine::Machine& machine;
  const machine::State& state;
  const MachineMotion& motion;
  const Vessel& vessel;
  Choice choice;
  Camera camera;
  Colours colours;
  int width = 0;  // of the picture on the screen, in pixels
  int height = 0;
  int fineness = 1;  // texture pixels a screen pixel and side
  int marked = -1;   // part that is highlighted
  bool reduced_motion = false;
  int ghost = -1;  // part that is shown faintly in its place while it is off
};

class BodyRenderer {
 public:
  // Needs a current OpenGL context. error() says why it cannot draw (a missing or broken shader).
  explicit BodyRenderer(const BodyModel& model);
  ~BodyRenderer();
  BodyRenderer(const BodyRenderer&) = delete;
  BodyRenderer& operator=(const BodyRenderer&) = delete;

  const std::string& error() const;
  // True when a picture was drawn, false when the last one still holds.
  bool render(const RenderInput& input);
  unsigned int texture() const;
  // RGB of the last picture, top row first, in texture pixels.
  std::vector<unsigned char> pixels(int& width, int& height) const;
  // How often the standing part and the moving part were drawn.
  long long standing_drawn() const;
  long long moving_drawn() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace stirbench::desk::views::body
