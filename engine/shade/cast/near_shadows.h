// The shadows of all that stands near some tiles, at one sun, laid out once for all of them.
//
// Per piece (engine/shade/cast/piece.h) its corners are taken into shadow coordinates and its sides
// and planes set up; a tile then only asks which of them cross it. Crowns with a round body are
// looked through in closed form (engine/shade/beam/round_shade.h), their depths added up first.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "engine/shade/beam/round_shade.h"
#include "engine/shade/cast/eight_faces.h"
#include "engine/shade/cast/leaf_triangles.h"
#include "engine/shade/cast/piece.h"
#include "engine/shade/cast/scan_shape.h"
#include "engine/shade/cast/shadow_boxes.h"
#include "engine/shade/cast/tile_beam.h"

namespace hummock::shade {

// A face shades no node that lies within this of its plane: a node on a fence's own line is lit
// from both sides, and no rounding tosses it.
inline constexpr double kOwn = 2e-5;  // m; numeric

class NearShadows {
 public:
  // `box` holds every node to be asked for; `near`: all casters that could shade it, in order;
  // those with heavy[k] are only noted. `casters` and `pieces` (one each) must outlive it.
  void lay_out(const std::vector<Caster>& casters, const std::vector<Pieces>& pieces,
               const std::vector<bool>& heavy, const geom::Box3& box, const SunRay& sun,
               const sun::Date& date, std::span<const int> near);
  // Takes from the beam over a tile what the casters take. False: all of it is dark.
  bool darken(const Tile& tile, TileBeam& beam) const;

  const SunRay& sun() const { return sun_; }
  const std::vector<int>& heavy() const { return heavy_; }

 private:
  struct Shape {
    ShadowBox box;
    float z_low = 0;
    std::size_t side = 0, sides = 0;    // first eight of sides_; how many
    std::size_t plane = 0, planes = 0;  // first of planes_; how many
    float factor = 0;
    std::size_t foot = kNone;  // of feet_
    float way = 0, way_x = 0, way_y = 0;
    std::size_t eight = kNone;  // of eights_, which say all but the box
  };
  struct Crown {
    RoundShade shade;
    float extinction;
  };
  struct Leaves {
    std::uint32_t last;  // past its eights
    float extinction;
  };
  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);
  class Over;  // what they do to one tile

  void add(const Caster& c, const Piece& piece);
  void add_crown(const Caster& c, float per_metre);
  void add_leaves(const Piece& piece);
  void close_leaves(float per_metre);  // of a caster
  static void set_boxes(const std::vector<Shape>& of, ShadowBoxes& boxes);
  void place_points(const Piece& piece);
  Shape begin_shape() const;
  // Of a caster's faces: the next, and what waits is whole.
  void add_to_eight(const Piece& piece, const PieceFace& face);
  void close_eight(const Caster& c);
  void set_factors(const Caster& c, std::uint32_t met, EightFaces& faces) const;
  void add_face(const Caster& c, const Piece& piece, const PieceFace& face);
  void add_solid(const Piece& piece);
  void add_curtain(const Caster& c, const Piece& piece);
  void add_side(Shape& shape, const ShadowSide& side);
  void add_plane(Vec3 through, Vec3 normal);
  void widen(Shape& shape, ShadowPoint p) const;
  void keep(std::vector<Shape>& to, Shape shape);

  SunRay sun_;
  Vec3 ref_;
  Vec2 across_;                      // level, square to the sun's way; none at the zenith
  ShadedBox shaded_;                 // all nodes to be asked for
  std::vector<int> near_;            // of a caster's pieces
  std::vector<ShadowPoint> points_;  // of the piece at hand
  FaceCorners waiting_{};            // faces that are to stand in eights_
  std::vector<EightFaces> eights_;
  std::vector<Shape> opaque_, sheets_;
  ShadowBoxes opaque_boxes_, sheet_boxes_, crown_boxes_;  // as opaque_, sheets_, crowns_
  std::vector<EightSides> sides_;                         // each shape's begin with an eight
  std::vector<ShadowPlane> planes_;
  std::vector<std::vector<std::array<float, 2>>> feet_;
  std::vector<Crown> crowns_;
  std::vector<Leaves> leaves_;  // one a caster
  LeafTriangles leaf_triangles_;
  std::vector<int> heavy_;
};

}  // namespace hummock::shade
