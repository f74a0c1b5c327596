#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "engine/leap/places/places.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Vec2;
using geom::Vec3;

namespace {

class ExitSampler {
 public:
  ExitSampler(const Model& model, const PlaceRules& rules) : model_(model), rules_(rules) {}

  std::vector<PatchPtr> run() {
    std::vector<const OverhangPanel*> over(model_.panels.size(), nullptr);
    for (const OverhangPanel& o : model_.overhangs) over[static_cast<std::size_t>(o.panel)] = &o;
    for (std::size_t k = 0; k < model_.panels.size(); ++k) {
      if (over[k] != nullptr) {
        lay_overhang(*over[k], over);
      } else {
        lay_top(model_.panels[k]);
      }
    }
    for (std::size_t k = 0; k < model_.parts.size(); ++k) {
      if (model_.parts[k].kind == PartKind::roof) lay_roof(static_cast<int>(k));
    }
    std::vector<PatchPtr> result;
    for (auto& [key, patch] : patches_) {
      build_tree(*patch);
      result.push_back(patch);
    }
    return result;
  }

 private:
  double opening() const { return std::max(rules_.least_opening, 2.0 * kLift); }

  // The height at which the animal leaves over the edge point p, asked just beside it where it
  // comes up; nothing where the edge is closed. That is the edge itself where the clear height
  // above is at least the opening. The ray starts a little below, so that a roof flush with the
  // edge is met. A closed thing on the edge, or less than the opening above it, raises it to that
  // thing's top; a sheet closes it.
  std::optional<double> way_over(Vec3 p, Vec3 beside) const {
    const Vec3 from = p + beside * kLift - Vec3{0.0, 0.0, kLift};
    const geom::Hit near = model_.body_scene->first_hit({from, {0.0, 0.0, 1.0}, 0.0, 1e30});
    if (!near || near.t - kLift >= opening()) return p.z;
    if (!solid(near)) return std::nullopt;
    const std::vector<geom::Hit> hits =
        model_.body_scene->all_hits({from, {0.0, 0.0, 1.0}, 0.0, 1e30});
    int within = solids_round_start(hits);
    double top = p.z;  // of what is below the clear height looked at
    for (const geom::Hit& hit : hits) {
      const double z = from.z + hit.t;
      if (within == 0 && z - top >= opening()) return top;
      if (!solid(hit)) {
        if (within == 0) return std::nullopt;
        continue;
      }
      within += hit.normal.z > 0.0 ? -1 : 1;
      if (within == 0) top = std::max(top, z);
    }
    return within == 0 ? std::optional<double>(top) : std::nullopt;
  }

  // How many solids the ray starts inside of: it leaves that many more than it enters.
  int solids_round_start(const std::vector<geom::Hit>& hits) const {
    int depth = 0;
    int least = 0;
    for (const geom::Hit& hit : hits) {
      if (!solid(hit)) continue;
      depth += hit.normal.z > 0.0 ? -1 : 1;
      least = std::min(least, depth);
    }
    return -least;
  }

  bool solid(const geom::Hit& hit) const {
    return hit.id != kGroundId && model_.parts[static_cast<std::size_t>(hit.id)].closed;
  }

  // Does the first thing met from the sky lie on the edge or close it to less than the opening?
  bool roofed_over(Vec3 p, Vec3 beside) const {
    constexpr double kSky = 1e4;  // m
    const Vec3 from = p + beside * 5e-3 + Vec3{0.0, 0.0, kSky};
    const geom::Hit hit = model_.body_scene->first_hit({from, {0.0, 0.0, -1.0}, 0.0, 2.0 * kSky});
    if (!hit || hit.id == kGroundId) return false;
    const bool roof = model_.parts[static_cast<std::size_t>(hit.id)].kind == PartKind::roof;
    return roof && kSky - hit.t < opening();
  }

  std::string name_of(const Panel& panel) const {
    if (panel.gate >= 0) {
      const int gate = model_.gateways[static_cast<std::size_t>(panel.gate)].gate;
      return model_.site.boundary.gates[static_cast<std::size_t>(gate)].name;
    }
    return model_.site.boundary.sections[static_cast<std::size_t>(panel.section)].name;
  }

  // One patch for each kind, section and gate.
  Patch& patch_for(ExitKind kind, int section, int gate, const std::string& name, int part) {
    auto& patch = patches_[{static_cast<int>(kind), section, gate}];
    if (!patch) {
      patch = std::make_shared<Patch>();
      patch->kind = PatchKind::exit;
      patch->exit = kind;
      patch->name = name;
      patch->part = part;
    }
    return *patch;
  }

  // Pieces of an edge; `over` tells at what height a share of it is left, or nothing.
  template <class Over>
  void lay_edge(ExitKind kind, const Panel* panel, int part, Vec3 a, Vec3 b, Over over) {
    const int n = std::max(1, static_cast<int>(std::ceil(distance(a, b) / rules_.resolution)));
    for (int k = 0; k < n; ++k) {
      const double share = (k + 0.5) / n;
      const std::optional<double> height = over(share);
      if (!height) continue;
      const Vec3 middle = lerp(a, b, share);
      const Vec3 raised{0.0, 0.0, *height - middle.z};
      SurfacePiece piece;
      piece.cell.add(lerp(a, b, static_cast<double>(k) / n) + raised);
      piece.cell.add(lerp(a, b, (k + 1.0) / n) + raised);
      piece.at = middle + raised + Vec3{0.0, 0.0, kLift};
      piece.hook = true;
      const std::string name =
          panel != nullptr ? name_of(*panel) : model_.parts[static_cast<std::size_t>(part)].name;
      patch_for(kind, panel != nullptr ? panel->section : part, panel != nullptr ? panel->gate : -1,
                name, part)
          .pieces.push_back(piece);
    }
  }

  static Vec3 inwards(const Panel& panel) {
    return at_height(geom::left_of(geom::unit(panel.b - panel.a)), 0.0);
  }

  void lay_top(const Panel& panel) {
    const Vec3 a = at_height(panel.a, panel.top_a);
    const Vec3 b = at_height(panel.b, panel.top_b);
    const Vec3 in = inwards(panel);
    lay_edge(ExitKind::barrier_top, &panel, panel.part, a, b, [&](double share) {
      const Vec3 p = lerp(a, b, share);
      return roofed_over(p, in) ? std::nullopt : way_over(p, in);
    });
  }

  // A side cut square against a taller neighbour lies flush with it: nothing passes between. Seen
  // by what is beside the edge: behind the neighbour's sheet, outside the outline.
  bool shut_by(const Panel& neighbour, Vec3 p, Vec3 beside) const {
    constexpr double kBeside = 0.02;  // m
    if (geom::contains(model_.outline, xy(p) + xy(beside) * kBeside)) return false;
    const Vec2 run = neighbour.b - neighbour.a;
    const double share =
        std::clamp(dot(xy(p) - neighbour.a, run) / std::max(dot(run, run), 1e-12), 0.0, 1.0);
    return neighbour.top_a + (neighbour.top_b - neighbour.top_a) * share > p.z - kLift;
  }

  // The tip, and a side where the neighbour carries on without an overhang.
  void lay_overhang(const OverhangPanel& o, const std::vector<const OverhangPanel*>& over) {
    const Panel& panel = model_.panels[static_cast<std::size_t>(o.panel)];
    const Vec3 in = inwards(panel);
    const auto lay = [&](Vec3 base0, Vec3 base1, Vec3 edge0, Vec3 edge1, Vec3 beside,
                         const Panel* neighbour) {
      const auto over_edge = [&](double share) -> std::optional<double> {
        const Vec3 p = lerp(edge0, edge1, share);
        if (neighbour != nullptr && shut_by(*neighbour, p, beside)) return std::nullopt;
        if (roofed_over(lerp(base0, base1, share), in)) return std::nullopt;
        return way_over(p, beside);
      };
      lay_edge(ExitKind::overhang_tip, &panel, o.part, edge0, edge1, over_edge);
    };
    lay(o.base_a, o.base_b, o.tip_a, o.tip_b, in, nullptr);
    const auto n = model_.panels.size();
    const auto k = static_cast<std::size_t>(o.panel);
    const Vec3 along = at_height(geom::unit(panel.b - panel.a), 0.0);
    if (!meets(o.base_a, o.tip_a, over[(k + n - 1) % n], false)) {
      lay(o.base_a, o.base_a, o.base_a, o.tip_a, -along, &model_.panels[(k + n - 1) % n]);
    }
    if (!meets(o.base_b, o.tip_b, over[(k + 1) % n], true)) {
      lay(o.base_b, o.base_b, o.base_b, o.tip_b, along, &model_.panels[(k + 1) % n]);
    }
  }

  static bool meets(Vec3 base, Vec3 tip, const OverhangPanel* next, bool at_its_start) {
    if (next == nullptr) return false;
    const Vec3 b = at_its_start ? next->base_a : next->base_b;
    const Vec3 t = at_its_start ? next->tip_a : next->tip_b;
    constexpr double kSame = 5e-3;  // m
    return distance(base, b) < kSame && distance(tip, t) < kSame;
  }

  // Edges of the roof with one triangle whose open side lies inside the outline.
  void lay_roof(int part) {
    const geom::Mesh mesh = geom::weld(model_.parts[static_cast<std::size_t>(part)].mesh, 1e-6);
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::pair<int, Vec3>> edges;
    for (const geom::Triangle& t : mesh.triangles) {
      for (std::size_t k = 0; k < 3; ++k) {
        const auto a = t[k];
        const auto b = t[(k + 1) % 3];
        auto& edge = edges[{std::min(a, b), std::max(a, b)}];
        ++edge.first;
        edge.second = mesh.vertices[t[(k + 2) % 3]];
      }
    }
    for (const auto& [ends, edge] : edges) {
      if (edge.first != 1) continue;
      const Vec3 a = mesh.vertices[ends.first];
      const Vec3 b = mesh.vertices[ends.second];
      Vec2 out = geom::left_of(geom::unit(xy(b) - xy(a)));
      if (dot(out, xy(edge.second) - xy(a)) > 0.0) out = -out;
      constexpr double kBeside = 0.02;  // m
      lay_edge(ExitKind::roof_edge, nullptr, part, a, b,
               [&](double share) -> std::optional<double> {
                 const Vec3 p = lerp(a, b, share);
                 if (!geom::contains(model_.outline, xy(p) + out * kBeside)) return std::nullopt;
                 return way_over(p, at_height(out, 0.0));
               });
    }
  }

  const Model& model_;
  const PlaceRules& rules_;
  std::map<std::array<int, 3>, std::shared_ptr<Patch>> patches_;
};

}  // namespace

std::vector<PatchPtr> exits(const Model& model, const PlaceRules& rules) {
  return ExitSampler(model, rules).run();
}

}  // namespace hummock::leap
