#include "engine/usable/clear_between.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "geometry/plan/node_range.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::usable {
namespace {

constexpr double kUpToIt[] = {0.25, 0.5, 0.75, 0.95};  // of the height; numeric, a setting

bool stands(const Part& part) {
  return part.blocks_body && part.kind != PartKind::ground && !part.mesh.empty();
}

geom::Box3 box_of(const geom::Mesh& mesh, const geom::Triangle& t) {
  geom::Box3 box;
  for (const std::uint32_t v : t) box.add(mesh.vertices[v]);
  return box;
}

// Metres by which rays, which are float32, may be off a face in this box, twice over.
double off_a_face(const geom::Box3& box) {
  const auto far = [](Vec3 p) { return std::max({std::abs(p.x), std::abs(p.y), std::abs(p.z)}); };
  return 4e-3 + 2e-6 * std::max(far(box.lo), far(box.hi));
}

std::size_t size_of(const geom::NodeRange& r) {
  return static_cast<std::size_t>(r.i1 - r.i0 + 1) * static_cast<std::size_t>(r.j1 - r.j0 + 1);
}

// Nodes looked at, of those there are: beyond that marking costs more than it spares.
constexpr std::size_t kMostTimes = 32;

struct Heights {
  double least = 1e300, most = -1e300;  // m
};

// Marks nodes whose neighbours may have a face between them and themselves.
class NearThings {
 public:
  NearThings(const Model& model, double height)
      : ground_(model.ground), height_(height), out_(ground_.grid.size(), 0) {}

  // A line between neighbours that meets the face does so within its box, widened by what rays may
  // be off; one of the neighbours is then among the nodes about it, and the line as high over them.
  // False where the face is off by more than the lowest line is up, or there is too much to do.
  bool add(const geom::Mesh& mesh, const geom::Triangle& t) {
    const geom::Box3 box = box_of(mesh, t);
    const double off = off_a_face(box);
    if (off > 0.5 * kUpToIt[0] * height_) return false;
    const double cell = ground_.grid.cell;
    const geom::NodeRange about = geom::nodes_about(ground_.grid, xy(box.lo) - Vec2{off, off},
                                                    xy(box.hi) + Vec2{cell + off, cell + off});
    const Heights ground = heights(about);
    work_ += size_of(about);
    const double low = ground.least + kUpToIt[0] * height_, high = ground.most + height_;
    if (box.lo.z - off <= high && box.hi.z + off >= low)
      geom::each_node(ground_.grid, about, [&](std::size_t n) { out_[n] = 1; });
    return work_ <= kMostTimes * out_.size();
  }
  std::vector<std::uint8_t> take() { return std::move(out_); }

 private:
  Heights heights(const geom::NodeRange& about) const {
    Heights out;
    geom::each_node(ground_.grid, about, [&](std::size_t n) {
      out.least = std::min(out.least, ground_.z[n]);
      out.most = std::max(out.most, ground_.z[n]);
    });
    return out;
  }

  const geom::Heightfield& ground_;
  double height_;
  std::vector<std::uint8_t> out_;
  std::size_t work_ = 0;
};

}  // namespace

bool clear_between(const Model& model, Vec2 p, Vec2 q, double height) {
  if (!model.body_scene) return true;
  const Vec3 a = at_height(p, geom::height_at(model.ground, p));
  const Vec3 b = at_height(q, geom::height_at(model.ground, q));
  return std::all_of(std::begin(kUpToIt), std::end(kUpToIt), [&](double share) {
    const Vec3 up{0.0, 0.0, share * height};
    return !model.body_scene->occluded({a + up, b - a, 0.0, 1.0});
  });
}

std::vector<std::uint8_t> beside_things(const Model& model, const geom::Grid& grid) {
  std::vector<std::uint8_t> out(grid.size(), 0);
  for (const Part& part : model.parts) {
    if (!stands(part)) continue;
    const geom::Box3 box = geom::bounds(part.mesh);
    const Vec2 cell{grid.cell, grid.cell};
    geom::each_node(grid, geom::nodes_about(grid, xy(box.lo), xy(box.hi) + cell),
                    [&](std::size_t n) { out[n] = 1; });
  }
  return out;
}

// The ground itself is straight between neighbours, and every line a share of the height over it.
std::vector<std::uint8_t> near_things(const Model& model, const geom::Grid& grid, double height) {
  if (!(grid == model.ground.grid)) return {};
  NearThings near(model, height);
  for (const Part& part : model.parts) {
    if (!stands(part)) continue;
    for (const geom::Triangle& t : part.mesh.triangles)
      if (!near.add(part.mesh, t)) return {};
  }
  return near.take();
}

// Along a line the ground is straight but for one bend where it crosses the cell's diagonal, and
// nowhere over its own chord by more than the whole bend. Half the lowest ray is left for rounding.
bool flat_enough(const geom::Heightfield& ground, int i, int j, double height) {
  const double bend =
      ground.at(i, j) + ground.at(i + 1, j + 1) - ground.at(i + 1, j) - ground.at(i, j + 1);
  const geom::Grid& g = ground.grid;
  const Vec3 far{std::max(std::abs(g.x0), std::abs(g.x_max())),
                 std::max(std::abs(g.y0), std::abs(g.y_max())), std::abs(ground.at(i, j))};
  const double lowest = kUpToIt[0] * height;
  return std::abs(bend) <= 0.5 * lowest && off_a_face({far, far}) <= 0.5 * lowest;
}

bool OpenSky::over(geom::Vec2 p) const {
  const double u = (p.x - grid.x0) / grid.cell, v = (p.y - grid.y0) / grid.cell;
  if (!(u >= 0.0 && v >= 0.0 && u < grid.nx - 1 && v < grid.ny - 1)) return false;
  return covered[grid.index(static_cast<int>(u), static_cast<int>(v))] == 0;
}

OpenSky open_sky(const Model& model) {
  const geom::Grid& g = model.ground.grid;
  OpenSky out{model.body_scene, g, std::vector<std::uint8_t>(g.size(), 0)};
  std::size_t work = 0;
  for (const Part& part : model.parts) {
    if (!part.blocks_body) continue;
    for (const geom::Triangle& t : part.mesh.triangles) {
      const geom::Box3 box = box_of(part.mesh, t);
      const double off = off_a_face(box);
      const geom::NodeRange cells =
          geom::nodes_about(g, xy(box.lo) - Vec2{off, off}, xy(box.hi) + Vec2{off, off});
      work += size_of(cells);
      if (work > kMostTimes * g.size()) {
        std::fill(out.covered.begin(), out.covered.end(), std::uint8_t{1});
        return out;
      }
      geom::each_node(g, cells, [&](std::size_t n) { out.covered[n] = 1; });
    }
  }
  return out;
}

}  // namespace hummock::usable
