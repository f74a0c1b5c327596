#include "viewer/draw/renderer.h"

#include <epoxy/gl.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>

#include "viewer/draw/gpu_mesh.h"
#include "viewer/draw/shader.h"
#include "viewer/draw/shadow_map.h"
#include "viewer/scene/tone.h"
#include "viewer/scene/visibility.h"

namespace hummock::viewer {
namespace {

std::array<float, 4> array_of(Colour c) {
  return {c.r, c.g, c.b, c.a};
}

unsigned make_texture(GLenum wrap, GLenum filter) {
  unsigned name = 0;
  glGenTextures(1, &name);
  glBindTexture(GL_TEXTURE_2D, name);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, static_cast<GLint>(wrap));
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, static_cast<GLint>(wrap));
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, static_cast<GLint>(filter));
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, static_cast<GLint>(filter));
  return name;
}

bool shown(const Show& show, const Model* model, const Drawable& d) {
  return d.part < 0 || model == nullptr ||
         part_shown(show, model->parts[static_cast<std::size_t>(d.part)]);
}

}  // namespace

struct Renderer::Inner {
  Shader surface{"scene"};
  Shader line{"line"};
  Shader sky{"sky"};
  ShadowMap shadow;
  std::shared_ptr<const Scene> scene;
  std::shared_ptr<const Model> model;
  std::vector<GpuMesh> meshes;
  std::vector<Drawable> veil_data;
  std::vector<GpuMesh> veils;
  std::vector<Stroke> strokes;
  std::optional<LayerPaint> layer;
  unsigned inside = make_texture(GL_CLAMP_TO_EDGE, GL_LINEAR);
  unsigned values = make_texture(GL_CLAMP_TO_EDGE, GL_NEAREST);
  unsigned scale = make_texture(GL_CLAMP_TO_EDGE, GL_LINEAR);
  unsigned stroke_array = 0;
  unsigned stroke_buffer = 0;
  unsigned no_array = 0;
  // What the shadow map holds, to draw it again only when that changes.
  geom::Vec3 shadow_sun;
  std::string shadow_key;

  Inner();
  ~Inner();
  void draw_shadow(const DrawSettings& s);
  void begin_surfaces(const FrameTarget& target, const DrawSettings& s);
  void bind_layer();
  void draw_one(const Drawable& d, const GpuMesh& mesh, const DrawSettings& s);
  void draw_surfaces(const FrameTarget& target, const DrawSettings& s);
  void draw_strokes(const FrameTarget& target, const DrawSettings& s);
  void draw_sky();
};

Renderer::Inner::Inner() {
  glGenVertexArrays(1, &stroke_array);
  glGenVertexArrays(1, &no_array);
  glGenBuffers(1, &stroke_buffer);
  glBindVertexArray(stroke_array);
  glBindBuffer(GL_ARRAY_BUFFER, stroke_buffer);
  glEnableVertexAttribArray(0);
  glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, sizeof(StrokeVertex), nullptr);
  glEnableVertexAttribArray(1);
  glVertexAttribPointer(1, 4, GL_FLOAT, GL_FALSE, sizeof(StrokeVertex),
                        reinterpret_cast<const void*>(offsetof(StrokeVertex, colour)));
  glBindVertexArray(0);
}

Renderer::Inner::~Inner() {
  const unsigned textures[] = {inside, values, scale};
  glDeleteTextures(3, textures);
  glDeleteVertexArrays(1, &stroke_array);
  glDeleteVertexArrays(1, &no_array);
  glDeleteBuffers(1, &stroke_buffer);
}

void Renderer::Inner::draw_shadow(const DrawSettings& s) {
  std::string key;
  for (const auto& [part, place] : s.moved)
    key.append(reinterpret_cast<const char*>(place.m.data()), sizeof place.m) +=
        std::to_string(part);
  key += std::to_string(s.show.fence * 1 + s.show.roof * 2 + s.show.leaves * 4 +
                        s.show.objects * 8 + s.show.surroundings * 16 + s.show.buried * 32);
  if (key == shadow_key && s.to_sun == shadow_sun) return;
  shadow_key = key;
  shadow_sun = s.to_sun;
  shadow.begin(s.to_sun, scene->box);
  for (std::size_t i = 0; i < meshes.size(); ++i) {
    const Drawable& d = scene->drawables[i];
    if (d.passes > 0.95 || !shown(s.show, model.get(), d)) continue;
    const auto moved = s.moved.find(d.part);
    shadow.shader().set("u_place", moved != s.moved.end() ? moved->second : Matrix4{});
    shadow.shader().set("u_passes", d.passes);
    meshes[i].draw(s.coarse);
  }
  shadow.end();
}

void Renderer::Inner::bind_layer() {
  surface.set("u_layer", 0);
  if (!layer) return;
  const auto& grid = layer->raster.grid;
  surface.set("u_value_grid",
              std::array<float, 4>{static_cast<float>(grid.x0), static_cast<float>(grid.y0),
                                   static_cast<float>(1.0 / grid.cell), 0.0F});
  surface.set("u_value_size", std::max(grid.nx, 1), std::max(grid.ny, 1));
  surface.set("u_range", layer->low, layer->high);
}

void Renderer::Inner::begin_surfaces(const FrameTarget& target, const DrawSettings& s) {
  const View view{target.width(), target.height()};
  surface.use();
  surface.set("u_view_projection", view_projection(s.camera, view));
  surface.set("u_sun", shadow.lookup());
  surface.set("u_cut",
              std::array<float, 4>{static_cast<float>(s.cut[0]), static_cast<float>(s.cut[1]),
                                   static_cast<float>(s.cut[2]), static_cast<float>(s.cut[3])});
  surface.set("u_to_sun", s.to_sun);
  surface.set("u_shadow_taps", !s.shadows ? 0 : s.coarse ? 1 : 4);
  surface.set("u_eye", eye(s.camera));
  surface.set("u_forward", forward(s.camera));
  surface.set("u_flat", s.camera.stance == Stance::flat ? 1 : 0);
  surface.set("u_outside", array_of(tone::ground_outside()));
  surface.set("u_grid", s.grid);
  surface.set("u_contour", s.contour);
  const unsigned textures[] = {shadow.texture(), inside, values, scale};
  const char* names[] = {"u_shadow", "u_inside", "u_values", "u_scale"};
  for (int i = 0; i < 4; ++i) {
    glActiveTexture(static_cast<GLenum>(GL_TEXTURE0 + i));
    glBindTexture(GL_TEXTURE_2D, textures[i]);
    surface.set(names[i], i);
  }
  glActiveTexture(GL_TEXTURE0);
  if (model) {
    const auto& grid = model->ground.grid;
    surface.set("u_ground",
                std::array<float, 4>{static_cast<float>(grid.x0), static_cast<float>(grid.y0),
                                     static_cast<float>(1.0 / (grid.x_max() - grid.x0)),
                                     static_cast<float>(1.0 / (grid.y_max() - grid.y0))});
  }
  bind_layer();
}

void Renderer::Inner::draw_one(const Drawable& d, const GpuMesh& mesh, const DrawSettings& s) {
  surface.set("u_colour", array_of(d.colour));
  surface.set("u_pattern", static_cast<int>(d.pattern));
  surface.set("u_mesh", d.aperture, d.wire);
  const bool cutting = s.cut[0] != 0.0 || s.cut[1] != 0.0 || s.cut[2] != 0.0;
  Colour section = tone::cut_through();
  section.a = cutting && d.closed ? 1.0F : 0.0F;
  surface.set("u_section", array_of(section));
  const auto tint = s.tint.find(d.part);
  surface.set("u_tint", tint != s.tint.end() && d.part >= 0 ? array_of(tint->second)
                                                            : std::array<float, 4>{});
  const auto moved = s.moved.find(d.part);
  surface.set("u_place", moved != s.moved.end() && d.part >= 0 ? moved->second : Matrix4{});
  int mode = 0;
  if (layer && !d.see_through && d.name != "earth") {
    const auto one = layer->parts.find(d.part);
    const bool object = d.part >= 0 && model &&
                        model->parts[static_cast<std::size_t>(d.part)].kind == PartKind::object;
    if (layer->slope)
      mode = d.pattern == Pattern::ground ? 1 : object ? 2 : 0;
    else if (d.pattern == Pattern::ground)
      mode = 1;
    else if (one != layer->parts.end()) {
      mode = 3;
      surface.set("u_one_value", one->second);
    }
  }
  surface.set("u_layer", mode);
  mesh.draw(s.coarse);
}

void Renderer::Inner::draw_surfaces(const FrameTarget& target, const DrawSettings& s) {
  begin_surfaces(target, s);
  const bool cutting = s.cut[0] != 0.0 || s.cut[1] != 0.0 || s.cut[2] != 0.0;
  if (cutting) glEnable(GL_CLIP_DISTANCE0);
  std::vector<std::pair<double, std::size_t>> later;
  for (std::size_t i = 0; i < meshes.size(); ++i) {
    const Drawable& d = scene->drawables[i];
    if (!shown(s.show, model.get(), d)) continue;
    if (d.see_through)
      later.emplace_back(-geom::dot(d.middle - eye(s.camera), forward(s.camera)), i);
    else
      draw_one(d, meshes[i], s);
  }
  std::sort(later.begin(), later.end());
  glEnable(GL_BLEND);
  glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
  glDepthMask(GL_FALSE);
  for (const auto& [unused, i] : later) draw_one(scene->drawables[i], meshes[i], s);
  for (std::size_t i = 0; i < veils.size(); ++i) draw_one(veil_data[i], veils[i], s);
  glDepthMask(GL_TRUE);
  glDisable(GL_BLEND);
  if (cutting) glDisable(GL_CLIP_DISTANCE0);
}

void Renderer::Inner::draw_strokes(const FrameTarget& target, const DrawSettings& s) {
  if (strokes.empty()) return;
  const View view{target.width(), target.height()};
  const auto triangles = stroke_triangles(strokes, s.camera, view);
  glBindVertexArray(stroke_array);
  glBindBuffer(GL_ARRAY_BUFFER, stroke_buffer);
  glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(triangles.size() * sizeof(StrokeVertex)),
               triangles.data(), GL_STREAM_DRAW);
  line.use();
  line.set("u_view_projection", view_projection(s.camera, view));
  line.set("u_nearer", 0.0004);
  glEnable(GL_BLEND);
  glDepthMask(GL_FALSE);
  // Once through everything, faint; once where it is in sight, whole.
  for (const bool hidden : {true, false}) {
    hidden ? glDisable(GL_DEPTH_TEST) : glEnable(GL_DEPTH_TEST);
    line.set("u_strength", hidden ? 0.35 : 1.0);
    glDrawArrays(GL_TRIANGLES, 0, static_cast<GLsizei>(triangles.size()));
  }
  glEnable(GL_DEPTH_TEST);
  glDepthMask(GL_TRUE);
  glDisable(GL_BLEND);
  glBindVertexArray(0);
}

void Renderer::Inner::draw_sky() {
  sky.use();
  sky.set("u_low", array_of(tone::sky_low()));
  sky.set("u_high", array_of(tone::sky_high()));
  glDisable(GL_DEPTH_TEST);
  glBindVertexArray(no_array);
  glDrawArrays(GL_TRIANGLES, 0, 3);
  glBindVertexArray(0);
  glEnable(GL_DEPTH_TEST);
}

Renderer::Renderer() : inner_(std::make_unique<Inner>()) {}
Renderer::~Renderer() = default;

void Renderer::set_scene(std::shared_ptr<const Scene> scene, std::shared_ptr<const Model> model) {
  inner_->meshes.clear();
  inner_->meshes.reserve(scene->drawables.size());
  for (const Drawable& d : scene->drawables) inner_->meshes.emplace_back(d);
  inner_->scene = std::move(scene);
  inner_->model = std::move(model);
  inner_->shadow_key.assign(1, '?');
  glBindTexture(GL_TEXTURE_2D, inner_->inside);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, inner_->scene->inside_width, inner_->scene->inside_height,
               0, GL_RED, GL_UNSIGNED_BYTE, inner_->scene->inside.data());
}

void Renderer::set_corner_shade(const Scene& scene) {
  const auto& own = inner_->scene->drawables;
  for (std::size_t i = 0; i < own.size() && i < scene.drawables.size(); ++i) {
    const Drawable& other = scene.drawables[i];
    if (!other.open.empty() && other.name == own[i].name &&
        other.vertices.size() == own[i].vertices.size())
      inner_->meshes[i].set_open(other.open);
  }
}

void Renderer::set_layer(std::optional<LayerPaint> layer) {
  inner_->layer = std::move(layer);
  if (!inner_->layer) return;
  const auto& raster = inner_->layer->raster;
  const auto table = scale_table(inner_->layer->scale);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  glBindTexture(GL_TEXTURE_2D, inner_->scale);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, 256, 1, 0, GL_RGBA, GL_UNSIGNED_BYTE, table.data());
  if (raster.values.empty()) return;
  glBindTexture(GL_TEXTURE_2D, inner_->values);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_R32F, raster.grid.nx, raster.grid.ny, 0, GL_RED, GL_FLOAT,
               raster.values.data());
}

void Renderer::set_strokes(std::vector<Stroke> strokes) {
  inner_->strokes = std::move(strokes);
}

void Renderer::set_veils(const std::vector<Drawable>& veils) {
  inner_->veils.clear();
  inner_->veils.reserve(veils.size());
  for (const Drawable& d : veils) inner_->veils.emplace_back(d);
  inner_->veil_data = veils;
}

void Renderer::draw(FrameTarget& target, const DrawSettings& s) {
  const bool sun_up = s.to_sun.z > 0.0 && inner_->scene != nullptr;
  DrawSettings used = s;
  used.shadows = s.shadows && sun_up;
  if (used.shadows) inner_->draw_shadow(used);
  target.bind();
  glDisable(GL_SCISSOR_TEST);
  glDisable(GL_CULL_FACE);
  glEnable(GL_DEPTH_TEST);
  glDepthMask(GL_TRUE);
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
  inner_->draw_sky();
  if (inner_->scene) {
    inner_->draw_surfaces(target, used);
    inner_->draw_strokes(target, used);
  }
  target.resolve();
}

}  // namespace hummock::viewer
