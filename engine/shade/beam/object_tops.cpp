#include "engine/shade/beam/object_tops.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace hummock::shade {
namespace {

constexpr double kTopFacing = 0.70710678;  // cosine of 45°
constexpr double kPieces = 200.0;          // of a top that are asked, about

struct Sample {
  Vec3 at, normal;
  double area;
};

struct Face {
  Vec3 a, b, c, normal;
  double area;
};

std::vector<Face> faces_up(const geom::Mesh& mesh) {
  std::vector<Face> faces;
  for (const geom::Triangle& t : mesh.triangles) {
    const Vec3 a = mesh.vertices[t[0]], b = mesh.vertices[t[1]], c = mesh.vertices[t[2]];
    const Vec3 n = cross(b - a, c - a);
    const double twice = length(n);
    if (twice <= 0.0 || n.z < kTopFacing * twice) continue;
    faces.push_back({a, b, c, n * (1.0 / twice), 0.5 * twice});
  }
  return faces;
}

// Middles of the n² like triangles a face is cut into.
void cut(const Face& f, int n, std::vector<Sample>& samples) {
  const auto at = [&](double u, double v) { return f.a + (f.b - f.a) * u + (f.c - f.a) * v; };
  const double third = 1.0 / 3.0, area = f.area / (n * n);
  for (int i = 0; i < n; ++i)
    for (int j = 0; i + j < n; ++j) {
      samples.push_back({at((i + third) / n, (j + third) / n), f.normal, area});
      if (i + j + 1 < n)
        samples.push_back({at((i + 2 * third) / n, (j + 2 * third) / n), f.normal, area});
    }
}

// Pieces of like area, about kPieces in all: large triangles are cut, of small ones each that
// completes a piece's area stands for those before it.
std::vector<Sample> top_of(const geom::Mesh& mesh) {
  const std::vector<Face> faces = faces_up(mesh);
  double all = 0.0;
  for (const Face& f : faces) all += f.area;
  const double piece = all / kPieces;
  std::vector<Sample> samples;
  double waiting = 0.0;
  for (const Face& f : faces) {
    if (f.area >= piece) {
      cut(f, static_cast<int>(std::ceil(std::sqrt(f.area / piece))), samples);
      continue;
    }
    waiting += f.area;
    if (waiting < piece && &f != &faces.back()) continue;
    samples.push_back({(f.a + f.b + f.c) * (1.0 / 3.0), f.normal, waiting});
    waiting = 0.0;
  }
  return samples;
}

Vec3 highest(const geom::Mesh& mesh) {
  return *std::max_element(mesh.vertices.begin(), mesh.vertices.end(),
                           [](Vec3 a, Vec3 b) { return a.z < b.z; });
}

// Pieces as nodes of a tile, which needs no ground of its own.
Tile tile_of(const std::vector<Sample>& top, std::size_t first) {
  Tile tile;
  const auto at = [&](std::size_t k) { return top[k].at + top[k].normal * kLift; };
  tile.ref = at(first);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    const std::size_t n = std::min(first + k, top.size() - 1);
    const Vec3 p = at(n) - tile.ref;
    tile.x[k] = static_cast<float>(p.x);
    tile.y[k] = static_cast<float>(p.y);
    tile.z[k] = static_cast<float>(p.z);
    tile.inside[k] = first + k < top.size() ? 1 : 0;
    if (tile.inside[k] == 0) continue;
    tile.box.add(at(n));
    ++tile.count;
  }
  return tile;
}

// Sun on one top over the day.
class Top {
 public:
  Top(const FastBeam& fast, std::vector<Sample> top) : fast_(fast), top_(std::move(top)) {
    for (const Sample& s : top_) area_ += s.area;
    for (std::size_t k = 0; k < top_.size(); k += kTileNodes) tiles_.push_back(tile_of(top_, k));
  }

  double lit_share(const SunRay& sun, const sun::Date& date) {
    double sum = 0.0;
    for (std::size_t t = 0; t < tiles_.size(); ++t) {
      const Tile& tile = tiles_[t];
      fast_.tile(tile, sun, date, fast_.near(tile.box, {&sun, 1}), {}, beam_);
      for (std::size_t k = 0; k < kTileNodes; ++k) {
        if (tile.inside[k] == 0) continue;
        const Sample& s = top_[t * kTileNodes + k];
        if (dot(s.normal, sun.towards) > 0.0) sum += s.area * beam_.at(k);
      }
    }
    return sum / area_;
  }

 private:
  const FastBeam& fast_;
  std::vector<Sample> top_;
  std::vector<Tile> tiles_;
  double area_ = 0.0;
  TileBeam beam_;
};

// The parts that have a row, with its name.
std::vector<std::pair<const Part*, std::string>> parts_told(const Model& model) {
  std::vector<std::pair<const Part*, std::string>> parts;
  for (std::size_t k = 0; k < model.site.objects.size() && k < model.object_part.size(); ++k) {
    const Object& o = model.site.objects[k];
    if (o.kind == ObjectKind::tree || o.kind == ObjectKind::post || model.object_part[k] < 0)
      continue;
    parts.emplace_back(&model.parts[static_cast<std::size_t>(model.object_part[k])], o.name);
  }
  for (const Part& part : model.parts)
    if (part.kind == PartKind::den) parts.emplace_back(&part, part.name);
  return parts;
}

}  // namespace

std::vector<ObjectRow> object_tops(const Model& model, const FastBeam& fast,
                                   const std::vector<Step>& steps,
                                   const std::vector<std::vector<SunRay>>& suns,
                                   const sun::Date& date) {
  const auto parts = parts_told(model);
  std::vector<std::optional<ObjectRow>> told(parts.size());
  tbb::parallel_for(std::size_t{0}, parts.size(), [&](std::size_t p) {
    const geom::Mesh& mesh = parts[p].first->mesh;
    std::vector<Sample> samples = top_of(mesh);
    if (samples.empty()) return;
    Top top(fast, std::move(samples));
    ObjectRow row{parts[p].second, highest(mesh), 0.0};
    for (std::size_t k = 0; k < steps.size(); ++k)
      for (const SunRay& sun : suns[k])
        if (sun.up)
          row.sun_hours +=
              steps[k].hours * top.lit_share(sun, date) / static_cast<double>(suns[k].size());
    told[p] = row;
  });
  std::vector<ObjectRow> rows;
  for (const auto& row : told)
    if (row) rows.push_back(*row);
  return rows;
}

}  // namespace hummock::shade
