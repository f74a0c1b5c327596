#include "engine/shade/beam/object_tops.h"

#include <algorithm>
#include <cmath>

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

double lit_share(const std::vector<Sample>& top, const RayBeam& rays, const SunRay& sun,
                 const sun::Date& date) {
  double sum = 0.0, area = 0.0;
  for (const Sample& s : top) {
    area += s.area;
    if (dot(s.normal, sun.towards) <= 0.0) continue;
    sum += s.area * rays.at(s.at + s.normal * kLift, sun, date);
  }
  return sum / area;
}

}  // namespace

std::vector<ObjectRow> object_tops(const Model& model, const RayBeam& rays,
                                   const std::vector<Step>& steps,
                                   const std::vector<std::vector<SunRay>>& suns,
                                   const sun::Date& date) {
  std::vector<ObjectRow> rows;
  const auto add = [&](const Part& part, const std::string& name) {
    const std::vector<Sample> top = top_of(part.mesh);
    if (top.empty()) return;
    ObjectRow row{name, highest(part.mesh), 0.0};
    for (std::size_t k = 0; k < steps.size(); ++k) {
      for (const SunRay& sun : suns[k]) {
        if (!sun.up) continue;
        row.sun_hours +=
            steps[k].hours * lit_share(top, rays, sun, date) / static_cast<double>(suns[k].size());
      }
    }
    rows.push_back(row);
  };
  for (std::size_t k = 0; k < model.site.objects.size() && k < model.object_part.size(); ++k) {
    const Object& o = model.site.objects[k];
    if (o.kind == ObjectKind::tree || o.kind == ObjectKind::post || model.object_part[k] < 0) {
      continue;
    }
    add(model.parts[static_cast<std::size_t>(model.object_part[k])], o.name);
  }
  for (const Part& part : model.parts) {
    if (part.kind == PartKind::den) add(part, part.name);
  }
  return rows;
}

}  // namespace hummock::shade
