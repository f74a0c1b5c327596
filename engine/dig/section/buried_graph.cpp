#include "engine/dig/section/buried_graph.h"

#include <algorithm>
#include <cmath>

#include "engine/dig/section/buried_pieces.h"
#include "engine/dig/section/sectors.h"

namespace hummock::dig {

namespace {

using Pieces = std::vector<Piece>;

// Nodes by square cells wider than the weld distance, in an open table: the first node near a place
// is in its own cell or one beside it.
class NodeHash {
 public:
  NodeHash(BuriedGraph& graph, std::size_t most) : graph_(graph) {
    std::size_t size = 64;
    while (size < 2 * most) size *= 2;
    heads_.assign(size, -1);
    older_.reserve(most);
    graph.nodes.reserve(most);
  }

  int find_or_add(Vec2 p) {
    const double u = p.x / kCell, v = p.y / kCell;
    const double iu = std::floor(u), iv = std::floor(v);
    const auto i = static_cast<std::int64_t>(iu), j = static_cast<std::int64_t>(iv);
    int found = -1;
    for (std::int64_t di = u - iu < kNearEdge ? -1 : 0; di <= (u - iu > 1.0 - kNearEdge ? 1 : 0);
         ++di) {
      for (std::int64_t dj = v - iv < kNearEdge ? -1 : 0; dj <= (v - iv > 1.0 - kNearEdge ? 1 : 0);
           ++dj) {
        look_in(slot(i + di, j + dj), p, found);
      }
    }
    return found >= 0 ? found : add(p, slot(i, j));
  }

 private:
  static constexpr double kCell = 4.0 * kWeldDistance;
  static constexpr double kNearEdge = 0.3;  // of a cell: wider than the weld distance

  // Cells that share a slot are told apart by the distance alone.
  void look_in(std::size_t at, Vec2 p, int& found) const {
    for (int k = heads_[at]; k >= 0; k = older_[static_cast<std::size_t>(k)]) {
      if (found >= 0 && k > found) continue;
      const Vec2 d = graph_.nodes[static_cast<std::size_t>(k)].at - p;
      if (std::abs(d.x) > kWeldDistance || std::abs(d.y) > kWeldDistance) continue;
      if (geom::length(d) <= kWeldDistance) found = k;
    }
  }

  int add(Vec2 p, std::size_t at) {
    graph_.nodes.push_back({p, false, 0, {}});
    const int fresh = static_cast<int>(graph_.nodes.size()) - 1;
    older_.push_back(heads_[at]);
    heads_[at] = fresh;
    return fresh;
  }

  std::size_t slot(std::int64_t i, std::int64_t j) const {
    std::uint64_t h = static_cast<std::uint64_t>(i) * 0x9E3779B97F4A7C15ULL;
    h = (h ^ (h >> 29)) + static_cast<std::uint64_t>(j) * 0xC2B2AE3D27D4EB4FULL;
    return static_cast<std::size_t>((h ^ (h >> 32)) & (heads_.size() - 1));
  }

  BuriedGraph& graph_;
  std::vector<int> heads_, older_;
};

bool boxes_apart(const Piece& p, const Piece& q) {
  return std::max(p.a.x, p.b.x) < std::min(q.a.x, q.b.x) ||
         std::max(q.a.x, q.b.x) < std::min(p.a.x, p.b.x) ||
         std::max(p.a.y, p.b.y) < std::min(q.a.y, q.b.y) ||
         std::max(q.a.y, q.b.y) < std::min(p.a.y, p.b.y);
}

// Pairs of pieces whose boxes meet, each (smaller, larger), rising.
std::vector<std::pair<std::size_t, std::size_t>> near_pairs(const Pieces& pieces) {
  const auto lo = [&](std::size_t k) { return std::min(pieces[k].a.x, pieces[k].b.x); };
  const auto hi = [&](std::size_t k) { return std::max(pieces[k].a.x, pieces[k].b.x); };
  std::vector<std::size_t> order(pieces.size());
  for (std::size_t k = 0; k < order.size(); ++k) order[k] = k;
  std::sort(order.begin(), order.end(),
            [&](std::size_t p, std::size_t q) { return lo(p) < lo(q); });
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t u = 0; u < order.size(); ++u) {
    const double reach = hi(order[u]);
    for (std::size_t v = u + 1; v < order.size() && lo(order[v]) <= reach; ++v) {
      if (boxes_apart(pieces[order[u]], pieces[order[v]])) continue;
      pairs.emplace_back(std::min(order[u], order[v]), std::max(order[u], order[v]));
    }
  }
  std::sort(pairs.begin(), pairs.end());
  return pairs;
}

void add_crossings(NodeHash& nodes, const Pieces& pieces) {
  for (const auto& [i, j] : near_pairs(pieces)) {
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

void join(BuriedGraph& graph, int a, int b, std::uint32_t kind) {
  BuriedNode& p = graph.nodes[static_cast<std::size_t>(a)];
  BuriedNode& q = graph.nodes[static_cast<std::size_t>(b)];
  p.kinds |= kind;
  q.kinds |= kind;
  if (a == b || std::find(p.next.begin(), p.next.end(), b) != p.next.end()) return;
  p.next.push_back(b);
  q.next.push_back(a);
}

using NodesByX = std::vector<std::pair<double, int>>;

NodesByX nodes_by_x(const BuriedGraph& graph) {
  NodesByX list;
  list.reserve(graph.nodes.size());
  for (std::size_t k = 0; k < graph.nodes.size(); ++k) {
    list.emplace_back(graph.nodes[k].at.x, static_cast<int>(k));
  }
  std::sort(list.begin(), list.end());
  return list;
}

// Each piece becomes the chain of the nodes that lie on it.
void add_chain(BuriedGraph& graph, const NodesByX& by_x, const Piece& piece, NodesByX& on) {
  const Vec2 d = piece.b - piece.a;
  const double len = geom::length(d);
  on.clear();
  constexpr double kWider = 2.0 * kWeldDistance;
  const Vec2 lo{std::min(piece.a.x, piece.b.x) - kWider, std::min(piece.a.y, piece.b.y) - kWider};
  const Vec2 hi{std::max(piece.a.x, piece.b.x) + kWider, std::max(piece.a.y, piece.b.y) + kWider};
  const auto first = std::lower_bound(by_x.begin(), by_x.end(), std::pair(lo.x, -1));
  for (auto it = first; it != by_x.end() && it->first <= hi.x; ++it) {
    const Vec2 at = graph.nodes[static_cast<std::size_t>(it->second)].at;
    if (at.y < lo.y || at.y > hi.y) continue;
    const Vec2 w = at - piece.a;
    const double along = dot(w, d) / len;
    if (along < -kWeldDistance || along > len + kWeldDistance) continue;
    if (std::abs(cross(d, w)) <= kWeldDistance * len) on.emplace_back(along, it->second);
  }
  std::sort(on.begin(), on.end());
  for (std::size_t k = 1; k < on.size(); ++k) {
    join(graph, on[k - 1].second, on[k].second, piece.kind);
  }
}

void mark_surface(BuriedGraph& graph, const GroundLine& ground) {
  for (BuriedNode& n : graph.nodes) {
    const double level = height_on(ground, n.at.x);
    n.on_surface = level - n.at.y <= kWeldDistance;
    if (n.on_surface) n.at.y = level;
  }
}

void replace(FewInts& list, int old, int with) {
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
  kept.reserve(graph.nodes.size());
  for (std::size_t k = 0; k < graph.nodes.size(); ++k) {
    if (graph.nodes[k].next.empty() && static_cast<int>(k) != graph.divider) continue;
    fresh[k] = static_cast<int>(kept.size());
    kept.push_back(std::move(graph.nodes[k]));
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

BuriedGraph make_buried_graph(const GroundLine& ground, const Pieces& pieces) {
  BuriedGraph graph;
  const Pieces buried = buried_pieces(ground, pieces);
  NodeHash nodes(graph, 2 * buried.size() + 16);
  graph.divider = nodes.find_or_add({0.0, height_on(ground, 0.0)});
  for (const Piece& p : buried) {
    nodes.find_or_add(p.a);
    nodes.find_or_add(p.b);
  }
  add_crossings(nodes, buried);
  const NodesByX by_x = nodes_by_x(graph);
  NodesByX on;
  for (const Piece& p : buried) add_chain(graph, by_x, p, on);
  mark_surface(graph, ground);
  join_straight(graph);
  compact(graph);
  add_surface_and_sectors(graph, ground);
  return graph;
}

}  // namespace hummock::dig
