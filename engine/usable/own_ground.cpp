#include "engine/usable/own_ground.h"

#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <optional>

#include "engine/usable/clear_between.h"
#include "engine/usable/climb_ways.h"
#include "engine/usable/hops.h"
#include "engine/usable/house_doors.h"
#include "engine/usable/number_parts.h"
#include "engine/usable/thing_lines.h"
#include "engine/usable/thing_tops.h"
#include "geometry/plan/distance_grid.h"
#include "geometry/plan/polygon.h"

namespace hummock::usable {
namespace {

class OwnGround {
 public:
  OwnGround(const Model& model, const UsableGround& ground, const geom::Grid& grid,
            const std::vector<Being>& walk)
      : model_(model), ground_(ground), grid_(grid), walk_(walk) {}

  Own run(std::optional<Vec2> start) {
    part_.assign(grid_.size(), kNone);
    const std::size_t houses = model_.site.houses.size();
    const double half = 0.5 * (ground_.body().width + grid_.cell) - 1e-9;
    const int parts = number_walks(half);
    if (parts == 0)
      return {std::vector<std::uint8_t>(grid_.size(), 1), std::vector<std::uint8_t>(houses, 0)};
    Own out{std::vector<std::uint8_t>(grid_.size(), 0), std::vector<std::uint8_t>(houses, 0)};
    const int home = start ? part_at(*start) : largest(parts);
    if (home == kNone) return out;
    const HouseDoors doors = house_doors(model_, ground_);
    const bool alone = parts == 1 && doors.spots.empty();
    const std::vector<std::uint8_t> come =
        alone ? std::vector<std::uint8_t>{1} : hops(home, parts, doors);
    const auto comes_to = [&](int part) { return come[static_cast<std::size_t>(part)]; };
    for (std::size_t n = 0; n < grid_.size(); ++n)
      if (part_[n] != kNone) out.nodes[n] = comes_to(part_[n]);
    for (std::size_t h = 0; h < houses && !alone; ++h)
      out.houses[h] = comes_to(parts + doors.room_of[h]);
    return out;
  }

 private:
  bool walks(std::size_t n) const { return walk_[n] != Being::nowhere; }
  Vec2 node(std::size_t n) const {
    return grid_.node(static_cast<int>(n % static_cast<std::size_t>(grid_.nx)),
                      static_cast<int>(n / static_cast<std::size_t>(grid_.nx)));
  }

  // Parts by the middles of a disc as wide as the body; then the ground within √2 of its half width
  // belongs to the nearest of them.
  int number_walks(double half) {
    std::vector<std::uint8_t> off(grid_.size());
    for (std::size_t n = 0; n < off.size(); ++n) off[n] = walks(n) ? 0 : 1;
    const std::vector<double> room = geom::distance_to_marked(grid_, off, geom::Beyond::marked);
    std::vector<std::uint8_t> middles(grid_.size(), 0);
    const double width = ground_.body().width - 1e-9;
    const std::vector<double> thin = from_things();
    tbb::parallel_for(tbb::blocked_range<std::size_t>(0, middles.size()), [&](const auto& some) {
      for (std::size_t n = some.begin(); n < some.end(); ++n)
        middles[n] = room[n] >= half && 2.0 * thin[n] >= width && off_the_line(n, room[n]) ? 1 : 0;
    });
    const std::vector<std::uint8_t> beside = beside_things(model_, grid_);
    const std::vector<std::uint8_t> told = near_things(model_, grid_, ground_.body().crouch);
    const std::vector<std::uint8_t>& near = told.empty() ? beside : told;
    const int parts = number_parts(grid_, middles, 0, part_, [&](std::size_t a, std::size_t b) {
      return (near[a] == 0 && near[b] == 0) || walks_between(node(a), node(b));
    });
    if (parts > 0) spread(std::sqrt(2.0) * half + 1e-6, beside);
    return parts;
  }

  // From each node to what stands about it no lower than it squeezes, however thin; infinite where
  // that is more than half its width.
  std::vector<double> from_things() const {
    const Body& body = ground_.body();
    return distance_to_lines(grid_, thing_lines(model_, kSteppedOver * body.crouch, body.crouch),
                             0.5 * body.width);
  }

  // The middle of a body is half its width from the fence.
  bool off_the_line(std::size_t n, double room) const {
    const double half = 0.5 * ground_.body().width;
    return room >= half + 2.0 * grid_.cell ||
           geom::distance_to_edges(model_.outline, node(n)) >= half - 1e-9;
  }

  // Nothing thin stands between two neighbouring nodes, as high as it squeezes.
  bool walks_between(Vec2 p, Vec2 q) const {
    return clear_between(model_, p, q, ground_.body().crouch);
  }

  void spread(double within, const std::vector<std::uint8_t>& beside) {
    const int reach = static_cast<int>(std::floor(within / grid_.cell));
    Steps near;
    for (int dj = -reach; dj <= reach; ++dj)
      for (int di = -reach; di <= reach; ++di)
        if (std::hypot(di, dj) * grid_.cell <= within) near.emplace_back(di, dj);
    std::stable_sort(near.begin(), near.end(), [](const auto& a, const auto& b) {
      return a.first * a.first + a.second * a.second < b.first * b.first + b.second * b.second;
    });
    const std::vector<int> middles = part_;
    for (int j = 0; j < grid_.ny; ++j)
      for (int i = 0; i < grid_.nx; ++i) {
        const std::size_t n = grid_.index(i, j);
        if (walks(n) && middles[n] == kNone) part_[n] = part_about(i, j, near, middles, beside);
      }
  }

  // Of the nearest middle; where those of several parts are near, of the nearest in sight: not
  // through a thin wall.
  using Steps = std::vector<std::pair<int, int>>;
  int part_about(int i, int j, const Steps& near, const std::vector<int>& middles,
                 const std::vector<std::uint8_t>& beside) const {
    std::vector<std::size_t> about;
    for (const auto& [di, dj] : near)
      if (grid_.holds(i + di, j + dj) && middles[grid_.index(i + di, j + dj)] != kNone)
        about.push_back(grid_.index(i + di, j + dj));
    if (about.empty()) return kNone;
    const int nearest = middles[about.front()];
    const bool alone = std::all_of(about.begin(), about.end(),
                                   [&](std::size_t n) { return middles[n] == nearest; });
    if (alone || beside[grid_.index(i, j)] == 0) return nearest;
    const auto seen = std::find_if(about.begin(), about.end(), [&](std::size_t n) {
      return walks_between(grid_.node(i, j), node(n));
    });
    return seen == about.end() ? kNone : middles[*seen];
  }

  // The part of the node nearest to p.
  int part_at(Vec2 p) const {
    double least = std::max(2.0 * grid_.cell, ground_.body().length);
    int part = kNone;
    for (std::size_t n = 0; n < part_.size(); ++n) {
      const double off = geom::distance(node(n), p);
      if (part_[n] == kNone || off >= least) continue;
      least = off;
      part = part_[n];
    }
    return part;
  }

  // The first of them where several are.
  int largest(int parts) const {
    std::vector<std::size_t> nodes(static_cast<std::size_t>(parts), 0);
    for (const int part : part_)
      if (part != kNone) ++nodes[static_cast<std::size_t>(part)];
    return static_cast<int>(std::max_element(nodes.begin(), nodes.end()) - nodes.begin());
  }

  // Rooms that are walked into, each with a part of the ground before it.
  std::vector<std::pair<int, int>> walked_into(const HouseDoors& doors, int parts) const {
    constexpr double kStepped = 0.05;  // m, of a sill stepped over; common practice, no source
    std::vector<std::pair<int, int>> pairs;
    for (const DoorSpot& spot : doors.spots) {
      if (spot.step > kStepped) continue;
      const Vec2 p = geom::xy(spot.at);
      for (const std::size_t n : nodes_near(p, 1.5 * grid_.cell)) {
        const std::pair<int, int> pair{part_[n], parts + spot.room};
        const bool known = std::find(pairs.begin(), pairs.end(), pair) != pairs.end();
        if (!known && walks_between(node(n), p)) pairs.push_back(pair);
      }
    }
    return pairs;
  }

  // Those of a part.
  std::vector<std::size_t> nodes_near(Vec2 p, double within) const {
    std::vector<std::size_t> near;
    const int reach = 1 + static_cast<int>(within / grid_.cell);
    const int i0 = static_cast<int>(std::floor((p.x - grid_.x0) / grid_.cell));
    const int j0 = static_cast<int>(std::floor((p.y - grid_.y0) / grid_.cell));
    for (int j = j0 - reach; j <= j0 + reach + 1; ++j)
      for (int i = i0 - reach; i <= i0 + reach + 1; ++i) {
        if (!grid_.holds(i, j) || geom::distance(grid_.node(i, j), p) > within) continue;
        if (part_[grid_.index(i, j)] != kNone) near.push_back(grid_.index(i, j));
      }
    return near;
  }

  // Numbers: the parts of the ground, the rooms of the houses, the tops of things.
  std::vector<std::uint8_t> hops(int home, int parts, const HouseDoors& doors) const {
    std::vector<RimSpot> rim;
    for (const DoorSpot& spot : doors.spots) rim.push_back({spot.at, parts + spot.room, false});
    std::vector<double> z(grid_.size());
    for (std::size_t n = 0; n < z.size(); ++n) z[n] = geom::height_at(model_.ground, node(n));
    add_rim(part_, z, true, rim);
    const std::vector<double> tops = thing_tops(model_, ground_, grid_);
    std::vector<std::uint8_t> is_top(grid_.size());
    for (std::size_t n = 0; n < tops.size(); ++n) is_top[n] = std::isnan(tops[n]) ? 0 : 1;
    std::vector<int> part_of_top(grid_.size(), kNone);
    const double rise = ground_.steepest() * grid_.cell;
    const int all = number_parts(
        grid_, is_top, parts + doors.rooms, part_of_top,
        [&](std::size_t a, std::size_t b) { return std::abs(tops[a] - tops[b]) <= rise; });
    add_rim(part_of_top, tops, false, rim);
    const Leaper leaper = leaper_of(model_.site.species);
    auto joined = walked_into(doors, parts);
    const auto climbed = climbed_between(model_, leaper, rim, grid_.cell);
    joined.insert(joined.end(), climbed.begin(), climbed.end());
    return parts_come_to(model_, leaper, rim, joined, all, home, WayBack::among_those_come_to,
                         behind_rims(z));
  }

  // Places of the ground behind its rims, to run off from.
  std::vector<RimSpot> behind_rims(const std::vector<double>& z) const {
    std::vector<RimSpot> behind;
    std::vector<std::uint8_t> rim(grid_.size(), 0);
    for (int j = 0; j < grid_.ny; ++j)
      for (int i = 0; i < grid_.nx; ++i) rim[grid_.index(i, j)] = at_rim(part_, i, j) ? 1 : 0;
    const double within = kRunOff + 1e-9;
    const std::vector<double> to_rim = geom::distance_to_marked(grid_, rim, geom::Beyond::unmarked);
    for (std::size_t n = 0; n < grid_.size(); ++n)
      if (part_[n] != kNone && rim[n] == 0 && to_rim[n] <= within && walk_[n] != Being::afloat)
        behind.push_back({at_height(node(n), z[n]), part_[n], false});
    return behind;
  }

  bool at_rim(const std::vector<int>& part, int i, int j) const {
    const int own = part[grid_.index(i, j)];
    return own != kNone && std::any_of(kSteps.begin(), kSteps.end(), [&](const auto& step) {
             const int a = i + step.first, b = j + step.second;
             return !grid_.holds(a, b) || part[grid_.index(a, b)] != own;
           });
  }

  // Nodes with a neighbour that is not of their part.
  void add_rim(const std::vector<int>& part, const std::vector<double>& z, bool on_ground,
               std::vector<RimSpot>& rim) const {
    for (int j = 0; j < grid_.ny; ++j)
      for (int i = 0; i < grid_.nx; ++i) {
        const std::size_t n = grid_.index(i, j);
        if (!at_rim(part, i, j)) continue;
        const bool floats = on_ground && walk_[n] == Being::afloat;
        const double up = floats ? ground_.water_depth(node(n), z[n]) : 0.0;
        rim.push_back({at_height(node(n), z[n] + up), part[n], floats});
      }
  }

  const Model& model_;
  const UsableGround& ground_;
  const geom::Grid& grid_;
  const std::vector<Being>& walk_;
  std::vector<int> part_;
};

}  // namespace

Own own_ground(const Model& model, const UsableGround& ground, const geom::Grid& grid,
               const std::vector<Being>& walk) {
  return OwnGround(model, ground, grid, walk).run(model.site.leap_start);
}

}  // namespace hummock::usable
