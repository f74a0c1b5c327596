#include "engine/dig/buried_graph.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <unordered_map>

namespace hummock::dig {

namespace {

constexpr double kTurn = 2.0 * geom::kPi;

using Pieces = std::vector<Piece>;

void keep(Pieces& kept, Vec2 a, Vec2 b, std::uint32_t kind) {
  if (geom::distance(a, b) > kWeldDistance) kept.push_back({a, b, kind});
}

void clip_upright(const GroundLine& ground, const Piece& piece, Pieces& kept) {
  const double top = height_on(ground, piece.a.x);
  const auto clipped = [&](Vec2 p) { return Vec2{p.x, p.y > top - kWeldDistance ? top : p.y}; };
  keep(kept, clipped(piece.a), clipped(piece.b), piece.kind);
}

// Below the ground, or on it within the weld distance: kept, the latter laid on the ground exactly.
void clip_step(const GroundLine& ground, Vec2 p, Vec2 q, std::uint32_t kind, Pieces& kept) {
  const auto sunk = [&](Vec2 v) { return height_on(ground, v.x) - v.y; };
  double dp = sunk(p);
  double dq = sunk(q);
  const auto land = [&](Vec2& v, double& d) {
    if (std::abs(d) <= kWeldDistance) {
      v.y = height_on(ground, v.x);
      d = 0.0;
    }
  };
  land(p, dp);
  land(q, dq);
  if (dp < 0.0 && dq < 0.0) return;
  if (dp < 0.0 || dq < 0.0) {
    Vec2 cut = lerp(p, q, dp / (dp - dq));
    cut.y = height_on(ground, cut.x);
    (dp < 0.0 ? p : q) = cut;
  }
  keep(kept, p, q, kind);
}

// Joins consecutive parts of one straight piece that were cut at the ground's points, unless they
// lie on the ground (there every point counts).
void append_joined(Pieces& kept, const Pieces& parts, const GroundLine& ground) {
  for (const Piece& part : parts) {
    const auto sunk = [&](Vec2 v) { return height_on(ground, v.x) - v.y > kWeldDistance; };
    const bool joins = !kept.empty() && kept.back().b == part.a && kept.back().kind == part.kind &&
                       sunk(part.a) && &part != &parts.front();
    if (joins) {
      kept.back().b = part.b;
    } else {
      kept.push_back(part);
    }
  }
}

Pieces below_ground(const GroundLine& ground, const Pieces& pieces) {
  Pieces kept;
  for (Piece piece : pieces) {
    if (piece.a.x > piece.b.x) std::swap(piece.a, piece.b);
    if (piece.b.x - piece.a.x < 1e-9) {
      clip_upright(ground, piece, kept);
      continue;
    }
    Pieces parts;
    Vec2 from = piece.a;
    for (std::size_t k = first_beyond(ground, piece.a.x);
         k < ground.size() && ground[k].x < piece.b.x; ++k) {
      const double t = (ground[k].x - piece.a.x) / (piece.b.x - piece.a.x);
      const Vec2 to{ground[k].x, piece.a.y + (piece.b.y - piece.a.y) * t};
      clip_step(ground, from, to, piece.kind, parts);
      from = to;
    }
    clip_step(ground, from, piece.b, piece.kind, parts);
    append_joined(kept, parts, ground);
  }
  return kept;
}

// How often the footings' outlines wind round p: 0 = in none of them.
int footings_round(const Pieces& pieces, Vec2 p) {
  int winds = 0;
  for (const Piece& piece : pieces) {
    if (piece.kind != kFooting) continue;
    const bool leftward = piece.a.x > p.x;
    if (leftward == (piece.b.x > p.x)) continue;
    const double t = (p.x - piece.a.x) / (piece.b.x - piece.a.x);
    if (piece.a.y + (piece.b.y - piece.a.y) * t > p.y) winds += leftward ? 1 : -1;
  }
  return winds;
}

void add_crossing_places(const Vec2& g, const Vec2& h, const Pieces& pieces,
                         std::vector<double>& xs) {
  for (const Piece& piece : pieces) {
    if (piece.kind != kFooting) continue;
    const Vec2 d = piece.b - piece.a;
    const double det = cross(h - g, d);
    if (det == 0.0) continue;
    const double t = cross(piece.a - g, d) / det;
    const double s = cross(piece.a - g, h - g) / det;
    if (t > 0.0 && t < 1.0 && s >= 0.0 && s <= 1.0) xs.push_back(g.x + (h.x - g.x) * t);
  }
}

// The ground inside a footing is no place to dig from: a lid on it.
void add_lids(const GroundLine& ground, const Pieces& pieces, Pieces& buried) {
  const auto is_footing = [](const Piece& p) { return p.kind == kFooting; };
  if (std::none_of(pieces.begin(), pieces.end(), is_footing)) return;
  for (std::size_t k = 1; k < ground.size(); ++k) {
    std::vector<double> xs{ground[k - 1].x, ground[k].x};
    add_crossing_places(ground[k - 1], ground[k], pieces, xs);
    std::sort(xs.begin(), xs.end());
    for (std::size_t i = 1; i < xs.size(); ++i) {
      const Vec2 p{xs[i - 1], height_on(ground, xs[i - 1])};
      const Vec2 q{xs[i], height_on(ground, xs[i])};
      const Vec2 mid = lerp(p, q, 0.5);
      if (footings_round(pieces, mid) != 0) keep(buried, p, q, kFooting);
    }
  }
}

// Nodes by square cells wider than the weld distance: the first node near a place is in its own
// cell or one beside it.
class NodeHash {
 public:
  explicit NodeHash(BuriedGraph& graph) : graph_(graph) {}

  int find_or_add(Vec2 p) {
    constexpr double kHashCell = 4.0 * kWeldDistance;
    const auto i = static_cast<std::int64_t>(std::floor(p.x / kHashCell));
    const auto j = static_cast<std::int64_t>(std::floor(p.y / kHashCell));
    int found = -1;
    for (int d = 0; d < 9; ++d) {
      const auto it = cells_.find(key(i + d % 3 - 1, j + d / 3 - 1));
      if (it == cells_.end()) continue;
      for (const int k : it->second) {
        if (found >= 0 && k > found) continue;
        const Vec2 at = graph_.nodes[static_cast<std::size_t>(k)].at;
        if (geom::distance(at, p) <= kWeldDistance) found = k;
      }
    }
    if (found >= 0) return found;
    graph_.nodes.push_back({p, false, 0, {}});
    const int fresh = static_cast<int>(graph_.nodes.size()) - 1;
    cells_[key(i, j)].push_back(fresh);
    return fresh;
  }

 private:
  static std::uint64_t key(std::int64_t i, std::int64_t j) {
    return static_cast<std::uint64_t>(i) * 0x9E3779B97F4A7C15ULL ^ static_cast<std::uint64_t>(j);
  }
  BuriedGraph& graph_;
  std::unordered_map<std::uint64_t, std::vector<int>> cells_;
};

bool boxes_apart(const Piece& p, const Piece& q) {
  return std::max(p.a.x, p.b.x) < std::min(q.a.x, q.b.x) ||
         std::max(q.a.x, q.b.x) < std::min(p.a.x, p.b.x) ||
         std::max(p.a.y, p.b.y) < std::min(q.a.y, q.b.y) ||
         std::max(q.a.y, q.b.y) < std::min(p.a.y, p.b.y);
}

void add_crossings(NodeHash& nodes, const Pieces& pieces) {
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (std::size_t j = i + 1; j < pieces.size(); ++j) {
      if (boxes_apart(pieces[i], pieces[j])) continue;
      const Vec2 d = pieces[i].b - pieces[i].a;
      const Vec2 e = pieces[j].b - pieces[j].a;
      const double det = cross(d, e);
      if (std::abs(det) < 1e-12 * geom::length(d) * geom::length(e)) continue;
      const Vec2 w = pieces[j].a - pieces[i].a;
      const double s = cross(w, e) / det;
      const double t = cross(w, d) / det;
      if (s > 0.0 && s < 1.0 && t > 0.0 && t < 1.0) nodes.find_or_add(pieces[i].a + d * s);
    }
  }
}

void join(BuriedGraph& graph, int a, int b, std::uint32_t kind) {
  BuriedNode& p = graph.nodes[static_cast<std::size_t>(a)];
  BuriedNode& q = graph.nodes[static_cast<std::size_t>(b)];
  p.kinds |= kind;
  q.kinds |= kind;
  if (a == b || std::find(p.next.begin(), p.next.end(), b) != p.next.end()) return;
  p.next.push_back(b);
  q.next.push_back(a);
}

// Each piece becomes the chain of the nodes that lie on it.
void add_chain(BuriedGraph& graph, const Piece& piece) {
  const Vec2 d = piece.b - piece.a;
  const double len = geom::length(d);
  std::vector<std::pair<double, int>> on;
  constexpr double kWider = 2.0 * kWeldDistance;
  const Vec2 lo{std::min(piece.a.x, piece.b.x) - kWider, std::min(piece.a.y, piece.b.y) - kWider};
  const Vec2 hi{std::max(piece.a.x, piece.b.x) + kWider, std::max(piece.a.y, piece.b.y) + kWider};
  for (std::size_t k = 0; k < graph.nodes.size(); ++k) {
    const Vec2 at = graph.nodes[k].at;
    if (at.x < lo.x || at.x > hi.x || at.y < lo.y || at.y > hi.y) continue;
    const Vec2 w = at - piece.a;
    const double along = dot(w, d) / len;
    if (along < -kWeldDistance || along > len + kWeldDistance) continue;
    if (std::abs(cross(d, w)) <= kWeldDistance * len) on.emplace_back(along, static_cast<int>(k));
  }
  std::sort(on.begin(), on.end());
  for (std::size_t k = 1; k < on.size(); ++k) {
    join(graph, on[k - 1].second, on[k].second, piece.kind);
  }
}

struct SurfacePoint {
  Vec2 at;
  int node = -1;
};

std::vector<SurfacePoint> surface_points(const BuriedGraph& graph, const GroundLine& ground) {
  std::vector<SurfacePoint> points;
  for (std::size_t k = 0; k < graph.nodes.size(); ++k) {
    if (graph.nodes[k].on_surface) points.push_back({graph.nodes[k].at, static_cast<int>(k)});
  }
  const std::size_t own = points.size();
  for (const Vec2& p : ground) {
    const bool taken =
        std::any_of(points.begin(), points.begin() + static_cast<std::ptrdiff_t>(own),
                    [&](const SurfacePoint& n) { return std::abs(n.at.x - p.x) < kWeldDistance; });
    if (!taken) points.push_back({p, -1});
  }
  std::sort(points.begin(), points.end(),
            [](const SurfacePoint& p, const SurfacePoint& q) { return p.at.x < q.at.x; });
  return points;
}

// One side of a sector: a piece, or the ground's surface.
struct Arm {
  double angle = 0.0;
  int node = -1;
  bool open_inside = false, open_outside = false;
  int surface = 0;  // +1: the surface to the right (towards x > 0), -1: to the left
};

Arm surface_arm(const SurfaceStep& step, bool right) {
  const Vec2 d = right ? step.b - step.a : step.a - step.b;
  Arm arm{std::atan2(d.y, d.x), -1, step.inside(), !step.inside(), right ? 1 : -1};
  return arm;
}

bool is_joined(const BuriedGraph& graph, int a, int b) {
  if (a < 0 || b < 0) return false;
  const auto& next = graph.nodes[static_cast<std::size_t>(a)].next;
  return std::find(next.begin(), next.end(), b) != next.end();
}

void add_sectors(BuriedGraph& graph, int node, std::vector<Arm>& arms) {
  std::sort(arms.begin(), arms.end(), [](const Arm& p, const Arm& q) {
    return std::pair(p.angle, p.node) < std::pair(q.angle, q.node);
  });
  for (std::size_t k = 0; k < arms.size(); ++k) {
    const Arm& from = arms[k];
    const Arm& to = arms[(k + 1) % arms.size()];
    if (from.surface == 1 && to.surface == -1) continue;  // the air
    double width = to.angle - from.angle;
    if (width < 0.0 || arms.size() == 1) width += kTurn;
    Sector s;
    s.node = node;
    s.at = graph.nodes[static_cast<std::size_t>(node)].at;
    s.from = from.angle;
    s.width = width;
    s.from_node = from.node;
    s.to_node = to.node;
    s.inside = from.open_inside || to.open_inside;
    s.outside = from.open_outside || to.open_outside;
    // No taut tunnel bends where less than a half turn is free.
    if (width > geom::kPi - 1e-6 || s.inside || s.outside) graph.sectors.push_back(s);
  }
}

std::vector<Arm> piece_arms(const BuriedGraph& graph, int node) {
  std::vector<Arm> arms;
  const BuriedNode& n = graph.nodes[static_cast<std::size_t>(node)];
  for (const int other : n.next) {
    const Vec2 d = graph.nodes[static_cast<std::size_t>(other)].at - n.at;
    Arm arm;
    arm.angle = std::atan2(d.y, d.x);
    arm.node = other;
    arms.push_back(arm);
  }
  return arms;
}

// Adds the surface's two arms to a surface node, unless a piece lies along it there.
void add_surface_arms(const BuriedGraph& graph, std::vector<Arm>& arms,
                      const std::vector<SurfacePoint>& points, std::size_t at) {
  const auto tag = [&](int other, int side) {
    for (Arm& arm : arms) {
      if (arm.node == other) arm.surface = side;
    }
  };
  const int node = points[at].node;
  if (at == 0) {
    arms.push_back({geom::kPi, -1, false, false, -1});
  } else if (is_joined(graph, node, points[at - 1].node)) {
    tag(points[at - 1].node, -1);
  } else {
    arms.push_back(surface_arm(graph.surface[at - 1], false));
  }
  if (at + 1 == points.size()) {
    arms.push_back({0.0, -1, false, false, 1});
  } else if (is_joined(graph, node, points[at + 1].node)) {
    tag(points[at + 1].node, 1);
  } else {
    arms.push_back(surface_arm(graph.surface[at], true));
  }
}

void mark_surface(BuriedGraph& graph, const GroundLine& ground) {
  for (BuriedNode& n : graph.nodes) {
    const double level = height_on(ground, n.at.x);
    n.on_surface = level - n.at.y <= kWeldDistance;
    if (n.on_surface) n.at.y = level;
  }
}

void replace(std::vector<int>& list, int old, int with) {
  std::replace(list.begin(), list.end(), old, with);
}

// Takes out nodes in the middle of a straight piece: a sheet cut from many small triangles is one
// piece. The way it is bent by this stays under kStraight.
void join_straight(BuriedGraph& graph) {
  constexpr double kStraight = 1e-10;  // m
  for (std::size_t k = 0; k < graph.nodes.size(); ++k) {
    BuriedNode& n = graph.nodes[k];
    if (n.next.size() != 2 || n.on_surface) continue;
    const int i = n.next[0], j = n.next[1];
    BuriedNode& p = graph.nodes[static_cast<std::size_t>(i)];
    BuriedNode& q = graph.nodes[static_cast<std::size_t>(j)];
    const Vec2 d = q.at - p.at;
    const bool between = dot(n.at - p.at, n.at - q.at) < 0.0;
    const bool joined = std::find(p.next.begin(), p.next.end(), j) != p.next.end();
    if (!between || joined || std::abs(cross(d, n.at - p.at)) > kStraight * geom::length(d))
      continue;
    replace(p.next, static_cast<int>(k), j);
    replace(q.next, static_cast<int>(k), i);
    n.next.clear();
  }
}

// Drops nodes nothing is joined to (the divider stays) and lists the edges.
void compact(BuriedGraph& graph) {
  std::vector<int> fresh(graph.nodes.size(), -1);
  std::vector<BuriedNode> kept;
  for (std::size_t k = 0; k < graph.nodes.size(); ++k) {
    if (graph.nodes[k].next.empty() && static_cast<int>(k) != graph.divider) continue;
    fresh[k] = static_cast<int>(kept.size());
    kept.push_back(graph.nodes[k]);
  }
  graph.divider = fresh[static_cast<std::size_t>(graph.divider)];
  graph.edges.clear();
  for (std::size_t k = 0; k < kept.size(); ++k) {
    for (int& other : kept[k].next) {
      other = fresh[static_cast<std::size_t>(other)];
      if (static_cast<int>(k) < other) graph.edges.emplace_back(static_cast<int>(k), other);
    }
  }
  graph.nodes = std::move(kept);
}

}  // namespace

BuriedGraph make_buried_graph(const GroundLine& ground, const std::vector<Piece>& pieces) {
  BuriedGraph graph;
  NodeHash nodes(graph);
  graph.divider = nodes.find_or_add({0.0, height_on(ground, 0.0)});
  Pieces buried = below_ground(ground, pieces);
  add_lids(ground, pieces, buried);
  for (const Piece& p : buried) {
    nodes.find_or_add(p.a);
    nodes.find_or_add(p.b);
  }
  add_crossings(nodes, buried);
  for (const Piece& p : buried) add_chain(graph, p);
  mark_surface(graph, ground);
  join_straight(graph);
  compact(graph);
  const std::vector<SurfacePoint> points = surface_points(graph, ground);
  for (std::size_t k = 0; k + 1 < points.size(); ++k) {
    graph.surface.push_back(
        {points[k].at, points[k + 1].at, is_joined(graph, points[k].node, points[k + 1].node)});
  }
  for (std::size_t k = 0; k < graph.nodes.size(); ++k) {
    if (graph.nodes[k].on_surface) continue;
    std::vector<Arm> arms = piece_arms(graph, static_cast<int>(k));
    if (!arms.empty()) add_sectors(graph, static_cast<int>(k), arms);
  }
  for (std::size_t k = 0; k < points.size(); ++k) {
    if (points[k].node < 0) continue;
    std::vector<Arm> arms = piece_arms(graph, points[k].node);
    add_surface_arms(graph, arms, points, k);
    add_sectors(graph, points[k].node, arms);
  }
  return graph;
}

bool looks_into(const Sector& sector, Vec2 direction) {
  if (sector.node < 0) return true;
  double turn = std::atan2(direction.y, direction.x) - sector.from;
  while (turn < 0.0) turn += kTurn;
  while (turn >= kTurn) turn -= kTurn;
  return turn > 0.0 && turn < sector.width;
}

}  // namespace hummock::dig
