#include "engine/sight/viewing_eyes.h"

#include <algorithm>
#include <cmath>

#include "engine/site/viewing_line.h"

namespace hummock::sight {
namespace {

bool holds_edge(const Section& s, int edge) {
  return std::find(s.edges.begin(), s.edges.end(), edge) != s.edges.end();
}

bool passes_sight(const Site& site, int edge) {
  return std::any_of(
      site.boundary.sections.begin(), site.boundary.sections.end(),
      [&](const Section& s) { return holds_edge(s, edge) && s.kind != SheetKind::solid; });
}

// At a share of the window's width.
Vec3 eye_at(const Land& land, const Viewpoint& view, double share) {
  constexpr double kLeastOff = 0.01;  // m: an eye in the sheet itself would look past it
  const Window& w = view.window;
  const Vec2 p = geom::lerp(w.a, w.b, share) - w.inwards * std::max(view.off, kLeastOff);
  return at_height(p, land.height_under(p) + view.up);
}

// From end to end: a guest at the edge of the pane sees round more than one in the middle.
std::vector<Vec3> eyes_along(const Land& land, const Viewpoint& view) {
  std::vector<Vec3> eyes;
  for (int k = 0; k <= view.gaps; ++k)
    eyes.push_back(eye_at(land, view, static_cast<double>(k) / view.gaps));
  const Vec2 middle = geom::lerp(view.window.a, view.window.b, 0.5);
  std::stable_sort(eyes.begin(), eyes.end(), [&](Vec3 p, Vec3 q) {
    // Rounded: the eyes left and right of the middle are equally far.
    return std::round(geom::distance(geom::xy(p), middle) * 1e6) <
           std::round(geom::distance(geom::xy(q), middle) * 1e6);
  });
  return eyes;
}

Viewpoint viewpoint(const Model& model, const Land& land, const Viewing& v, double eye_spacing) {
  const ViewingLine line = viewing_line(model.site.boundary, v);
  Viewpoint p;
  p.name = v.name;
  p.window = {line.a, line.b, line.inwards, v.sill};
  p.off = line.off;
  p.up = v.eye_height;
  p.gaps = std::max(1, static_cast<int>(std::ceil(v.width / eye_spacing - 1e-9)));
  p.eyes = eyes_along(land, p);
  p.sees_through = passes_sight(model.site, v.edge);
  return p;
}

// Guests along the whole of an edge, as a viewing place that says no more than that.
Viewing along_edge(const Site& site, const Section& section, int edge) {
  const Polygon& outline = site.boundary.outline;
  const auto k = static_cast<std::size_t>(edge);
  Viewing v;
  v.name = section.name;
  v.edge = edge;
  v.width = geom::distance(outline[k], outline[(k + 1) % outline.size()]);
  return v;
}

}  // namespace

std::vector<Viewpoint> viewpoints(const Model& model, const Land& land, double eye_spacing) {
  constexpr double kMostEyes = 200.0;  // along one edge: a long one has them farther apart
  std::vector<Viewpoint> out;
  for (const Viewing& v : model.site.viewings)
    out.push_back(viewpoint(model, land, v, eye_spacing));
  for (const Section& section : model.site.boundary.sections) {
    if (!section.guest_view) continue;
    for (const int edge : section.edges) {
      const Viewing v = along_edge(model.site, section, edge);
      out.push_back(viewpoint(model, land, v, std::max(eye_spacing, v.width / kMostEyes)));
    }
  }
  return out;
}

std::vector<Vec3> eyes_between(const Land& land, const Viewpoint& view, int halvings) {
  const int n = view.gaps << halvings;
  std::vector<Vec3> eyes;
  eyes.reserve(static_cast<std::size_t>(n));
  for (int k = 0; k < n; ++k) eyes.push_back(eye_at(land, view, (k + 0.5) / n));
  return eyes;
}

double gap_after(const Viewpoint& view, int halvings) {
  return geom::distance(view.window.a, view.window.b) / (view.gaps << halvings);
}

bool through(const Window& window, const geom::Heightfield& ground, Vec3 eye, Vec3 target) {
  const double before = dot(geom::xy(eye) - window.a, window.inwards);
  const double behind = dot(geom::xy(target) - window.a, window.inwards);
  constexpr double kEdge = 1e-9;  // m, or share of the width: a place on the line itself counts
  if (before > kEdge) return false;
  if (behind < -kEdge) return true;
  const double depth = behind - before;
  const Vec3 p = geom::lerp(eye, target, depth > kEdge ? std::max(0.0, -before) / depth : 1.0);
  const Vec2 along = window.b - window.a;
  const double t = dot(geom::xy(p) - window.a, along) / dot(along, along);
  return t < -kEdge || t > 1.0 + kEdge || window.sill <= 0.0 ||
         p.z >= geom::height_at(ground, geom::xy(p)) + window.sill - kEdge;
}

namespace {

struct Stretch {
  double from, to;
};

double union_length(std::vector<Stretch> stretches) {
  std::sort(stretches.begin(), stretches.end(),
            [](const Stretch& p, const Stretch& q) { return p.from < q.from; });
  double total = 0.0, reached = -1e300;
  for (const Stretch& s : stretches) {
    total += std::max(0.0, s.to - std::max(s.from, reached));
    reached = std::max(reached, s.to);
  }
  return total;
}

}  // namespace

double guest_share(const Model& model) {
  const Site& site = model.site;
  const Polygon& outline = site.boundary.outline;
  double guests = 0.0, whole = 0.0;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const double length = geom::distance(outline[k], outline[(k + 1) % outline.size()]);
    const int edge = static_cast<int>(k);
    std::vector<Stretch> seen;
    for (const Section& s : site.boundary.sections)
      if (s.guest_view && holds_edge(s, edge)) seen.push_back({0.0, length});
    for (const Viewing& v : site.viewings)
      if (v.edge == edge)
        seen.push_back({std::max(0.0, v.from), std::min(length, v.from + v.width)});
    guests += union_length(std::move(seen));
    whole += length;
  }
  return whole > 0.0 ? guests / whole : 0.0;
}

}  // namespace hummock::sight
