#include "engine/ground/point_survey.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/ground/gaps.h"
#include "engine/ground/lost_detail.h"
#include "engine/ground/point_file.h"
#include "engine/site/doubtful.h"
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

void refuse_heights(const std::vector<SurveyPoint>& survey, const std::filesystem::path& file,
                    const std::vector<std::string>& accept) {
  constexpr double kLowest = -500.0, kHighest = 9000.0;  // m, below and above any land
  for (const SurveyPoint& p : survey)
    if (!(p.at.z >= kLowest && p.at.z <= kHighest))
      refuse_unless_accepted(accept, "heights", {file.string(), p.line, "z"},
                             fmt::format("{:g} m", p.at.z), "a height from -500 to 9000 m");
}

// Middle and radius of the circle through a triangle's corners: no point lies in it.
geom::Circle empty_circle(Vec2 a, Vec2 b, Vec2 c) {
  const Vec2 u = b - a, v = c - a;
  const double twice = 2.0 * cross(u, v);
  if (twice == 0.0) return {};
  const double uu = dot(u, u), vv = dot(v, v);
  const Vec2 off{(v.y * uu - u.y * vv) / twice, (u.x * vv - v.x * uu) / twice};
  return {a + off, length(off)};
}

double mean_spacing(const Net& net) {
  double area = 0.0;
  for (const Triangle& t : net.triangles) {
    const Vec2 a = xy(net.points[t[0]]);
    area += 0.5 * std::abs(cross(xy(net.points[t[1]]) - a, xy(net.points[t[2]]) - a));
  }
  return std::sqrt(area / static_cast<double>(net.points.size()));
}

void refuse_doubtful(const Net& net, const Polygon& outline, Vec2 origin, const Ground& ground,
                     const Where& where, const std::vector<std::string>& accept) {
  constexpr double kHole = 4.0;  // mean spacings; common practice, no source
  const std::string name = "'" + ground.points.filename().string() + "'";
  const double spacing = mean_spacing(net);
  if (spacing > kMostCoarse * ground.cell)
    refuse_unless_accepted(accept, "survey-coarse", where,
                           fmt::format("{} with points {:.3g} m apart under a cell of {:g} m", name,
                                       spacing, ground.cell),
                           fmt::format("points at most {:g} cells apart", kMostCoarse));
  for (const Triangle& t : net.triangles) {
    const geom::Circle hole =
        empty_circle(xy(net.points[t[0]]), xy(net.points[t[1]]), xy(net.points[t[2]]));
    if (hole.radius <= kHole * spacing || outline.empty() || !geom::contains(outline, hole.centre))
      continue;
    refuse_unless_accepted(
        accept, "survey-hole", where,
        fmt::format("{} without a point within {:.3g} m of {}, its points lie {:.3g} m apart", name,
                    hole.radius, place_words(hole.centre + origin), spacing),
        "a survey without a hole inside the boundary");
  }
}

void note_lost_detail(const Net& net, const Polygon& outline, Vec2 origin, const Heightfield& laid,
                      SurveyRecord& record) {
  LostDetail lost(laid, outline);
  for (const Vec3& p : net.points) lost.compare(xy(p), p.z);
  if (!lost.any()) return;
  record.notes.push_back(fmt::format(
      "ground: the survey is finer than the cell of {:g} m: up to {:.2f} m of height is lost, at "
      "{}; gaps, tunnels and slopes there are not judged on it: a smaller cell keeps it",
      laid.grid.cell, lost.worst(), place_words(lost.where() + origin)));
  record.unseen.push_back(*lost.unseen(origin));
}

}  // namespace

Heightfield point_survey(const Ground& ground, const Polygon& outline, Vec2 origin,
                         const geom::Box2& area, SurveyRecord& record,
                         const std::vector<std::string>& accept) {
  Where where = ground.where;
  where.key = "ground.points";
  const std::vector<SurveyPoint> survey = read_points(ground.points, where, &record.read);
  refuse_heights(survey, ground.points, accept);
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
  refuse_doubtful(net, outline, origin, ground, where, accept);
  fill_margin(result, record);
  note_lost_detail(net, outline, origin, result, record);
  return result;
}

}  // namespace hummock::ground
