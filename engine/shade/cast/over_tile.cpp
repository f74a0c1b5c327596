// What the shadows laid out do to one tile.
#include <algorithm>
#include <bit>
#include <cmath>

#include "engine/shade/cast/fast_exp.h"
#include "engine/shade/cast/near_shadows.h"

namespace hummock::shade {

class NearShadows::Over {
 public:
  // What it writes before it reads; kept, so that none of it is cleared for each tile.
  struct Desk {
    std::vector<std::uint32_t> hits;
    ShadowNodes nodes;
    ShadowShape shape;
  };
  Over(const NearShadows& near, const Tile& tile, TileBeam& beam, Desk& desk)
      : near_(near),
        tile_(tile),
        beam_(beam),
        hits_(desk.hits),
        nodes_(desk.nodes),
        shape_(desk.shape),
        shaded_(shaded_box(tile.box, near.ref_, near.sun_, near.across_)) {}

  // False when the tile is dark.
  bool shapes(const std::vector<Shape>& all, const ShadowBoxes& boxes) {
    for (const std::uint32_t k : boxes.meeting(shaded_, hits_)) {
      const Shape& s = all[k];
      if (s.eight != kNone) {
        if (!faces(near_.eights_[s.eight])) return false;
        continue;
      }
      const Touch t = touch(s);
      if (t == Touch::none) continue;
      if (t == Touch::part) {
        spread(beam_);
        lit_ &= ~scan_shape(nodes_, shape_, near_runs_, s.factor, beam_.each.data());
        scanned_ = true;
        continue;
      }
      multiply(beam_, s.factor);
      if (s.factor <= 0.0F) return make_dark(beam_), false;
    }
    return !scanned_ || !all_dark(beam_);
  }

  // Depths add up first, in the crowns' order. Runs of nodes without light stay so.
  void crowns() {
    const auto hits = near_.crown_boxes_.meeting(shaded_, hits_);
    if (hits.empty()) return;
    need_nodes();
    std::uint32_t any = 0;
    alignas(32) std::array<float, kTileNodes> depth;
    for (const std::uint32_t k : hits) {
      const Crown& c = near_.crowns_[k];
      const std::uint32_t runs = c.shade.runs(nodes_) & lit_;
      if (runs == 0) continue;
      if (any == 0) depth.fill(0.0F);
      any |= runs;
      c.shade.deepen(tile_, runs, c.extinction, depth.data());
    }
    if (any == 0) return;
    spread(beam_);
    // Nothing of the rest: e to the power nothing is 1.
    const auto first = static_cast<std::size_t>(std::countr_zero(any)) * ShadowNodes::kRun;
    const auto count = static_cast<std::size_t>(std::bit_width(any)) * ShadowNodes::kRun - first;
    fade(&depth[first], &beam_.each[first], count);
  }

  void leaves() {
    const auto hits = near_.leaf_triangles_.meeting(shaded_, hits_);
    if (hits.empty()) return;
    need_nodes();
    LeafRuns runs;
    runs.lit = lit_;
    set_lowest(nodes_, runs);
    auto of = near_.leaves_.begin();
    for (auto at = hits.begin(); at != hits.end();) {
      while (of->last <= *at) ++of;
      alignas(32) std::array<float, kTileNodes> rise{};
      bool any = false;
      for (; at != hits.end() && *at < of->last; ++at)
        any = near_.leaf_triangles_.scan(*at, nodes_, runs, rise.data()) || any;
      if (!any) continue;
      spread(beam_);
      const auto per_rise = static_cast<float>(of->extinction * near_.sun_.slant);
      for (std::size_t k = 0; k < kTileNodes; ++k)
        if (rise[k] > 0.0F && beam_.each[k] > 0.0F) beam_.each[k] *= std::exp(-per_rise * rise[k]);
    }
  }

 private:
  static constexpr float kSure = 1e-4F;  // m

  // A bit for each run of nodes of which some get light.
  std::uint32_t lit_runs() const {
    if (beam_.uniform) return beam_.value > 0.0F ? ~std::uint32_t{0} : 0;
    static_assert(ShadowNodes::kRuns == 32);
    std::uint32_t lit = 0;
    for (std::size_t k = 0; k < kTileNodes; ++k)
      if (beam_.each[k] > 0.0F) {
        lit |= std::uint32_t{1} << k / ShadowNodes::kRun;
        k |= ShadowNodes::kRun - 1;
      }
    return lit;
  }

  void need_nodes() {
    if (laid_) return;
    laid_ = true;
    shadow_nodes(tile_, near_.sun_, near_.ref_, nodes_);
    lit_ = lit_runs();
  }

  // False when the tile is dark.
  bool faces(const EightFaces& eight) {
    const std::uint32_t which = faces_meeting(eight, shaded_);
    if (which == 0) return true;
    need_nodes();
    return take_faces(eight, which, nodes_, lit_, beam_, scanned_);
  }

  // Which of its sides and planes the tile cannot do without.
  Touch touch(const Shape& s) {
    need_nodes();
    const ShadowNodes& n = nodes_;
    const ShadowBox& b = s.box;
    if (b.x0 > n.x1 || b.x1 < n.x0 || b.y0 > n.y1 || b.y1 < n.y0) return Touch::none;
    if (!set_sides_asked(n, near_.sides_.data() + s.side, s.sides, shape_)) return Touch::none;
    // Of a boulder's many small faces most fall between the nodes.
    // Where no light is left there is nothing to take.
    near_runs_ = runs_near(n, b) & lit_;
    if (near_runs_ == 0) return Touch::none;
    shape_.planes = 0;
    shape_.foot = foot(s);
    for (std::size_t k = 0; k < s.planes; ++k) {
      const ShadowPlane& p = near_.planes_[s.plane + k];
      if (shape_.foot != nullptr || std::max(lowest(p), s.z_low) <= n.z_top + kSure)
        shape_.plane[shape_.planes++] = &p;
    }
    if (shape_.sides + shape_.planes == 0) return Touch::whole;
    shape_.z_low = s.z_low, shape_.z_high = b.z_high;
    shape_.way = s.way, shape_.way_x = s.way_x, shape_.way_y = s.way_y;
    return Touch::part;
  }

  float lowest(const ShadowPlane& p) const {
    const ShadowNodes& n = nodes_;
    return p.z0 + std::min(p.zx * n.x0, p.zx * n.x1) + std::min(p.zy * n.y0, p.zy * n.y1);
  }

  // Nothing where every node's line passes over the highest of it.
  const std::vector<std::array<float, 2>>* foot(const Shape& s) const {
    if (s.foot == kNone) return nullptr;
    const auto& foot = near_.feet_[s.foot];
    float highest = -1e30F;
    for (const auto& f : foot) highest = std::max(highest, f[1]);
    return lowest(near_.planes_[s.plane]) > highest + kSure ? nullptr : &foot;
  }

  const NearShadows& near_;
  const Tile& tile_;
  TileBeam& beam_;
  std::vector<std::uint32_t>& hits_;
  ShadowNodes& nodes_;
  ShadowShape& shape_;
  ShadedBox shaded_;
  std::uint32_t near_runs_ = 0;  // of the shape at hand
  std::uint32_t lit_ = 0;        // runs of nodes_ of which some may have light
  bool laid_ = false;            // nodes_
  bool scanned_ = false;
};

bool NearShadows::darken(const Tile& tile, TileBeam& beam) const {
  if (opaque_.empty() && sheets_.empty() && crowns_.empty() && leaves_.empty()) return true;
  thread_local Over::Desk desk;
  Over over(*this, tile, beam, desk);
  if (!over.shapes(opaque_, opaque_boxes_) || !over.shapes(sheets_, sheet_boxes_)) return false;
  over.crowns();
  over.leaves();
  return true;
}

}  // namespace hummock::shade
