#include "engine/dig/section/ground_line.h"

#include <algorithm>
#include <limits>

namespace hummock::dig {

namespace {

// Points of a section lie about evenly: a guess by proportion is seldom more than a few steps off.
std::size_t guess_beyond(const GroundLine& line, double x) {
  const double from = line.front().x, reach = line.back().x - from;
  const double share = reach > 0.0 ? (x - from) / reach : 0.0;
  return static_cast<std::size_t>(std::clamp(share, 0.0, 1.0) *
                                  static_cast<double>(line.size() - 1));
}

}  // namespace

std::size_t first_beyond(const GroundLine& line, double x) {
  constexpr std::size_t kFew = 8;
  std::size_t k = guess_beyond(line, x);
  const auto it = line.begin();
  const auto search = [&](std::size_t from, std::size_t to) {
    const auto found = std::upper_bound(it + static_cast<std::ptrdiff_t>(from),
                                        it + static_cast<std::ptrdiff_t>(to), x,
                                        [](double value, const Vec2& p) { return value < p.x; });
    return static_cast<std::size_t>(found - it);
  };
  for (std::size_t n = 0; n < kFew && k > 0 && line[k - 1].x > x; ++n) --k;
  if (k > 0 && line[k - 1].x > x) return search(0, k);
  for (std::size_t n = 0; n < kFew && k < line.size() && line[k].x <= x; ++n) ++k;
  return k < line.size() && line[k].x <= x ? search(k, line.size()) : k;
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

// Does `holds` of every gap of the leg? Stops at the first that does not.
template <class Holds>
bool all_gaps(const GroundLine& line, Vec2 a, Vec2 b, const Holds& holds) {
  if (!holds(height_on(line, a.x) - a.y) || !holds(height_on(line, b.x) - b.y)) return false;
  if (a.x > b.x) std::swap(a, b);
  const double run = b.x - a.x;
  if (run <= 0.0) return true;
  for (std::size_t k = first_beyond(line, a.x); k < line.size() && line[k].x < b.x; ++k) {
    if (!holds(line[k].y - (a.y + (b.y - a.y) * (line[k].x - a.x) / run))) return false;
  }
  return true;
}

}  // namespace

bool stays_below(const GroundLine& line, Vec2 a, Vec2 b, double slack) {
  return all_gaps(line, a, b, [slack](double gap) { return gap >= -slack; });
}

bool stays_above(const GroundLine& line, Vec2 a, Vec2 b, double slack) {
  return all_gaps(line, a, b, [slack](double gap) { return gap <= slack; });
}

// Line − leg is linear between the line's points, so the ends and those points hold the greatest.
double greatest_depth(const GroundLine& line, Vec2 a, Vec2 b) {
  double greatest = std::max(height_on(line, a.x) - a.y, height_on(line, b.x) - b.y);
  if (a.x > b.x) std::swap(a, b);
  const double run = b.x - a.x;
  if (run <= 0.0) return greatest;
  for (std::size_t k = first_beyond(line, a.x); k < line.size() && line[k].x < b.x; ++k) {
    greatest = std::max(greatest, line[k].y - (a.y + (b.y - a.y) * (line[k].x - a.x) / run));
  }
  return greatest;
}

GroundLine lowered(const GroundLine& line, double by) {
  GroundLine low = line;
  for (Vec2& p : low) p.y -= by;
  return low;
}

namespace {

bool same_places(const GroundLine& p, const GroundLine& q) {
  return std::equal(p.begin(), p.end(), q.begin(), q.end(),
                    [](const Vec2& a, const Vec2& b) { return a.x == b.x; });
}

std::vector<double> places_of(const GroundLine& p, const GroundLine& q) {
  std::vector<double> xs;
  xs.reserve(p.size() + q.size());
  for (const Vec2& v : p) xs.push_back(v.x);
  if (same_places(p, q)) return xs;
  const auto middle = static_cast<std::ptrdiff_t>(xs.size());
  for (const Vec2& v : q) xs.push_back(v.x);
  std::inplace_merge(xs.begin(), xs.begin() + middle, xs.end());
  xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
  return xs;
}

// Heights of a line at places that rise.
class Along {
 public:
  explicit Along(const GroundLine& line) : line_(line) {}
  double at(double x) {
    while (next_ < line_.size() && !(x < line_[next_].x)) ++next_;
    if (next_ == 0) return line_.front().y;
    if (next_ == line_.size()) return line_.back().y;
    const Vec2 p = line_[next_ - 1];
    const Vec2 q = line_[next_];
    return p.y + (q.y - p.y) * (x - p.x) / (q.x - p.x);
  }

 private:
  const GroundLine& line_;
  std::size_t next_ = 0;
};

}  // namespace

GroundLine upper_of(const GroundLine& p, const GroundLine& q) {
  GroundLine upper;
  double last_lead = 0.0;
  Along on_p(p), on_q(q);
  for (const double x : places_of(p, q)) {
    const double hp = on_p.at(x);
    const double hq = on_q.at(x);
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

GroundLine lower_of(GroundLine p, GroundLine q) {
  for (Vec2& v : p) v.y = -v.y;
  for (Vec2& v : q) v.y = -v.y;
  GroundLine lower = upper_of(p, q);
  for (Vec2& v : lower) v.y = -v.y;
  return lower;
}

}  // namespace hummock::dig
