#include "engine/ground/point_survey.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/ground/gaps.h"
#include "engine/ground/point_file.h"
#include "geometry/plan/delaunay_cgal.h"

namespace hummock::ground {
namespace {

using geom::Heightfield;
using geom::Triangle;

struct Net {
  std::vector<Vec3> points;  // local
  std::vector<Triangle> triangles;
};

Net net_of(const std::vector<SurveyPoint>& survey, Vec2 origin) {
  Net net;
  std::vector<Vec2> plan;
  for (const SurveyPoint& p : survey) {
    net.points.push_back({p.at.x - origin.x, p.at.y - origin.y, p.at.z});
    plan.push_back(xy(net.points.back()));
  }
  net.triangles = geom::delaunay(plan);
  return net;
}

// Gives the nodes under one triangle their height. A node on a shared edge gets the same height
// from either side, to rounding; `slack` keeps it from falling between the two.
void lay_triangle(Heightfield& ground, Vec3 a, Vec3 b, Vec3 c) {
  const geom::Grid& g = ground.grid;
  const double area = cross(xy(b) - xy(a), xy(c) - xy(a));
  if (!(area > 0.0)) return;
  const auto from = [](double f, int n) {
    return static_cast<int>(std::clamp(std::ceil(f - 1e-9), 0.0, static_cast<double>(n)));
  };
  const auto [x0, x1] = std::minmax({a.x, b.x, c.x});
  const auto [y0, y1] = std::minmax({a.y, b.y, c.y});
  constexpr double kSlack = 1e-9;
  for (int j = from((y0 - g.y0) / g.cell, g.ny); j < g.ny && g.node(0, j).y <= y1 + kSlack; ++j) {
    for (int i = from((x0 - g.x0) / g.cell, g.nx); i < g.nx && g.node(i, 0).x <= x1 + kSlack; ++i) {
      const Vec2 p = g.node(i, j);
      const double wa = cross(xy(b) - p, xy(c) - p) / area;
      const double wb = cross(xy(c) - p, xy(a) - p) / area;
      const double wc = 1.0 - wa - wb;
      if (wa < -kSlack || wb < -kSlack || wc < -kSlack) continue;
      ground.at(i, j) = wa * a.z + wb * b.z + wc * c.z;
    }
  }
}

Heightfield laid(const Net& net, const geom::Box2& area, double cell) {
  Heightfield ground = geom::level_ground(area, cell, std::numeric_limits<double>::quiet_NaN());
  for (const Triangle& t : net.triangles) {
    lay_triangle(ground, net.points[t[0]], net.points[t[1]], net.points[t[2]]);
  }
  return ground;
}

}  // namespace

Heightfield point_survey(const Ground& ground, const Polygon& outline, Vec2 origin,
                         const geom::Box2& area, std::vector<std::string>& notes,
                         std::vector<InputFile>& read) {
  Where where = ground.where;
  where.key = "ground.points";
  const std::vector<SurveyPoint> survey = read_points(ground.points, where, &read);
  const Net net = net_of(survey, origin);
  const std::string name = "'" + ground.points.filename().string() + "'";
  if (net.triangles.empty()) {
    throw InputError(where,
                     survey.size() < 3 ? fmt::format("{} points in {}", survey.size(), name)
                                       : "points all in one line in " + name,
                     "three or more points that span an area");
  }
  Heightfield result = laid(net, area, ground.cell);
  refuse_gaps(result, outline, origin, where, name + " without points round the ground",
              "points whose hull covers the boundary and one and a half cells around it");
  fill_margin(result, notes);
  return result;
}

}  // namespace hummock::ground
