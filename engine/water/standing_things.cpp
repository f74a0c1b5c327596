#include "engine/water/standing_things.h"

#include <algorithm>
#include <array>

#include "geometry/plan/node_range.h"
#include "geometry/rays/within_faces.h"

namespace hummock::water {
namespace {

constexpr double kAbove = 0.02;  // m over the ground; numeric, a setting

// Round trunks and posts, and between boulders, rain finds its way.
bool dams(ObjectKind kind) {
  return kind == ObjectKind::box || kind == ObjectKind::log || kind == ObjectKind::mesh;
}

bool holds_water_up(const Model& model, const Part& part) {
  const auto source = static_cast<std::size_t>(part.source);
  const auto& objects = model.site.objects;
  const bool thing = part.kind == PartKind::object && part.source >= 0 && source < objects.size() &&
                     dams(objects[source].kind);
  return (thing || part.kind == PartKind::house) && part.closed && part.blocks_body &&
         part.surface != Surface::mesh && !part.mesh.empty();
}

class Finder {
 public:
  explicit Finder(const Model& model)
      : model_(model), grid_(model.ground.grid), near_(grid_.size(), 0), top_(model.parts.size()) {
    for (std::size_t k = 0; k < model.parts.size(); ++k)
      if (holds_water_up(model, model.parts[k])) mark(k);
  }

  StandingThings run() const {
    constexpr std::array<std::array<int, 2>, 3> kEdges{{{1, 0}, {0, 1}, {-1, 1}}};
    StandingThings out;
    for (int j = 0; j < grid_.ny; ++j)
      for (int i = 0; i < grid_.nx; ++i) {
        const std::size_t a = grid_.index(i, j);
        if (near_[a] != 0 && in_one(over(i, j))) out.inside.push_back(a);
        for (const auto& [di, dj] : kEdges) {
          if (!grid_.holds(i + di, j + dj)) continue;
          const std::size_t b = grid_.index(i + di, j + dj);
          if (near_[a] == 0 && near_[b] == 0) continue;
          const double level = top_between(over(i, j), over(i + di, j + dj));
          if (level > std::max(model_.ground.z[a], model_.ground.z[b]))
            out.walls.push_back({a, b, level});
        }
      }
    return out;
  }

 private:
  // A cell about its box too: an edge that passes it has an end there.
  void mark(std::size_t part) {
    const geom::Box3 box = geom::bounds(model_.parts[part].mesh);
    top_[part] = box.hi.z;
    const Vec2 cell{grid_.cell, grid_.cell};
    geom::each_node(grid_, geom::nodes_about(grid_, xy(box.lo), xy(box.hi) + cell),
                    [&](std::size_t n) { near_[n] = 1; });
  }

  // A little off the node, so that no face of a thing drawn on the grid's lines runs through it.
  Vec3 over(int i, int j) const {
    const Vec2 off = Vec2{0.0131, 0.0171} * grid_.cell;
    return at_height(grid_.node(i, j) + off, model_.ground.at(i, j) + kAbove);
  }

  bool counted(const geom::Hit& hit) const {
    return hit.id >= 0 && hit.id < static_cast<std::int32_t>(model_.parts.size()) &&
           holds_water_up(model_, model_.parts[static_cast<std::size_t>(hit.id)]);
  }

  bool in_one(Vec3 p) const {
    return geom::within_faces(*model_.body_scene, p,
                              [&](const geom::Hit& hit) { return counted(hit); });
  }

  double top_between(Vec3 p, Vec3 q) const {
    double top = -1e300;
    for (const geom::Hit& hit : model_.body_scene->all_hits({p, q - p, 0.0, 1.0}))
      if (counted(hit)) top = std::max(top, top_[static_cast<std::size_t>(hit.id)]);
    return top;
  }

  const Model& model_;
  const geom::Grid& grid_;
  std::vector<std::uint8_t> near_;
  std::vector<double> top_;  // of each part that counts
};

}  // namespace

StandingThings standing_things(const Model& model) {
  if (!model.body_scene) return {};
  return Finder(model).run();
}

}  // namespace hummock::water
