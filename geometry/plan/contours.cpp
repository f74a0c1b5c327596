#include "geometry/plan/contours.h"

#include <cmath>
#include <cstdint>
#include <unordered_map>
#include <utility>

namespace hummock::geom {
namespace {

struct Corner {
  std::size_t node = 0;
  Vec2 at;
  double value = 0.0;
};

// An end of a piece of contour: the grid edge it lies on, named by its two nodes.
using EdgeKey = std::uint64_t;

struct Piece {
  EdgeKey from = 0;
  EdgeKey to = 0;
  Vec2 a, b;
};

EdgeKey key(std::size_t p, std::size_t q) {
  return (static_cast<EdgeKey>(std::min(p, q)) << 32) | static_cast<EdgeKey>(std::max(p, q));
}

// A node exactly on the level counts as above it, so a line never ends in a node.
bool above(const Corner& c, double level) {
  return c.value >= level;
}

Vec2 crossing(const Corner& p, const Corner& q, double level) {
  return lerp(p.at, q.at, (level - p.value) / (q.value - p.value));
}

void cut(const Corner& a, const Corner& b, const Corner& c, double level,
         std::vector<Piece>& pieces) {
  const bool ua = above(a, level);
  const bool ub = above(b, level);
  const bool uc = above(c, level);
  if (ua == ub && ub == uc) return;
  // `apex` is the corner alone on its side.
  const Corner& apex = (ub == uc) ? a : ((ua == uc) ? b : c);
  const Corner& p = &apex == &a ? b : a;
  const Corner& q = &apex == &c ? b : c;
  pieces.push_back({key(apex.node, p.node), key(apex.node, q.node), crossing(apex, p, level),
                    crossing(apex, q, level)});
}

// 1 for each node of a row at or over the level; those without a value are not.
void mark_above(const Raster& raster, int j, double level, std::vector<std::uint8_t>& up) {
  const float* row = &raster.values[raster.grid.index(0, j)];
  for (std::size_t i = 0; i < up.size(); ++i) up[i] = static_cast<double>(row[i]) >= level ? 1 : 0;
}

std::vector<Piece> pieces_at(const Raster& raster, double level) {
  const Grid& g = raster.grid;
  std::vector<Piece> pieces;
  const auto corner = [&](int i, int j) {
    return Corner{g.index(i, j), g.node(i, j), static_cast<double>(raster.at(i, j))};
  };
  const auto across = static_cast<std::size_t>(g.nx);
  std::vector<std::uint8_t> low(across), high(across);
  mark_above(raster, 0, level, high);
  for (int j = 0; j + 1 < g.ny; ++j) {
    std::swap(low, high);
    mark_above(raster, j + 1, level, high);
    for (int i = 0; i + 1 < g.nx; ++i) {
      const auto n = static_cast<std::size_t>(i);
      // A cell of which all corners lie on one side is not cut: nearly all of them.
      const int up = low[n] + low[n + 1] + high[n] + high[n + 1];
      if (up == 0 || up == 4) continue;
      const Corner a = corner(i, j);
      const Corner b = corner(i + 1, j);
      const Corner c = corner(i + 1, j + 1);
      const Corner d = corner(i, j + 1);
      if (std::isnan(a.value + b.value + c.value + d.value)) continue;
      cut(a, b, d, level, pieces);
      cut(c, d, b, level, pieces);
    }
  }
  return pieces;
}

// Joins pieces that share an edge into lines.
class Joiner {
 public:
  explicit Joiner(std::vector<Piece> pieces) : pieces_(std::move(pieces)) {
    for (std::size_t k = 0; k < pieces_.size(); ++k) {
      at_[pieces_[k].from].push_back(k);
      at_[pieces_[k].to].push_back(k);
    }
    used_.assign(pieces_.size(), false);
  }

  std::vector<std::vector<Vec2>> lines() {
    std::vector<std::vector<Vec2>> all;
    // Open lines first, from their ends; what is left then is closed.
    for (const bool ends_only : {true, false}) {
      for (std::size_t k = 0; k < pieces_.size(); ++k) {
        if (used_[k]) continue;
        const bool from_end = at_[pieces_[k].from].size() == 1;
        const bool to_end = at_[pieces_[k].to].size() == 1;
        if (ends_only && !from_end && !to_end) continue;
        all.push_back(walk(k, !from_end && to_end));
      }
    }
    return all;
  }

 private:
  std::vector<Vec2> walk(std::size_t k, bool backwards) {
    std::vector<Vec2> line{backwards ? pieces_[k].b : pieces_[k].a};
    EdgeKey arrived = backwards ? pieces_[k].to : pieces_[k].from;
    while (true) {
      used_[k] = true;
      const bool forward = pieces_[k].from == arrived;
      line.push_back(forward ? pieces_[k].b : pieces_[k].a);
      arrived = forward ? pieces_[k].to : pieces_[k].from;
      std::size_t next = pieces_.size();
      for (std::size_t candidate : at_[arrived]) {
        if (!used_[candidate]) next = candidate;
      }
      if (next == pieces_.size()) return line;
      k = next;
    }
  }

  std::vector<Piece> pieces_;
  std::unordered_map<EdgeKey, std::vector<std::size_t>> at_;
  std::vector<char> used_;
};

}  // namespace

std::vector<Contour> contours(const Raster& raster, double step, double base) {
  double lo = INFINITY;
  double hi = -INFINITY;
  for (float v : raster.values) {
    if (std::isnan(v)) continue;
    lo = std::min(lo, static_cast<double>(v));
    hi = std::max(hi, static_cast<double>(v));
  }
  std::vector<Contour> all;
  if (!(lo < hi)) return all;
  for (double k = std::ceil((lo - base) / step); base + k * step <= hi; k += 1.0) {
    const double level = base + k * step;
    for (auto& line : Joiner(pieces_at(raster, level)).lines()) {
      all.push_back({level, std::move(line)});
    }
  }
  return all;
}

double round_step(double lo, double hi, int wanted) {
  const double raw = std::max(hi - lo, 1e-12) / std::max(1, wanted);
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  for (double m : {1.0, 2.0, 5.0}) {
    if (m * power >= raw) return m * power;
  }
  return 10.0 * power;
}

}  // namespace hummock::geom
