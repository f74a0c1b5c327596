// The site as built: one ground, every structure as a tagged mesh, and the lines the checks need.
//
// Coordinates. Local: `origin` has been taken off (it is zero unless the site's coordinates are
// large), so that float32 rays stay exact; `to_site` gives the file's own. z is not shifted.
// The outline is counter-clockwise here; `edge` numbers are still the file's.
//
// Sheets (panels, overhangs, skirts, roofs, glass) are single surfaces on the line drawn, without
// thickness. Boulders, logs, boxes, posts and platforms are closed solids. A gate is a hole in its
// panel, closed by a leaf of its own that leaves the under- and side gaps.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "engine/base/progress.h"
#include "engine/site/site.h"
#include "engine/site/unseen.h"
#include "geometry/mesh/mesh.h"
#include "geometry/mesh/round_volume.h"
#include "geometry/rays/ray_scene.h"
#include "geometry/terrain/heightfield.h"

namespace hummock {

enum class PartKind {
  panel,
  post,
  overhang,
  skirt,
  apron,
  footing,
  gate,
  vestibule,
  drain_grille,
  roof,
  object,
  crown,
  planting,
  den,
  water,
  house,
  surrounding,
  ground
};

// What a foot, a claw or a hand meets.
enum class Surface { mesh, smooth, rock, wood, bark, earth, leaf, water };

// Twigs left when the leaves are down, as a share of the leafy area density.
// Ratio of ln T bare to ln T leafy, median of five species in Gardner & Sydnor (abstract read; J.
// Am. Soc. Hort. Sci., 1984 from memory): e.g. Acer rubrum 69 % → 25 % shade gives
// ln(0.75)/ln(0.31) = 0.246.
inline constexpr double kBareShare = 0.29;

struct Part {
  std::string name;  // the site file's name ("south run", "split boulder")
  PartKind kind = PartKind::panel;
  int source = -1;  // index into the site's list of that kind (sections, gates, objects …)
  Surface surface = Surface::smooth;
  geom::Mesh mesh;
  bool closed = false;      // a closed solid, outward normals
  bool blocks_body = true;  // false: crowns, plantings, water
  bool climbable = false;   // scrambled up at any slope whatever the species climbs
  // Light and sight. Sheets: openness 0 = opaque … 1 = clear, `aperture`/`wire` for a mesh's
  // slant openness. Volumes (closed): leaf_density > 0 stops light by Beer–Lambert along the
  // path.
  double openness = 0.0;
  double sight = 0.0;              // share of sight passed (glass 1, mesh its openness)
  double aperture = 0.0;           // m
  double wire = 0.0;               // m
  double leaf_density = 0.0;       // m²/m³
  int band = -1;                   // of a panel: one of bands_of(section); -1 = its own face
  double bare_share = kBareShare;  // of leaf_density, between the days of `bare`
  std::optional<Season> bare;      // bare between these days: leaf_density × kBareShare
  // A crown as drawn; its mesh has corners on this and is inscribed in it.
  std::optional<geom::RoundVolume> round;
};

// One fence panel between two posts; a→b runs counter-clockwise round the outline (inside left).
// Over a gate: the piece between the gate's head and the fence top (`gate` >= 0); its foot is the
// leaf's top, not near the ground, and its top is never below the leaf's top, so that the panels'
// tops together are the whole top of the barrier. It has no triangles where the leaf is as tall.
struct Panel {
  int section = 0;  // index into site.boundary.sections
  int edge = 0;     // the file's edge number
  Vec2 a, b;
  double ground_a = 0.0, ground_b = 0.0;  // m, at the posts
  double foot_a = 0.0, foot_b = 0.0;      // m, lower rail (raked: on the ground)
  double top_a = 0.0, top_b = 0.0;        // m, upper rail
  int part = -1;                          // index into Model::parts
  int gate = -1;                          // index into Model::gateways: the piece over that gate
};

// An overhang panel: base on the fence top, tip inside. Corners are mitred. A curved one runs from
// base to tip over the points of its two sides, straight between them.
struct OverhangPanel {
  int section = 0;
  int panel = 0;  // index into Model::panels
  Vec3 base_a, base_b, tip_a, tip_b;
  std::vector<Vec3> side_a, side_b;  // from base to tip, as many points in either
  int part = -1;
};

// A hole through the barrier and what fills it.
struct Gateway {
  int gate = 0;  // index into site.boundary.gates
  int section = 0;
  Vec2 a, b;  // counter-clockwise
  double ground_a = 0.0, ground_b = 0.0;
  double leaf_foot = 0.0, leaf_top = 0.0;  // m; the leaf is level
  int leaf_part = -1;
  int vestibule_part = -1;
  int second_leaf_part = -1;  // the vestibule's outer gate
};

namespace usable {
struct KeptAnswers;
}

// What was worked out of a model and is kept (engine/usable/kept_answers.h). A copy of a model may
// be changed, so it starts without, unless it is handed on.
class Kept {
 public:
  Kept() = default;
  explicit Kept(std::shared_ptr<usable::KeptAnswers> answers) : answers_(std::move(answers)) {}
  Kept(const Kept& /*other*/) {}
  Kept(Kept&&) noexcept = default;
  Kept& operator=(const Kept& other) {
    if (this != &other) answers_.reset();
    return *this;
  }
  Kept& operator=(Kept&&) noexcept = default;
  ~Kept() = default;
  // To one that is the same yard: only its animal may be another, or its waters emptied.
  void hand_on(Kept& to) const { to.answers_ = answers_; }
  explicit operator bool() const { return answers_ != nullptr; }
  usable::KeptAnswers* operator->() const { return answers_.get(); }

 private:
  std::shared_ptr<usable::KeptAnswers> answers_;
};

struct Model {
  Site site;                   // in local coordinates; every water's `level` is filled in
  Vec2 origin;                 // site = local + origin
  geom::Heightfield ground;    // with forms and dug basins
  geom::Heightfield surveyed;  // before forms and basins: what earthworks compare with
  // The ground beyond the modelled one, coarser, as far as the site's raster goes and sun needs it
  // (engine/ground/beyond.h); nothing where it goes no farther.
  std::shared_ptr<const geom::Heightfield> beyond;
  geom::Polygon outline;      // counter-clockwise
  std::vector<int> edge_of;   // model edge k (outline[k]→outline[k+1]) is this edge of the file
  std::vector<Panel> panels;  // in order round the outline
  std::vector<OverhangPanel> overhangs;
  std::vector<Gateway> gateways;
  std::vector<Part> parts;
  std::vector<int> object_part;  // part of each site object (its solid), same order
  std::vector<std::string>
      notes;                    // e.g. "mesh 'ruin' is not closed: used for rays, not for volume"
  std::vector<Unseen> unseen;   // what of the files its ground lacks (engine/site/unseen.h)
  std::vector<InputFile> read;  // every file the model was made from, as it was read
  // Everything that stops a body: ground (id kGroundId) and parts with blocks_body (id = part
  // index).
  std::shared_ptr<const geom::RayScene> body_scene;
  double snow = 0.0;  // m of snow (or drifted sand) that lies on `ground`: no soil, no survey
  Kept kept;          // nothing, unless who built it has it keep its answers

  Vec2 to_site(Vec2 p) const { return p + origin; }
  Vec3 to_site(Vec3 p) const { return {p.x + origin.x, p.y + origin.y, p.z}; }
};
inline constexpr std::int32_t kGroundId = 1 << 28;

struct BuildOptions {
  double snow = 0.0;    // m of snow or drifted sand laid on the ground (not on objects), >= 0
  double growth = 0.0;  // share added to every tree's height, crown and planting, >= 0
  double scour = 0.0;   // m of ground lost within 1 m of the fence, >= 0
};

// Builds everything. Throws InputError for what only shows once ground and files are read (no-data
// inside the boundary, raster without overlap, broken mesh file, object outside the ground).
Model build_model(const Site& site, const BuildOptions& options = {},
                  const Progress& progress = {});

const char* to_string(PartKind kind);
const char* to_string(Surface surface);

}  // namespace hummock
