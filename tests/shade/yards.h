// Small yards built in code for the shade tests.
#pragma once

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "engine/model/model.h"
#include "engine/sun/sun.h"

namespace hummock::shade {

inline geom::Polygon rectangle(double x0, double y0, double x1, double y1) {
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

// A yard on ground z = height(x, y), fenceless, at latitude 51.48° N.
inline Model yard(double x0, double y0, double x1, double y1, double cell,
                  const std::function<double(double, double)>& height = {}, double margin = 0.0) {
  Model m;
  m.outline = rectangle(x0, y0, x1, y1);
  m.ground =
      geom::level_ground({{x0 - margin, y0 - margin}, {x1 + margin, y1 + margin}}, cell, 0.0);
  const geom::Grid& g = m.ground.grid;
  if (height) {
    for (int j = 0; j < g.ny; ++j) {
      for (int i = 0; i < g.nx; ++i) {
        const Vec2 p = g.node(i, j);
        m.ground.at(i, j) = height(p.x, p.y);
      }
    }
  }
  m.surveyed = m.ground;
  Place place;
  place.latitude = 51.48 * geom::kDegree;
  place.longitude = -0.61 * geom::kDegree;
  place.elevation = 62.0;
  place.time_zone = "+01:00";
  m.site.place = place;
  m.site.animals = 3;
  return m;
}

inline geom::Mesh box_mesh(Vec3 lo, Vec3 hi) {
  geom::Mesh m;
  for (const double z : {lo.z, hi.z}) {
    m.vertices.push_back({lo.x, lo.y, z});
    m.vertices.push_back({hi.x, lo.y, z});
    m.vertices.push_back({hi.x, hi.y, z});
    m.vertices.push_back({lo.x, hi.y, z});
  }
  m.triangles = {{0, 2, 1}, {0, 3, 2}, {4, 5, 6}, {4, 6, 7}};
  for (unsigned k = 0; k < 4; ++k) {
    const unsigned n = (k + 1) % 4;
    m.triangles.push_back({k, n, n + 4});
    m.triangles.push_back({k, n + 4, k + 4});
  }
  return m;
}

// A closed ellipsoid of `around` × `around`/2 facets, inscribed.
inline geom::Mesh ellipsoid(Vec3 centre, Vec3 radii, unsigned around) {
  geom::Mesh m;
  const unsigned rings = around / 2;
  m.vertices.push_back(centre - Vec3{0, 0, radii.z});
  for (unsigned r = 1; r < rings; ++r) {
    const double polar = geom::kPi * r / rings;
    for (unsigned k = 0; k < around; ++k) {
      const double turn = 2.0 * geom::kPi * k / around;
      m.vertices.push_back(centre + Vec3{radii.x * std::sin(polar) * std::cos(turn),
                                         radii.y * std::sin(polar) * std::sin(turn),
                                         -radii.z * std::cos(polar)});
    }
  }
  const auto top = static_cast<unsigned>(m.vertices.size());
  m.vertices.push_back(centre + Vec3{0, 0, radii.z});
  const auto at = [&](unsigned r, unsigned k) { return 1 + (r - 1) * around + k % around; };
  for (unsigned k = 0; k < around; ++k) {
    m.triangles.push_back({0, at(1, k + 1), at(1, k)});
    m.triangles.push_back({top, at(rings - 1, k), at(rings - 1, k + 1)});
    for (unsigned r = 1; r + 1 < rings; ++r) {
      m.triangles.push_back({at(r, k), at(r, k + 1), at(r + 1, k + 1)});
      m.triangles.push_back({at(r, k), at(r + 1, k + 1), at(r + 1, k)});
    }
  }
  return m;
}

inline Part& add_part(Model& m, const std::string& name, PartKind kind, const geom::Mesh& mesh) {
  Part p;
  p.name = name;
  p.kind = kind;
  p.mesh = mesh;
  p.closed = geom::is_closed(mesh);
  m.parts.push_back(p);
  return m.parts.back();
}

inline Part& add_solid(Model& m, const std::string& name, const geom::Mesh& mesh) {
  Part& p = add_part(m, name, PartKind::object, mesh);
  Object o;
  o.name = name;
  o.kind = ObjectKind::box;
  m.site.objects.push_back(o);
  m.object_part.push_back(static_cast<int>(m.parts.size()) - 1);
  return p;
}

// An upright sheet on the ground line a–b.
inline Part& add_wall(Model& m, const std::string& name, Vec2 a, Vec2 b, double foot, double top) {
  geom::Mesh mesh;
  append_quad(mesh, at_height(a, foot), at_height(b, foot), at_height(b, top), at_height(a, top));
  return add_part(m, name, PartKind::panel, mesh);
}

inline Part& as_mesh(Part& p, double aperture, double wire) {
  p.aperture = aperture;
  p.wire = wire;
  p.openness = std::pow(aperture / (aperture + wire), 2);
  return p;
}

// A sun at a compass azimuth and elevation in degrees; grid north is true north.
inline sun::Position sun_at(double azimuth, double elevation) {
  sun::Position p;
  p.azimuth = azimuth * geom::kDegree;
  p.elevation = p.true_elevation = elevation * geom::kDegree;
  p.towards = {std::sin(p.azimuth) * std::cos(p.elevation),
               std::cos(p.azimuth) * std::cos(p.elevation), std::sin(p.elevation)};
  return p;
}

// Twenty suns round the compass, 8° to 65° high, none along an axis.
inline std::vector<sun::Position> twenty_suns() {
  std::vector<sun::Position> suns;
  suns.reserve(20);
  for (int k = 0; k < 20; ++k) {
    suns.push_back(sun_at(std::fmod(7.3 + 137.508 * k, 360.0), 8.0 + 3.0 * k));
  }
  return suns;
}

}  // namespace hummock::shade
