#include "engine/stations/comes_to.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/stations/own_tops.h"
#include "engine/usable/living_nodes.h"
#include "engine/usable/usable_ground.h"
#include "geometry/plan/node_range.h"

namespace hummock::stations {

struct ComesTo::Inner {
  const Model& model;
  usable::UsableGround ground;
  usable::Nodes nodes;
  std::optional<std::vector<double>> tops;  // asked for only where the ground does not do

  explicit Inner(const Model& m) : model(m), ground(m), nodes(usable::find_nodes(m, ground)) {}

  // Standing with its feet at `foot` it reaches the point.
  bool reaches(Vec3 foot, Vec3 at, double reach) const {
    const double tall = ground.body().height;
    const double off = geom::distance(geom::xy(foot), geom::xy(at));
    const double up = std::max({0.0, at.z - (foot.z + tall), foot.z - at.z});
    if (std::hypot(off, up) > reach) return false;
    constexpr double kOffTheGround = 0.02;  // m: the point itself lies on what it stands on
    const Vec3 back = geom::at_height(geom::xy(foot), foot.z + tall);
    return free(back, geom::at_height(geom::xy(at), at.z + kOffTheGround));
  }

  // Straight, or up as high as the point and then across, as over the rim of what it stands on.
  bool free(Vec3 back, Vec3 point) const {
    if (!model.body_scene) return true;
    const geom::RayScene& scene = *model.body_scene;
    if (scene.segment_free(back, point)) return true;
    const Vec3 above = geom::at_height(geom::xy(back), point.z);
    return above.z > back.z && scene.segment_free(back, above) && scene.segment_free(above, point);
  }

  // From some node within reach on plan; `height`: of its feet there, NaN where it is not.
  template <class Height>
  bool from_nodes(Vec3 at, double reach, const Height& height) const {
    const geom::Grid& g = nodes.grid;
    const Vec2 about{reach + g.cell, reach + g.cell};
    const geom::NodeRange range = geom::nodes_about(g, geom::xy(at) - about, geom::xy(at) + about);
    for (int j = range.j0; j <= range.j1; ++j)
      for (int i = range.i0; i <= range.i1; ++i) {
        const double z = height(i, j);
        if (!std::isnan(z) && reaches(geom::at_height(g.node(i, j), z), at, reach)) return true;
      }
    return false;
  }

  bool from_ground(Vec3 at, double reach) const {
    return from_nodes(at, reach, [&](int i, int j) {
      const geom::Grid& g = nodes.grid;
      return nodes.live[g.index(i, j)] != 0 ? geom::height_at(model.ground, g.node(i, j))
                                            : std::nan("");
    });
  }

  bool from_tops(Vec3 at, double reach) {
    if (!tops) tops = own_tops(model, ground, nodes);
    return from_nodes(at, reach, [&](int i, int j) { return (*tops)[nodes.grid.index(i, j)]; });
  }

  // On the floor straight below it, nothing: in no house.
  std::optional<bool> indoors(Vec3 at, double reach) const {
    const double floor = geom::height_at(model.ground, geom::xy(at));
    for (std::size_t h = 0; h < model.site.houses.size(); ++h)
      if (geom::contains(model.site.houses[h].outline, geom::xy(at)))
        return nodes.houses[h] != 0 && at.z - floor <= ground.body().height + reach;
    return std::nullopt;
  }
};

ComesTo::ComesTo(const Model& model) : inner_(std::make_unique<Inner>(model)) {}
ComesTo::~ComesTo() = default;

bool ComesTo::operator()(Vec3 at, double reach) const {
  if (const auto in = inner_->indoors(at, reach)) return *in;
  // From a node on the fence's line nothing stands between.
  if (!geom::contains(inner_->model.outline, geom::xy(at))) return false;
  // Nodes are a cell apart: the nearest is no farther than this.
  const double least = 0.75 * inner_->nodes.grid.cell;
  const double within = std::max(reach, least);
  return inner_->from_ground(at, within) || inner_->from_tops(at, within);
}

}  // namespace hummock::stations
