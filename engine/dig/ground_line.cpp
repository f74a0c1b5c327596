#include "engine/dig/ground_line.h"

#include <algorithm>
#include <limits>

namespace hummock::dig {

std::size_t first_beyond(const GroundLine& line, double x) {
  const auto it = std::upper_bound(line.begin(), line.end(), x,
                                   [](double value, const Vec2& p) { return value < p.x; });
  return static_cast<std::size_t>(it - line.begin());
}

double height_on(const GroundLine& line, double x) {
  const std::size_t k = first_beyond(line, x);
  if (k == 0) return line.front().y;
  if (k == line.size()) return line.back().y;
  const Vec2 p = line[k - 1];
  const Vec2 q = line[k];
  return p.y + (q.y - p.y) * (x - p.x) / (q.x - p.x);
}

namespace {

// Least and greatest of (line − leg) over the leg; both are linear between the line's points, so
// the ends and those points hold the extremes.
struct Gap {
  double least = std::numeric_limits<double>::infinity();
  double greatest = -std::numeric_limits<double>::infinity();
  void add(double value) {
    least = std::min(least, value);
    greatest = std::max(greatest, value);
  }
};

Gap gap_to(const GroundLine& line, Vec2 a, Vec2 b) {
  Gap gap;
  gap.add(height_on(line, a.x) - a.y);
  gap.add(height_on(line, b.x) - b.y);
  if (a.x > b.x) std::swap(a, b);
  const double run = b.x - a.x;
  if (run <= 0.0) return gap;
  for (std::size_t k = first_beyond(line, a.x); k < line.size() && line[k].x < b.x; ++k) {
    gap.add(line[k].y - (a.y + (b.y - a.y) * (line[k].x - a.x) / run));
  }
  return gap;
}

}  // namespace

bool stays_below(const GroundLine& line, Vec2 a, Vec2 b, double slack) {
  return gap_to(line, a, b).least >= -slack;
}

bool stays_above(const GroundLine& line, Vec2 a, Vec2 b, double slack) {
  return gap_to(line, a, b).greatest <= slack;
}

double greatest_depth(const GroundLine& line, Vec2 a, Vec2 b) {
  return gap_to(line, a, b).greatest;
}

GroundLine lowered(const GroundLine& line, double by) {
  GroundLine low = line;
  for (Vec2& p : low) p.y -= by;
  return low;
}

GroundLine upper_of(const GroundLine& p, const GroundLine& q) {
  std::vector<double> xs;
  for (const Vec2& v : p) xs.push_back(v.x);
  for (const Vec2& v : q) xs.push_back(v.x);
  std::sort(xs.begin(), xs.end());
  xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
  GroundLine upper;
  double last_lead = 0.0;
  for (const double x : xs) {
    const double hp = height_on(p, x);
    const double hq = height_on(q, x);
    const double lead = hp - hq;
    if (!upper.empty() && last_lead * lead < 0.0) {
      const double x0 = upper.back().x;
      const double cross_x = x0 + (x - x0) * last_lead / (last_lead - lead);
      if (cross_x > x0 && cross_x < x) upper.push_back({cross_x, height_on(p, cross_x)});
    }
    upper.push_back({x, std::max(hp, hq)});
    last_lead = lead;
  }
  return upper;
}

}  // namespace hummock::dig
