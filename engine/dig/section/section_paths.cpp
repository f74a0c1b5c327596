#include "engine/dig/section/section_paths.h"

#include <algorithm>

namespace hummock::dig {

namespace {

// The nodes joined to the fence's foot, marked.
std::vector<char> component_of_divider(const BuriedGraph& graph) {
  std::vector<char> seen(graph.nodes.size(), 0);
  std::vector<int> open{graph.divider};
  seen[static_cast<std::size_t>(graph.divider)] = 1;
  while (!open.empty()) {
    const BuriedNode& n = graph.nodes[static_cast<std::size_t>(open.back())];
    open.pop_back();
    for (const int other : n.next) {
      if (seen[static_cast<std::size_t>(other)] != 0) continue;
      seen[static_cast<std::size_t>(other)] = 1;
      open.push_back(other);
    }
  }
  return seen;
}

JoinedReach reach_of_component(const VerticalSection& section, const BuriedGraph& graph) {
  const std::vector<char> joined = component_of_divider(graph);
  JoinedReach reach;
  for (const auto& [i, j] : graph.edges) {
    if (joined[static_cast<std::size_t>(i)] == 0) continue;
    const Vec2 p = graph.nodes[static_cast<std::size_t>(i)].at;
    const Vec2 q = graph.nodes[static_cast<std::size_t>(j)].at;
    reach.rock =
        reach.rock || (!section.rock.empty() && !stays_above(section.rock, p, q, -kWeldDistance));
    reach.depth = std::max(reach.depth, greatest_depth(section.ground, p, q));
    reach.from_x = std::min({reach.from_x, p.x, q.x});
    reach.to_x = std::max({reach.to_x, p.x, q.x});
  }
  return reach;
}

// The floor a tunnel may not break: rock, and the depth limit.
GroundLine floor_under(const VerticalSection& section, double max_depth) {
  if (max_depth == kInfinity) return section.rock;
  const GroundLine limit = lowered(section.ground, max_depth);
  return section.rock.empty() ? limit : upper_of(limit, section.rock);
}

// Most tunnels never touch the floor; the search with its many corners is for those that would.
template <class Run>
Tunnel least_above_floor(const VerticalSection& section, double max_depth, Run run) {
  Tunnel tunnel = run(GroundLine{});
  const bool keeps = tunnel.depth <= max_depth + kSlack && keeps_above(section.rock, tunnel.path);
  if (!tunnel.open || keeps) return tunnel;
  return run(floor_under(section, max_depth));
}

}  // namespace

SectionPaths::SectionPaths(VerticalSection section)
    : section_(std::move(section)),
      graph_(make_buried_graph(section_.ground, section_.pieces)),
      obstacles_(graph_),
      inside_(graph_, OpenGround::Bank::inside),
      outside_(graph_, OpenGround::Bank::outside),
      joined_(reach_of_component(section_, graph_)) {}

// What is joined to the fence's foot parts the soil above the depth in two where it reaches below
// it. All of it lies on the fence's side of the start, so the start and the ground outside are in
// different parts.
bool SectionPaths::is_shut_off(Vec2 start, double max_depth) const {
  return start.x > joined_.to_x + kWeldDistance && joined_.depth > max_depth + 2.0 * kSlack;
}

Tunnel SectionPaths::shortest(double max_depth) const {
  if (least_depth() > max_depth + kSlack || joined_.rock) return {};
  return least_above_floor(section_, max_depth, [this](const GroundLine& floor) {
    return shortest_from_bank(searched(), floor);
  });
}

Tunnel SectionPaths::shortest_from(Vec2 start, double max_depth) const {
  if (is_shut_off(start, max_depth)) return {};
  return least_above_floor(section_, max_depth, [this, start](const GroundLine& floor) {
    return shortest_from_point(searched(), floor, start);
  });
}

}  // namespace hummock::dig
