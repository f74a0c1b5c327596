#include "engine/openings/entrapment_gaps.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <unordered_map>

#include "engine/openings/closing_gaps.h"
#include "engine/species/doubt.h"
#include "geometry/mesh/mesh_distance.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::openings {

namespace {

// Of a body that nobody has measured; common practice, no source
constexpr double kNarrower = 0.75;
constexpr double kWider = 1.25;
constexpr double kPiece = 4.0;  // m: long fences are looked at in pieces of this hash

bool is_barrier(PartKind kind) {
  return kind == PartKind::panel || kind == PartKind::gate;
}

bool is_thing(PartKind kind) {
  return kind == PartKind::object || kind == PartKind::den || kind == PartKind::house;
}

// Without the triangles that are wholly below the ground.
geom::Mesh above_ground(const Model& model, const Part& part) {
  geom::Mesh out;
  out.vertices = part.mesh.vertices;
  std::vector<char> above(out.vertices.size());
  for (std::size_t k = 0; k < above.size(); ++k) {
    const Vec3 v = out.vertices[k];
    above[k] = v.z > geom::height_at(model.ground, xy(v)) ? 1 : 0;
  }
  for (const geom::Triangle& t : part.mesh.triangles) {
    if (above[t[0]] + above[t[1]] + above[t[2]] > 0) out.triangles.push_back(t);
  }
  return out;
}

struct Solid {
  int part = -1;
  bool barrier = false;
  geom::MeshTree tree;
};

std::uint64_t key(int i, int j) {
  return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(i)) << 32) |
         static_cast<std::uint32_t>(j);
}

int piece_of(double v) {
  return static_cast<int>(std::floor(v / kPiece));
}

// The fence in pieces a cell wide, so that a stone far from it is dismissed at once.
void add_in_pieces(const geom::Mesh& mesh, int part, std::vector<Solid>& solids) {
  std::unordered_map<std::uint64_t, geom::Mesh> pieces;
  std::vector<std::uint64_t> order;
  for (const geom::Triangle& t : mesh.triangles) {
    const Vec3 c = (mesh.vertices[t[0]] + mesh.vertices[t[1]] + mesh.vertices[t[2]]) * (1.0 / 3.0);
    const std::uint64_t cell = key(piece_of(c.x), piece_of(c.y));
    const auto [it, fresh] = pieces.try_emplace(cell);
    if (fresh) order.push_back(cell);
    const auto v = static_cast<std::uint32_t>(it->second.vertices.size());
    for (const std::uint32_t k : t) it->second.vertices.push_back(mesh.vertices[k]);
    it->second.triangles.push_back({v, v + 1, v + 2});
  }
  for (const std::uint64_t cell : order) {
    solids.push_back({part, true, geom::MeshTree(pieces.at(cell))});
  }
}

std::vector<Solid> solids_of(const Model& model) {
  std::vector<Solid> solids;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    if (!part.blocks_body || part.mesh.empty()) continue;
    if (is_barrier(part.kind)) {
      add_in_pieces(above_ground(model, part), static_cast<int>(k), solids);
    } else if (is_thing(part.kind)) {
      solids.push_back({static_cast<int>(k), false, geom::MeshTree(above_ground(model, part))});
    }
  }
  std::erase_if(solids, [](const Solid& s) { return s.tree.empty(); });
  return solids;
}

bool boxes_near(const geom::Box3& p, const geom::Box3& q, double within) {
  return p.lo.x - within < q.hi.x && q.lo.x - within < p.hi.x && p.lo.y - within < q.hi.y &&
         q.lo.y - within < p.hi.y && p.lo.z - within < q.hi.z && q.lo.z - within < p.hi.z;
}

using PartPair = std::pair<int, int>;

// Of a pair of parts, the fence's pieces counting as one: its nearest points, and the solids of
// theirs that are near.
struct Near {
  geom::NearestPair nearest;
  std::vector<std::pair<std::size_t, std::size_t>> solids;
};
using Pairs = std::map<PartPair, Near>;

// Swept along x, so that only neighbours are compared.
Pairs near_pairs(std::vector<Solid>& solids, double within) {
  std::sort(solids.begin(), solids.end(), [](const Solid& p, const Solid& q) {
    return std::pair(p.tree.box().lo.x, p.part) < std::pair(q.tree.box().lo.x, q.part);
  });
  Pairs pairs;
  for (std::size_t i = 0; i < solids.size(); ++i) {
    for (std::size_t j = i + 1; j < solids.size(); ++j) {
      if (solids[j].tree.box().lo.x > solids[i].tree.box().hi.x + within) break;
      if (solids[i].barrier && solids[j].barrier) continue;
      if (solids[i].part == solids[j].part) continue;
      if (!boxes_near(solids[i].tree.box(), solids[j].tree.box(), within)) continue;
      const auto nearest = geom::nearest(solids[i].tree, solids[j].tree, within);
      if (nearest.distance >= within) continue;
      const PartPair key = std::minmax(solids[i].part, solids[j].part);
      const auto [it, fresh] = pairs.try_emplace(key, Near{nearest, {}});
      if (nearest.distance < it->second.nearest.distance) it->second.nearest = nearest;
      it->second.solids.emplace_back(i, j);
    }
  }
  return pairs;
}

struct Gap {
  PartPair parts;
  Vec3 at;
  double width = 0.0;
};

// Where two that are nearer than an animal wedges in, or touch, stand apart like that elsewhere.
std::optional<Gap> closing_between(const Model& model, const std::vector<Solid>& solids,
                                   const PartPair& parts, const Near& near, EntrapmentRange range) {
  const double middle = 0.5 * (range.from + range.to);
  std::optional<Gap> best;
  for (const auto& [i, j] : near.solids) {
    const auto gap = closing_gap(model, {solids[i].part, &solids[i].tree},
                                 {solids[j].part, &solids[j].tree}, range.from, range.to);
    if (!gap) continue;
    if (best && std::abs(best->width - middle) <= std::abs(gap->width - middle)) continue;
    best = Gap{parts, gap->at, gap->width};
  }
  return best;
}

std::vector<Gap> gaps_within(const Model& model, EntrapmentRange range) {
  std::vector<Gap> gaps;
  if (range.to <= 0.0) return gaps;
  std::vector<Solid> solids = solids_of(model);
  for (const auto& [parts, near] : near_pairs(solids, range.to)) {
    const geom::NearestPair& nearest = near.nearest;
    const Vec3 at = lerp(nearest.on_first, nearest.on_second, 0.5);
    if (nearest.distance >= range.from && geom::contains(model.outline, xy(at))) {
      gaps.push_back({parts, at, nearest.distance});
    } else if (const auto gap = closing_between(model, solids, parts, near, range)) {
      gaps.push_back(*gap);
    }
  }
  return gaps;
}

}  // namespace

EntrapmentRange entrapment_gap_range(const Species& species) {
  const double width = species.body.value[1];
  const double young = species.young && species.young->body ? species.young->body->value[1] : width;
  return {0.5 * std::min(width, young), std::max(width, young)};
}

EntrapmentRange careful_gap_range(const Species& species) {
  EntrapmentRange range = entrapment_gap_range(species);
  const auto take_in = [&](double width) {
    range.from = std::min(range.from, 0.5 * width);
    range.to = std::max(range.to, width);
  };
  const auto take_all = [&](const Sourced<std::array<double, 3>>& body) {
    const double width = body.value[1];
    if (body.careful) take_in((*body.careful)[1]);
    for (const auto& record : body.records) take_in(record.value[1]);
    if (!unsure(body)) return;
    for (const double share : {kNarrower, kWider}) {
      const bool said =
          body.careful && (share < 1.0 ? (*body.careful)[1] <= width : (*body.careful)[1] >= width);
      if (!said) take_in(share * width);
    }
  };
  take_all(species.body);
  if (species.young && species.young->body) take_all(*species.young->body);
  return range;
}

void add_entrapment_gaps(const Model& model, std::vector<Opening>& list) {
  for (const Gap& gap : gaps_within(model, entrapment_gap_range(model.site.species))) {
    Opening o;
    o.what = "pinch";
    o.leads_out = false;
    o.thing = model.parts[static_cast<std::size_t>(gap.parts.first)].name + " and " +
              model.parts[static_cast<std::size_t>(gap.parts.second)].name;
    o.at = gap.at;
    o.ball_m = o.rigid_ball_m = gap.width;
    o.passes = true;
    list.push_back(o);
  }
}

std::vector<double> entrapment_gaps_within(const Model& model, EntrapmentRange range) {
  std::vector<double> widths;
  for (const Gap& gap : gaps_within(model, range)) widths.push_back(gap.width);
  std::sort(widths.begin(), widths.end());
  return widths;
}

}  // namespace hummock::openings
