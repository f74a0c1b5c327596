#include "engine/ground/gaps.h"

#include <fmt/format.h>

#include <cmath>

namespace hummock::ground {

std::string place_words(Vec2 p) {
  return fmt::format("({:.2f}, {:.2f})", p.x, p.y);
}

void refuse_gaps(const geom::Heightfield& ground, const Polygon& outline, Vec2 origin,
                 const Where& where, const std::string& what, const std::string& allowed) {
  const geom::Grid& g = ground.grid;
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i) {
      if (!std::isnan(ground.at(i, j))) continue;
      const Vec2 p = g.node(i, j);
      if (!geom::contains(outline, p) && geom::distance_to_edges(outline, p) > 1.5 * g.cell) {
        continue;
      }
      throw InputError(where, what + " at " + place_words(p + origin), allowed);
    }
  }
}

std::size_t fill_gaps(geom::Heightfield& ground) {
  const geom::Grid& g = ground.grid;
  std::vector<std::size_t> front;
  for (std::size_t k = 0; k < ground.z.size(); ++k) {
    if (!std::isnan(ground.z[k])) front.push_back(k);
  }
  const std::size_t known = front.size();
  if (known == ground.z.size()) return 0;
  std::vector<std::size_t> next;
  while (!front.empty()) {
    next.clear();
    for (std::size_t k : front) {
      const int i = static_cast<int>(k % static_cast<std::size_t>(g.nx));
      const int j = static_cast<int>(k / static_cast<std::size_t>(g.nx));
      for (int n = 0; n < 9; ++n) {
        const int ii = i + n % 3 - 1;
        const int jj = j + n / 3 - 1;
        if (!g.holds(ii, jj) || !std::isnan(ground.at(ii, jj))) continue;
        ground.at(ii, jj) = ground.z[k];
        next.push_back(g.index(ii, jj));
      }
    }
    front.swap(next);
  }
  return ground.z.size() - known;
}

void fill_margin(geom::Heightfield& ground, SurveyRecord& record) {
  std::vector<std::uint8_t> guessed(ground.z.size());
  for (std::size_t k = 0; k < guessed.size(); ++k) guessed[k] = std::isnan(ground.z[k]) ? 1 : 0;
  const std::size_t filled = fill_gaps(ground);
  if (filled == 0) return;
  record.guessed = std::move(guessed);
  const double share = 100.0 * static_cast<double>(filled) / static_cast<double>(ground.z.size());
  record.notes.push_back(
      fmt::format("ground: the survey has no height for {:.1f} % of the modelled area, "
                  "all outside the boundary; the nearest height was used there",
                  share));
}

}  // namespace hummock::ground
