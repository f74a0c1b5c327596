#include "engine/usable/disc_places.h"

#include <cmath>

namespace hummock::usable {

DiscPlaces disc_places(const geom::Polygon& plan, const std::vector<PlanLine>& lines, double clear,
                       double apart, int first, const std::function<bool(Vec2)>& taken) {
  const geom::Box2 box = geom::bounds(plan);
  const auto nodes = [&](double span) { return static_cast<int>(std::ceil(span / apart)) + 1; };
  DiscPlaces out;
  out.grid = {box.lo.x, box.lo.y, apart, nodes(box.hi.x - box.lo.x), nodes(box.hi.y - box.lo.y)};
  const geom::Grid& g = out.grid;
  const std::vector<double> off = distance_to_lines(g, lines, clear);
  std::vector<std::uint8_t> free(g.size(), 0);
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i) {
      const Vec2 p = g.node(i, j);
      const bool stands = off[g.index(i, j)] >= clear && geom::contains(plan, p);
      free[g.index(i, j)] = stands && !(taken && taken(p)) ? 1 : 0;
    }
  out.part.assign(g.size(), kNone);
  out.next = number_parts(g, free, first, out.part, [](std::size_t, std::size_t) { return true; });
  return out;
}

}  // namespace hummock::usable
