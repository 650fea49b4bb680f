#include "app/desk/views/body/renderer.h"

#include <algorithm>
#include <cmath>

#include "app/desk/views/body/gl_internal.h"
#include "sim_core/plant/scorch.h"

namespace stirbench::desk::views::body {

namespace {

Matrix matrix_of(const Pose& pose) {
  Matrix m{};
  Eigen::Map<Eigen::Matrix4f>(m.data()) = pose.motion.matrix().cast<float>();
  return m;
}

// What the standing picture depends on.
struct StandingKey {
  Camera camera;
  Choice choice;
  Colours colours;
  PartPositions moment;
  std::vector<Paint> paint;
  int width = 0;
  int height = 0;
  bool operator==(const StandingKey& o) const {
    const auto still = [](const PartPositions& m) {
      return std::array<double, 11>{m.lid_norm,
                                    m.cover_norm,
                                    m.handle_norm,
                                    m.gate_norm,
                                    m.freezer_lid_norm,
                                    m.freezer_drain_norm,
                                    m.isolator_norm,
                                    m.emergency_norm,
                                    static_cast<double>(m.hose),
                                    m.freezer ? 1.0 : 0.0,
                                    static_cast<double>(m.off)};
    };
    return camera == o.camera && choice.look == o.choice.look && choice.cut_m == o.choice.cut_m &&
           choice.apart_norm == o.choice.apart_norm && choice.freezer == o.choice.freezer &&
           colours == o.colours && still(moment) == still(o.moment) && paint == o.paint && width == o.width &&
           height == o.height;
  }
};

// What the moving parts depend on: everything that the effects read, in the steps in which it shows.
std::vector<double> moving_key(const RenderInput& in, const PartPositions& m) {
  const plant::PlantState& p = in.state.plant;
  const auto steps = [](double value, double step) { return std::floor(value / step + 0.5); };
  return {m.agitator_rad,
          m.fan_rad,
          m.dasher_rad,
          in.motion.flow_m,
          in.motion.draw_m,
          p.flows.steam_kg_per_h > 0.0 ? in.motion.steam_s : 0.0,
          steps(p.coefficients.volume_L, 0.05),
          steps(p.vat_degC, 0.5),
          steps(p.well_degC, 0.5),
          steps(p.flows.agitator_rpm, 2.0),
          steps(p.pail.total_kg(), 0.05),
          steps(p.pail_degC, 1.0),
          steps(p.floor_kg, 0.02),
          steps(p.deposit_kg_per_m2, 0.004),
          plant::shows_bloom(p) ? 1.0 : 0.0,
          steps(p.wall_ice_kg, 0.01),
          steps(p.product.air_norm, 0.002),
          steps(p.product.undissolved_sugar_kg, 0.05),
          steps(p.product.sunk_sugar_kg + p.product.sunk_powder_kg, 0.05),
          steps(p.product.dry_powder_kg + p.product.gum_lumps_kg, 0.02),
          steps(p.product.scorched_kg, 0.001),
          steps(p.flows.draw_L_per_min, 0.1),
          steps(p.flows.spill_L_per_min, 0.2),
          steps(p.flows.circulation_L_per_min, 1.0),
          steps(p.freezer.product.total_kg(), 0.05),
          steps(p.freezer.air_L, 0.05),
          steps(p.freezer.ice_kg, 0.05),
          steps(p.freezer.tub.total_kg(), 0.05),
          static_cast<double>(in.marked),
          static_cast<double>(in.ghost)};
}

}  // namespace

struct BodyRenderer::Impl {
  explicit Impl(const BodyModel& body_model) : model(body_model) {}

  struct Drawn {
    std::size_t first = 0;
    std::size_t count = 0;
    std::size_t first_edge = 0;
    std::size_t edges = 0;
  };

  const BodyModel& model;
  std::string error;
  Program program;
  Buffers parts;
  std::vector<Drawn> drawn;
  Buffers ground;
  Buffers moving;
  Effects effects;
  RenderTarget standing;
  RenderTarget shown;
  StandingKey standing_key;
  std::vector<double> last_moving;
  bool any = false;
  long long standing_count = 0;
  long long moving_count = 0;

  void load();
  void begin(const RenderInput& in);
  void end() const;
  void draw_part(std::size_t i, const PartPositions& moment, const Choice& choice, const Paint& paint);
  void draw_effect(Buffers& buffers, const Effect& effect, bool cut, bool flat, const Choice& choice,
                   float bias = 0.0F);
  void draw_standing(const RenderInput& in, const EffectInput& effect);
  void draw_moving(const RenderInput& in, const EffectInput& effect);
  void draw_veils(const RenderInput& in, const PartPositions& moment);
  void draw_mark(const RenderInput& in, const PartPositions& moment);
  void draw_ghost(const RenderInput& in, const PartPositions& moment);
  void edges(std::size_t i, const Colours& colours);
};

void BodyRenderer::Impl::load() {
  error = program.load("body");
  if (!error.empty()) return;
  std::vector<ShadedMesh::Corner> corners;
  std::vector<std::uint32_t> indices;
  for (const PartModel& part : model.parts) {
    const ShadedMesh shade = shaded(part.mesh);
    const auto first = static_cast<std::uint32_t>(corners.size());
    corners.insert(corners.end(), shade.corners.begin(), shade.corners.end());
    Drawn one;
    one.first = indices.size();
    one.count = shade.triangles.size();
    for (const std::uint32_t t : shade.triangles) indices.push_back(first + t);
    one.first_edge = indices.size();
    one.edges = shade.edges.size();
    for (const std::uint32_t e : shade.edges) indices.push_back(first + e);
    drawn.push_back(one);
  }
  parts.fill(corners.data(), corners.size() * sizeof(ShadedMesh::Corner), false, indices, false);
}

void BodyRenderer::Impl::begin(const RenderInput& in) {
  glDisable(GL_SCISSOR_TEST);
  glDisable(GL_BLEND);
  glEnable(GL_DEPTH_TEST);
  glDepthFunc(GL_LEQUAL);
  glDepthMask(GL_TRUE);
  glEnable(GL_CLIP_DISTANCE0);
  program.use();
  const double aspect = static_cast<double>(in.width) / std::max(in.height, 1);
  program.set("u_view", in.camera.view_projection(aspect));
  const Vec3 eye = in.camera.eye();
  program.set("u_eye", std::array<float, 3>{static_cast<float>(eye[0]), static_cast<float>(eye[1]),
                                            static_cast<float>(eye[2])});
  program.set("u_mark", std::array<float, 4>{0, 0, 0, 0});
  program.set("u_bias", 0.0F);
}

void BodyRenderer::Impl::end() const {
  glDisable(GL_CLIP_DISTANCE0);
  glDisable(GL_DEPTH_TEST);
  glDisable(GL_CULL_FACE);
  glDisable(GL_BLEND);
  glDepthMask(GL_TRUE);
  glBindVertexArray(0);
  glUseProgram(0);
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
}

void BodyRenderer::Impl::draw_part(std::size_t i, const PartPositions& moment, const Choice& choice,
                                   const Paint& paint) {
  const PartModel& part = model.parts[i];
  const bool cut = is_cut(*part.part, choice);
  program.set("u_plane", cut ? std::array<float, 4>{0, 1, 0, static_cast<float>(-choice.cut_m)}
                             : std::array<float, 4>{0, 0, 0, 1});
  program.set("u_pose", matrix_of(pose_of(part, moment, choice)));
  program.set("u_colour", paint.colour);
  program.set("u_surface", std::array<float, 3>{paint.metal, paint.gloss, paint.glow});
  program.set("u_flat", 0.0F);
  program.set("u_hatch", 1.0F);
  if (cut)
    glDisable(GL_CULL_FACE);
  else
    glEnable(GL_CULL_FACE);
  parts.bind();
  glVertexAttrib4f(2, 1.0F, 1.0F, 1.0F, 1.0F);
  glDrawElements(GL_TRIANGLES, static_cast<GLsizei>(drawn[i].count), GL_UNSIGNED_INT,
                 reinterpret_cast<const void*>(drawn[i].first * sizeof(std::uint32_t)));
}

// Sharp edges of the part drawn last.
void BodyRenderer::Impl::edges(std::size_t i, const Colours& colours) {
  if (drawn[i].edges == 0) return;
  std::array<float, 4> line = colours.line;
  line[3] = 0.38F;
  program.set("u_colour", line);
  program.set("u_flat", 1.0F);
  program.set("u_bias", 0.0006F);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  glDepthMask(GL_FALSE);
  glDrawElements(GL_LINES, static_cast<GLsizei>(drawn[i].edges), GL_UNSIGNED_INT,
                 reinterpret_cast<const void*>(drawn[i].first_edge * sizeof(std::uint32_t)));
  glDepthMask(GL_TRUE);
  glDisable(GL_BLEND);
  program.set("u_bias", 0.0F);
}

void BodyRenderer::Impl::draw_effect(Buffers& buffers, const Effect& effect, bool cut, bool flat,
                                     const Choice& choice, float bias) {
  if (effect.triangles.empty()) return;
  buffers.fill(effect.corners.data(), effect.corners.size() * sizeof(Speck), true, effect.triangles, true);
  const bool opened = cut && choice.look == Look::cutaway;
  program.set("u_plane", opened ? std::array<float, 4>{0, 1, 0, static_cast<float>(-choice.cut_m)}
                                : std::array<float, 4>{0, 0, 0, 1});
  program.set("u_pose", matrix_of({}));
  program.set("u_colour", std::array<float, 4>{1, 1, 1, 1});
  program.set("u_surface", std::array<float, 3>{0.03F, 0.18F, 0.0F});
  program.set("u_flat", flat ? 1.0F : 0.0F);
  program.set("u_hatch", 0.0F);
  program.set("u_bias", bias);
  if (opened || flat)
    glDisable(GL_CULL_FACE);
  else
    glEnable(GL_CULL_FACE);
  buffers.bind();
  glDrawElements(GL_TRIANGLES, static_cast<GLsizei>(effect.triangles.size()), GL_UNSIGNED_INT, nullptr);
  program.set("u_bias", 0.0F);
}

void BodyRenderer::Impl::draw_standing(const RenderInput& in, const EffectInput& effect) {
  standing.bind();
  glClearColor(in.colours.stage[0], in.colours.stage[1], in.colours.stage[2], 1.0F);
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
  effects.ground.clear();
  make_ground(effect, effects.ground);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  draw_effect(ground, effects.ground, false, true, in.choice);
  glDisable(GL_BLEND);
  for (std::size_t i = 0; i < model.parts.size(); ++i) {
    const library::BodyPart& part = *model.parts[i].part;
    if (!is_shown(part, effect.moment, in.choice) || is_veil(part, in.choice) || turns_by_itself(part))
      continue;
    draw_part(i, effect.moment, in.choice, standing_key.paint[i]);
    edges(i, in.colours);
  }
  ++standing_count;
}

void BodyRenderer::Impl::draw_veils(const RenderInput& in, const PartPositions& moment) {
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  glDepthMask(GL_FALSE);
  for (std::size_t i = 0; i < model.parts.size(); ++i) {
    if (!is_shown(*model.parts[i].part, moment, in.choice) || !is_veil(*model.parts[i].part, in.choice))
      continue;
    Paint paint = standing_key.paint[i];
    paint.colour[3] = 0.16F;
    draw_part(i, moment, in.choice, paint);
    edges(i, in.colours);
    glEnable(GL_BLEND);
    glDepthMask(GL_FALSE);
  }
  draw_effect(moving, effects.veil, false, true, in.choice);
  glDepthMask(GL_TRUE);
  glDisable(GL_BLEND);
}

// The part once more, tinted, over everything that does not hide it.
void BodyRenderer::Impl::draw_mark(const RenderInput& in, const PartPositions& moment) {
  if (in.marked < 0 || in.marked >= static_cast<int>(model.parts.size())) return;
  const auto i = static_cast<std::size_t>(in.marked);
  if (!is_shown(*model.parts[i].part, moment, in.choice)) return;
  std::array<float, 4> mark = in.colours.mark;
  mark[3] = 0.55F;
  program.set("u_mark", mark);
  program.set("u_bias", 0.0002F);
  draw_part(i, moment, in.choice, standing_key.paint[i]);
  program.set("u_mark", std::array<float, 4>{0, 0, 0, 0});
  // Where something hides it, it shines through.
  glDepthFunc(GL_GREATER);
  glDepthMask(GL_FALSE);
  glEnable(GL_BLEND);
  Paint ghost;
  ghost.colour = in.colours.mark;
  ghost.colour[3] = 0.22F;
  ghost.glow = 1.0F;
  draw_part(i, moment, in.choice, ghost);
  glDisable(GL_BLEND);
  glDepthMask(GL_TRUE);
  glDepthFunc(GL_LEQUAL);
  program.set("u_bias", 0.0F);
}

// Where the part in the hand belongs.
void BodyRenderer::Impl::draw_ghost(const RenderInput& in, const PartPositions& moment) {
  if (in.ghost < 0 || in.ghost >= static_cast<int>(model.parts.size())) return;
  const auto i = static_cast<std::size_t>(in.ghost);
  PartPositions there = moment;
  if (model.parts[i].place >= 0) there.off &= ~(1U << static_cast<unsigned>(model.parts[i].place));
  Paint paint;
  paint.colour = in.colours.mark;
  paint.colour[3] = 0.45F;
  paint.glow = 0.6F;
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  draw_part(i, there, in.choice, paint);
  glDisable(GL_BLEND);
}

void BodyRenderer::Impl::draw_moving(const RenderInput& in, const EffectInput& effect) {
  shown.copy_from(standing);
  shown.bind();
  for (std::size_t i = 0; i < model.parts.size(); ++i) {
    const library::BodyPart& part = *model.parts[i].part;
    if (!is_shown(part, effect.moment, in.choice) || !turns_by_itself(part)) continue;
    draw_part(i, effect.moment, in.choice, standing_key.paint[i]);
    edges(i, in.colours);
  }
  make_effects(effect, effects);
  draw_effect(moving, effects.solid, true, false, in.choice);
  draw_effect(moving, effects.whole, false, false, in.choice);
  draw_ghost(in, effect.moment);
  draw_mark(in, effect.moment);
  draw_veils(in, effect.moment);
  ++moving_count;
}

BodyRenderer::BodyRenderer(const BodyModel& model) : impl_(std::make_unique<Impl>(model)) { impl_->load(); }
BodyRenderer::~BodyRenderer() = default;
const std::string& BodyRenderer::error() const { return impl_->error; }
unsigned int BodyRenderer::texture() const { return impl_->shown.texture(); }
long long BodyRenderer::standing_drawn() const { return impl_->standing_count; }
long long BodyRenderer::moving_drawn() const { return impl_->moving_count; }

bool BodyRenderer::render(const RenderInput& in) {
  if (!impl_->error.empty() || in.width < 8 || in.height < 8) return false;
  const PartPositions moment = part_positions(in.state, in.motion);
  StandingKey key{in.camera,
                  in.choice,
                  in.colours,
                  moment,
                  paint_parts(impl_->model, in.machine, in.state),
                  in.width * in.fineness,
                  in.height * in.fineness};
  const std::vector<double> moving = moving_key(in, moment);
  const bool standing_good = impl_->any && key == impl_->standing_key;
  if (standing_good && moving == impl_->last_moving) return false;
  const EffectInput effect{impl_->model,    in.machine, in.state,  in.motion,         moment,
                           in.choice,       in.camera,  in.vessel, in.reduced_motion, in.colours.floor,
                           in.colours.stage};
  impl_->standing_key = std::move(key);
  impl_->standing.resize(impl_->standing_key.width, impl_->standing_key.height);
  impl_->shown.resize(impl_->standing_key.width, impl_->standing_key.height);
  impl_->begin(in);
  if (!standing_good) impl_->draw_standing(in, effect);
  impl_->draw_moving(in, effect);
  impl_->end();
  impl_->last_moving = moving;
  impl_->any = true;
  return true;
}

std::vector<unsigned char> BodyRenderer::pixels(int& width, int& height) const {
  width = impl_->shown.width();
  height = impl_->shown.height();
  const auto row = static_cast<std::size_t>(width) * 3;
  std::vector<unsigned char> upside_down(row * static_cast<std::size_t>(height));
  glBindFramebuffer(GL_FRAMEBUFFER, impl_->shown.frame());
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE, upside_down.data());
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  std::vector<unsigned char> out(upside_down.size());
  for (int y = 0; y < height; ++y) {
    const auto from = static_cast<std::ptrdiff_t>(row * static_cast<std::size_t>(height - 1 - y));
    std::copy_n(upside_down.begin() + from, row,
                out.begin() + static_cast<std::ptrdiff_t>(row * static_cast<std::size_t>(y)));
  }
  return out;
}

}  // namespace stirbench::desk::views::body
