// What is drawn: the model's ground and parts as triangles with a material each.
//
// Made once for each model, off the drawing thread; plain data, no OpenGL. Normals are split where
// faces meet at more than 40°, so boxes keep their edges and boulders stay round. Anything above
// `kPlenty` triangles also gets a coarser copy to draw while the view moves.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "engine/base/progress.h"
#include "engine/model/model.h"
#include "viewer/scene/colour.h"

namespace hummock::viewer {

enum class Pattern { plain, mesh, glass, leaves, water, ground };

struct Vertex {
  std::array<float, 3> position;
  std::array<float, 3> normal;
};

struct Drawable {
  std::string name;
  std::int32_t part = -1;  // index into Model::parts; -1: the ground or its block
  Pattern pattern = Pattern::plain;
  Colour colour;
  bool see_through = false;  // drawn last, far to near
  bool closed = false;       // its inside shows as cut when a plane cuts it
  double passes = 0.0;       // share of light let through, for the shadow
  double aperture = 0.0;     // m, wire mesh
  double wire = 0.0;
  std::vector<Vertex> vertices;
  std::vector<std::uint32_t> indices;
  std::vector<std::uint32_t> coarse;  // indices to draw while moving; empty = the same
  std::vector<std::uint8_t> open;  // share of sky not hidden close by, one a vertex; may be empty
  geom::Vec3 middle;
};

struct Scene {
  std::vector<Drawable> drawables;  // [0] is the ground, [1] its block
  geom::Box3 box;                   // everything
  geom::Box3 yard;                  // the boundary and what is in it
  // Share inside the boundary over the ground's extent, for its two tones.
  int inside_width = 0;
  int inside_height = 0;
  std::vector<std::uint8_t> inside;
  std::size_t triangles = 0;
};

inline constexpr std::size_t kPlenty = 60'000;

// A model and how it was drawn.
struct Drawn {
  const Model& model;
  const Scene& scene;
};

// What is as it was `before` is taken from there: the same scene, sooner.
Scene build_scene(const Model& model, const Drawn* before = nullptr);

// Fills `open` of every drawable by rays over the hemisphere, `rays` a vertex, `reach` metres long,
// against what stops a body. For the eye only; no figure comes from it. Deterministic.
void shade_corners(Scene& scene, const Model& model, int rays, double reach,
                   const Progress& progress);

// For drawing a mesh of our own with the same normals (tests, previews).
void add_triangles(Drawable& drawable, const geom::Mesh& mesh);

}  // namespace hummock::viewer
