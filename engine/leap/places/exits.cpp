#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "engine/barrier/barrier.h"
#include "engine/leap/places/edge_clearance.h"
#include "engine/leap/places/places.h"
#include "engine/leap/places/roof_slots.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using barrier::Stretch;
using barrier::StretchKind;
using geom::Vec2;
using geom::Vec3;

namespace {

// m; numeric, above what rays and a sheet that sags beside the edge are off by: what is as wide as
// the least opening is open at any turn.
constexpr double kByRounding = 1e-3;

class ExitSampler {
 public:
  ExitSampler(const Model& model, const PlaceRules& rules)
      : model_(model),
        rules_(rules),
        clear_(model, rules.least_opening - kByRounding),
        slots_(model, slot_opening(model, rules) - kByRounding),
        aside_(flush_within(slot_opening(model, rules), rules.resolution)),
        over_(model.panels.size(), nullptr),
        laid_(model.panels.size(), 0) {
    shelter_ = std::any_of(model.parts.begin(), model.parts.end(),
                           [&](const Part& part) { return is_shelter(model, rules, part); });
    for (const OverhangPanel& o : model.overhangs) over_[static_cast<std::size_t>(o.panel)] = &o;
  }

  WaysOut run() {
    WaysOut out;
    const barrier::Barrier barrier = barrier::barrier_of(model_);
    for (const barrier::Chain& chain : barrier.chains) {
      for (const Stretch& s : chain.stretches) out.of_stretch.push_back(walk(s));
    }
    for (auto& [key, patch] : patches_) {
      build_tree(*patch);
      out.patches.push_back(patch);
    }
    return out;
  }

 private:
  static StretchExit passed_by(NoExit why) { return {0, why}; }
  static StretchExit told(int pieces) {
    return {pieces, pieces > 0 ? NoExit::none : NoExit::closed};
  }

  // A case for every kind: a new one does not compile until it has its own.
  StretchExit walk(const Stretch& s) {
    if (s.told_elsewhere) return passed_by(NoExit::told_by_the_boundary);
    switch (s.kind) {
      case StretchKind::panel:
      case StretchKind::gate:
        return s.panel < 0 ? told(lay_open(s)) : of_panel(static_cast<std::size_t>(s.panel));
      case StretchKind::vestibule_wall:
      case StretchKind::second_gate:
        return passed_by(NoExit::behind_a_gate);
      case StretchKind::house_wall:
        return passed_by(NoExit::a_thing_of_its_own);
      case StretchKind::house_door:
        return passed_by(NoExit::leads_indoors);
      case StretchKind::roof_edge:
        return shelter_ ? passed_by(NoExit::a_thing_of_its_own) : told(lay_roof_edge(s));
    }
    return passed_by(NoExit::closed);
  }

  // A panel that other lines cut is laid whole, with its first stretch.
  StretchExit of_panel(std::size_t k) {
    if (laid_[k] != 0) return passed_by(NoExit::with_its_panel);
    laid_[k] = 1;
    return told(over_[k] != nullptr ? lay_overhang(*over_[k]) : lay_top(model_.panels[k]));
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

  // Asked for when a piece is laid: a patch without pieces is none.
  auto patch_of(ExitKind kind, const Panel& panel, int part) {
    return [this, kind, &panel, part]() -> Patch& {
      return patch_for(kind, panel.section, panel.gate, name_of(panel), part);
    };
  }

  // Where a piece of an edge is left: at a share of the edge, and how far above it, m.
  struct Left {
    double share, raised;
  };

  // Of piece k of n of the edge. It counts whole where any of the points tried on it is left, at
  // the least height: its middle and its ends, so that what opens within a piece (a mitre's side
  // beside a taller sheet) is not left out up to the next one. The ends of the edge itself, which
  // may lie in the plane of another sheet, are not tried.
  template <class Over>
  static std::optional<Left> left_at(Vec3 a, Vec3 b, int k, int n, const Over& over) {
    std::optional<Left> least;
    const double middle = (k + 0.5) / n;
    for (const double at : {k + 0.5, k + 0.0, k + 1.0}) {
      if (at <= 0.0 || at >= n) continue;
      const double share = at / n;
      const std::optional<double> height = over(share, middle);
      if (!height) continue;
      const double raised = *height - lerp(a, b, share).z;
      if (!least || raised < least->raised - kLift) least = Left{share, raised};
      if (least->raised <= 0.0) break;
    }
    return least;
  }

  // Pieces of an edge; `over` tells at what height a share of it is left, or nothing, and is given
  // the middle of the piece as well. Returns how many were laid.
  template <class PatchOf, class Over>
  int lay_edge(const PatchOf& patch, Vec3 a, Vec3 b, const Over& over) {
    const int n = std::max(1, static_cast<int>(std::ceil(distance(a, b) / rules_.resolution)));
    int laid = 0;
    for (int k = 0; k < n; ++k) {
      const std::optional<Left> left = left_at(a, b, k, n, over);
      if (!left) continue;
      const Vec3 raised{0.0, 0.0, left->raised};
      SurfacePiece piece;
      piece.cell.add(lerp(a, b, static_cast<double>(k) / n) + raised);
      piece.cell.add(lerp(a, b, (k + 1.0) / n) + raised);
      piece.at = lerp(a, b, left->share) + raised + Vec3{0.0, 0.0, kLift};
      piece.hook = true;
      patch().pieces.push_back(piece);
      ++laid;
    }
    return laid;
  }

  static Vec3 inwards(const Panel& panel) {
    return at_height(geom::left_of(geom::unit(panel.b - panel.a)), 0.0);
  }

  int lay_top(const Panel& panel) {
    const Vec3 a = at_height(panel.a, panel.top_a);
    const Vec3 b = at_height(panel.b, panel.top_b);
    const Vec3 in = inwards(panel);
    return lay_edge(patch_of(ExitKind::barrier_top, panel, panel.part), a, b,
                    [&](double share, double middle) -> std::optional<double> {
                      const Vec3 p = lerp(a, b, share);
                      if (clear_.roofed_over(p, in) || slot_at_top(a, b, middle, in))
                        return std::nullopt;
                      return clear_.way_over(p, in);
                    });
  }

  // A slot beside the edge is too narrow where it is so all along the piece, but for its very ends,
  // which may lie in the plane of another sheet.
  template <class Narrow>
  bool narrow_along(Vec3 a, Vec3 b, double share, const Narrow& narrow) const {
    const double half = 0.45 * rules_.resolution / std::max(distance(a, b), rules_.resolution);
    for (const double at : {share, share - half, share + half}) {
      if (!narrow(lerp(a, b, std::clamp(at, 0.0, 1.0)))) return false;
    }
    return true;
  }
  bool slot_at_top(Vec3 a, Vec3 b, double share, Vec3 in) const {
    return narrow_along(a, b, share, [&](Vec3 p) { return slots_.narrow_at_top(p, xy(in)); });
  }
  bool slot_at_rim(Vec3 a, Vec3 b, double share, Vec2 out) const {
    return narrow_along(a, b, share, [&](Vec3 p) { return slots_.narrow_at_rim(p, out); });
  }

  // An edge of the boundary on which nothing stands: walked out over.
  int lay_open(const Stretch& s) {
    const Vec3 in = at_height(geom::left_of(geom::unit(s.b - s.a)), 0.0);
    const Vec3 a = at_height(s.a, s.top_a);
    const Vec3 b = at_height(s.b, s.top_b);
    const auto patch = [this]() -> Patch& {
      return patch_for(ExitKind::barrier_top, -1, -1, "an open side", -1);
    };
    return lay_edge(patch, a, b,
                    [&](double share, double) { return clear_.way_over(lerp(a, b, share), in); });
  }

  static double flush_within(double opening, double resolution) {
    return std::min({0.02, 0.4 * resolution, std::max(opening - kByRounding, kByRounding)});
  }

  // A side cut square against a taller neighbour lies flush with it: nothing passes between. Seen
  // by what is beside the edge: behind the neighbour's sheet, outside the outline. Any other side
  // drifts away from that sheet and leaves a wedge between them, which is open down to its very
  // tip: looked at nearer than what is stepped across (half a resolution, links.h), so that what
  // hangs on the sheet steps on to the side where it opens. What is nowhere as wide as this is
  // taken to be flush; the least opening of the animal is never taken to be.
  bool shut_by(const Panel& neighbour, Vec3 p, Vec3 beside) const {
    if (geom::contains(model_.outline, xy(p) + xy(beside) * aside_)) return false;
    return rises_beside(neighbour, p);
  }

  static bool rises_beside(const Panel& neighbour, Vec3 p) {
    const Vec2 run = neighbour.b - neighbour.a;
    const double share =
        std::clamp(dot(xy(p) - neighbour.a, run) / std::max(dot(run, run), 1e-12), 0.0, 1.0);
    return neighbour.top_a + (neighbour.top_b - neighbour.top_a) * share > p.z - kLift;
  }

  // Up to which share of a side that begins at the neighbour's sheet a wedge is open below: the
  // farthest that is beside the sheet and not flush with it. 0 = none.
  double wedge_beside(const Panel& neighbour, Vec3 base, Vec3 tip, Vec3 beside) const {
    constexpr int kLooks = 64;
    for (int k = kLooks - 1; k > 0; --k) {
      const double share = static_cast<double>(k) / kLooks;
      const Vec3 p = lerp(base, tip, share);
      if (rises_beside(neighbour, p) && !shut_by(neighbour, p, beside)) return share;
    }
    return 0.0;
  }

  // The tip, and a side where the neighbour carries on without an overhang.
  int lay_overhang(const OverhangPanel& o) {
    const Panel& panel = model_.panels[static_cast<std::size_t>(o.panel)];
    const Vec3 in = inwards(panel);
    int laid = 0;
    const auto lay = [&](Vec3 base0, Vec3 base1, Vec3 edge0, Vec3 edge1, Vec3 beside,
                         const Panel* neighbour) {
      const double wedge =
          neighbour != nullptr ? wedge_beside(*neighbour, edge0, edge1, beside) : 0.0;
      const auto over_edge = [&](double share, double) -> std::optional<double> {
        const Vec3 p = lerp(edge0, edge1, share);
        if (neighbour != nullptr && share > wedge && shut_by(*neighbour, p, beside))
          return std::nullopt;
        if (clear_.roofed_over(lerp(base0, base1, share), in)) return std::nullopt;
        return clear_.way_over(p, beside);
      };
      laid += lay_edge(patch_of(ExitKind::overhang_tip, panel, o.part), edge0, edge1, over_edge);
    };
    lay(o.base_a, o.base_b, o.tip_a, o.tip_b, in, nullptr);
    const auto n = model_.panels.size();
    const auto k = static_cast<std::size_t>(o.panel);
    const Vec3 along = at_height(geom::unit(panel.b - panel.a), 0.0);
    if (!meets(o.base_a, o.tip_a, over_[(k + n - 1) % n], false)) {
      lay(o.base_a, o.base_a, o.base_a, o.tip_a, -along, &model_.panels[(k + n - 1) % n]);
    }
    if (!meets(o.base_b, o.tip_b, over_[(k + 1) % n], true)) {
      lay(o.base_b, o.base_b, o.base_b, o.tip_b, along, &model_.panels[(k + 1) % n]);
    }
    return laid;
  }

  static bool meets(Vec3 base, Vec3 tip, const OverhangPanel* next, bool at_its_start) {
    if (next == nullptr) return false;
    const Vec3 b = at_its_start ? next->base_a : next->base_b;
    const Vec3 t = at_its_start ? next->tip_a : next->tip_b;
    constexpr double kSame = 5e-3;  // m
    return distance(base, b) < kSame && distance(tip, t) < kSame;
  }

  // A free edge of the roof whose open side lies inside the outline.
  int lay_roof_edge(const Stretch& s) {
    const Vec3 a = at_height(s.a, s.top_a);
    const Vec3 b = at_height(s.b, s.top_b);
    const Vec2 out = -geom::left_of(geom::unit(s.b - s.a));
    const std::string& name = model_.parts[static_cast<std::size_t>(s.part)].name;
    const auto patch = [this, &name, &s]() -> Patch& {
      return patch_for(ExitKind::roof_edge, s.part, -1, name, s.part);
    };
    constexpr double kBeside = 0.02;  // m
    return lay_edge(patch, a, b, [&](double share, double middle) -> std::optional<double> {
      const Vec3 p = lerp(a, b, share);
      if (!geom::contains(model_.outline, xy(p) + out * kBeside)) return std::nullopt;
      if (slot_at_rim(a, b, middle, out)) return std::nullopt;
      return clear_.way_over(p, at_height(out, 0.0));
    });
  }

  const Model& model_;
  const PlaceRules& rules_;
  EdgeClearance clear_;
  RoofSlots slots_;
  double aside_;                            // m, see shut_by
  bool shelter_ = false;                    // the roof is one
  std::vector<const OverhangPanel*> over_;  // by panel
  std::vector<char> laid_;                  // by panel
  std::map<std::array<int, 3>, std::shared_ptr<Patch>> patches_;
};

}  // namespace

WaysOut ways_out(const Model& model, const PlaceRules& rules) {
  return ExitSampler(model, rules).run();
}

std::vector<PatchPtr> exits(const Model& model, const PlaceRules& rules) {
  return ways_out(model, rules).patches;
}

}  // namespace hummock::leap
