#include "engine/shade/cast/near_shadows.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/shade/cast/fast_exp.h"

namespace hummock::shade {

void NearShadows::lay_out(const std::vector<Caster>& casters, const std::vector<Pieces>& pieces,
                          const std::vector<bool>& heavy, const geom::Box3& box, const SunRay& sun,
                          const sun::Date& date, std::span<const int> near) {
  sun_ = sun;
  ref_ = box.lo;  // the same whatever stands on the ground: so are all roundings
  points_.clear(), opaque_.clear(), sheets_.clear(), sides_.clear(), planes_.clear();
  feet_.clear(), crowns_.clear(), leaves_.clear(), heavy_.clear();
  if (!sun.up) return;
  const RunRange run{sun.run, sun.run};
  const Vec2 along = unit(sun.run);
  for (const int id : near) {
    const auto k = static_cast<std::size_t>(id);
    const Caster& c = casters[k];
    if (heavy[k]) {
      heavy_.push_back(id);
      continue;
    }
    const auto per_metre =
        static_cast<float>(c.kind == CasterKind::volume ? extinction(c, date) : 0.0);
    if (c.round) {
      crowns_.push_back({RoundShade(*c.round, sun, ref_), per_metre});
      continue;
    }
    for (const int p : pieces[k].near.near(box, run, along)) {
      first_ = points_.size();
      const Piece& piece = pieces[k].all[static_cast<std::size_t>(p)];
      place_points(piece);
      if (piece.kind == PieceKind::leaves) {
        leaves_.push_back({&piece, first_, per_metre, id});
        continue;
      }
      add(c, piece);
      points_.resize(first_);
    }
  }
}

void NearShadows::place_points(const Piece& piece) {
  for (const Vec3& v : piece.points) {
    const double z = v.z - ref_.z;
    points_.push_back({static_cast<float>(v.x - ref_.x - z * sun_.run.x),
                       static_cast<float>(v.y - ref_.y - z * sun_.run.y), static_cast<float>(z)});
  }
}

void NearShadows::add(const Caster& c, const Piece& piece) {
  if (piece.kind == PieceKind::solid) return add_solid(piece);
  if (piece.kind == PieceKind::curtain) return add_curtain(c, piece);
  for (const PieceFace& f : piece.faces) {
    // Every line that meets a closed solid leaves it through a face that looks to the sun.
    const bool away = dot(f.normal, sun_.towards) <= 0.0;
    if (c.closed && c.kind == CasterKind::opaque && away) continue;
    add_face(c, piece, f);
  }
}

NearShadows::Shape NearShadows::begin_shape() const {
  Shape s;
  s.x0 = s.y0 = s.z_low = 1e30F;
  s.x1 = s.y1 = s.z_high = -1e30F;
  s.side = sides_.size();
  s.plane = planes_.size();
  return s;
}

void NearShadows::widen(Shape& s, ShadowPoint p) const {
  s.x0 = std::min(s.x0, p.x);
  s.x1 = std::max(s.x1, p.x);
  s.y0 = std::min(s.y0, p.y);
  s.y1 = std::max(s.y1, p.y);
  s.z_low = std::min(s.z_low, p.z);
  s.z_high = std::max(s.z_high, p.z);
}

// Over shadow coordinates q the plane n·p = d stands at z, where n·(q + z·run, z) = d. Lowered so
// far that what lies within kOwn of a node does not shade it.
void NearShadows::add_plane(Vec3 through, Vec3 n) {
  const double rises = n.x * sun_.run.x + n.y * sun_.run.y + n.z;
  const double z0 = dot(n, through - ref_) / rises - kOwn / std::abs(rises);
  planes_.push_back(
      {static_cast<float>(z0), static_cast<float>(-n.x / rises), static_cast<float>(-n.y / rises)});
}

void NearShadows::keep(std::vector<Shape>& to, Shape shape) {
  shape.sides = sides_.size() - shape.side;
  shape.planes = planes_.size() - shape.plane;
  to.push_back(shape);
}

// Nothing of one seen edge-on.
void NearShadows::add_face(const Caster& c, const Piece& piece, const PieceFace& face) {
  const std::uint32_t* corner = &piece.corners[face.first];
  const auto at = [&](std::uint32_t k) { return points_[first_ + corner[k % face.count]]; };
  double area = 0.0;
  const ShadowPoint o = at(0);
  for (std::uint32_t k = 1; k + 1 < face.count; ++k) {
    const ShadowPoint p = at(k), q = at(k + 1);
    area += (double{p.x} - o.x) * (double{q.y} - o.y) - (double{p.y} - o.y) * (double{q.x} - o.x);
  }
  if (area == 0.0 || dot(face.normal, sun_.towards) == 0.0) return;
  Shape s = begin_shape();
  for (std::uint32_t k = 0; k < face.count; ++k) {
    widen(s, at(k));
    sides_.push_back(shadow_side(at(k), at(k + 1), area > 0.0));
  }
  add_plane(piece.points[corner[0]], face.normal);
  const bool sheet = c.kind == CasterKind::sheet;
  if (sheet) s.factor = static_cast<float>(sheet_transmittance(c, face.normal, sun_.towards));
  keep(sheet ? sheets_ : opaque_, s);
}

// The sides between faces that look to the sun and faces that do not; below all of the former.
void NearShadows::add_solid(const Piece& piece) {
  Shape s = begin_shape();
  const auto looks = [&](const PieceFace& f) { return dot(f.normal, sun_.towards) > 0.0; };
  for (const PieceFace& f : piece.faces) {
    if (!looks(f)) continue;
    for (std::uint32_t k = 0; k < f.count; ++k) {
      const std::uint32_t here = f.first + k, next = f.first + (k + 1) % f.count;
      const ShadowPoint p = points_[first_ + piece.corners[here]];
      widen(s, p);
      if (!looks(piece.faces[static_cast<std::size_t>(piece.beside[here])]))
        sides_.push_back(shadow_side(p, points_[first_ + piece.corners[next]], true));
    }
    add_plane(piece.points[piece.corners[f.first]], f.normal);
  }
  if (planes_.size() == s.plane) return;
  // The long ones first: they soonest tell a tile beside it.
  std::stable_sort(sides_.begin() + static_cast<long>(s.side), sides_.end(),
                   [](const ShadowSide& a, const ShadowSide& b) {
                     return std::abs(a.dx) + std::abs(a.dy) > std::abs(b.dx) + std::abs(b.dy);
                   });
  keep(opaque_, s);
}

void NearShadows::add_curtain(const Caster& c, const Piece& piece) {
  const std::size_t before = sides_.size();
  std::vector<Shape>& to = c.kind == CasterKind::sheet ? sheets_ : opaque_;
  const std::size_t count = to.size();
  add_face(c, piece, piece.faces.front());
  if (to.size() == count || piece.foot.empty()) return;
  Shape& s = to.back();
  // The foot stands for the side from corner 0 to 1.
  sides_.erase(sides_.begin() + static_cast<long>(before));
  --s.sides;
  const double start = dot(piece.along, xy(ref_));
  std::vector<std::array<float, 2>> foot;
  for (const Vec2 f : piece.foot) {
    foot.push_back({static_cast<float>(f.x - start), static_cast<float>(f.y - ref_.z)});
    const Vec3 v = piece.points[0] + at_height(piece.along * (f.x - piece.foot[0].x), 0.0);
    const double z = f.y - ref_.z;
    widen(s, {static_cast<float>(v.x - ref_.x - z * sun_.run.x),
              static_cast<float>(v.y - ref_.y - z * sun_.run.y), static_cast<float>(z)});
  }
  s.foot = feet_.size();
  feet_.push_back(std::move(foot));
  const ShadowPlane& p = planes_[s.plane];
  const double on = dot(piece.along, sun_.run);
  s.way = static_cast<float>(on * p.z0);
  s.way_x = static_cast<float>(piece.along.x + on * p.zx);
  s.way_y = static_cast<float>(piece.along.y + on * p.zy);
}

// What the shadows do to one tile.
class NearShadows::Over {
 public:
  Over(const NearShadows& near, const Tile& tile, TileBeam& beam)
      : near_(near), tile_(tile), beam_(beam) {
    const Vec3 lo = tile.box.lo - near.ref_, hi = tile.box.hi - near.ref_;
    const Vec2 run = near.sun_.run;
    x0_ = static_cast<float>(lo.x - std::max(lo.z * run.x, hi.z * run.x)) - kSure;
    x1_ = static_cast<float>(hi.x - std::min(lo.z * run.x, hi.z * run.x)) + kSure;
    y0_ = static_cast<float>(lo.y - std::max(lo.z * run.y, hi.z * run.y)) - kSure;
    y1_ = static_cast<float>(hi.y - std::min(lo.z * run.y, hi.z * run.y)) + kSure;
    z0_ = static_cast<float>(lo.z) - kSure;
  }

  // False when the tile is dark.
  bool shapes(const std::vector<Shape>& all) {
    for (const Shape& s : all) {
      if (s.x0 > x1_ || s.x1 < x0_ || s.y0 > y1_ || s.y1 < y0_ || s.z_high < z0_) continue;
      const Touch t = touch(s);
      if (t == Touch::none) continue;
      if (t == Touch::part) {
        spread(beam_);
        scan_shape(*nodes_, shape_, s.factor, beam_.each.data());
        scanned_ = true;
        continue;
      }
      multiply(beam_, s.factor);
      if (s.factor <= 0.0F) return make_dark(beam_), false;
    }
    return !scanned_ || !all_dark(beam_);
  }

  void crowns() {
    bool any = false;
    alignas(32) std::array<float, kTileNodes> depth;
    for (const Crown& c : near_.crowns_) {
      if (!c.shade.may_meet(tile_)) continue;
      if (!any) depth.fill(0.0F);
      any = true;
      c.shade.deepen(tile_, c.extinction, depth.data());
    }
    if (!any) return;
    spread(beam_);
    fade(depth.data(), beam_.each.data(), kTileNodes);
  }

  void leaves() {
    const auto& all = near_.leaves_;
    for (std::size_t first = 0, last = 0; first < all.size(); first = last) {
      alignas(32) std::array<float, kTileNodes> rise{};
      bool any = false;
      for (; last < all.size() && all[last].caster == all[first].caster; ++last)
        any = add_rises(all[last], rise) || any;
      if (!any) continue;
      spread(beam_);
      const auto per_rise = static_cast<float>(all[first].extinction * near_.sun_.slant);
      for (std::size_t k = 0; k < kTileNodes; ++k)
        if (rise[k] > 0.0F && beam_.each[k] > 0.0F) beam_.each[k] *= std::exp(-per_rise * rise[k]);
    }
  }

 private:
  static constexpr float kSure = 1e-4F;  // m

  void need_nodes() {
    if (!nodes_) nodes_ = shadow_nodes(tile_, near_.sun_, near_.ref_);
  }

  // Which of its sides and planes the tile cannot do without.
  Touch touch(const Shape& s) {
    need_nodes();
    const ShadowNodes& n = *nodes_;
    if (s.x0 > n.x1 || s.x1 < n.x0 || s.y0 > n.y1 || s.y1 < n.y0) return Touch::none;
    shape_.sides = shape_.planes = 0;
    for (std::size_t k = 0; k < s.sides; ++k) {
      const ShadowSide& side = near_.sides_[s.side + k];
      const Touch t = beside(n, side);
      if (t == Touch::none) return Touch::none;
      if (t == Touch::part) shape_.side[shape_.sides++] = &side;
    }
    shape_.foot = foot(s);
    for (std::size_t k = 0; k < s.planes; ++k) {
      const ShadowPlane& p = near_.planes_[s.plane + k];
      if (shape_.foot != nullptr || std::max(lowest(p), s.z_low) <= n.z_top + kSure)
        shape_.plane[shape_.planes++] = &p;
    }
    if (shape_.sides + shape_.planes == 0) return Touch::whole;
    shape_.x0 = s.x0, shape_.x1 = s.x1, shape_.y0 = s.y0, shape_.y1 = s.y1;
    shape_.z_low = s.z_low, shape_.z_high = s.z_high;
    shape_.way = s.way, shape_.way_x = s.way_x, shape_.way_y = s.way_y;
    return Touch::part;
  }

  float lowest(const ShadowPlane& p) const {
    const ShadowNodes& n = *nodes_;
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

  bool add_rises(const Leaves& l, std::array<float, kTileNodes>& rise) {
    need_nodes();
    bool any = false;
    for (const PieceFace& f : l.piece->faces) {
      const std::uint32_t* c = &l.piece->corners[f.first];
      const ShadowPoint *p = &near_.points_[l.point], &a = p[c[0]], &b = p[c[1]], &d = p[c[2]];
      if (shade::touch(*nodes_, a, b, d, triangle_) == Touch::none) continue;
      // Which way it looks, by the same numbers that say which nodes lie under it: in shadow
      // coordinates a triangle that looks to the sun keeps its winding.
      const bool to_sun =
          (double{b.x} - a.x) * (double{d.y} - a.y) - (double{b.y} - a.y) * (double{d.x} - a.x) >
          0.0;
      scan_height(*nodes_, triangle_, to_sun ? 1.0F : -1.0F, rise.data());
      any = true;
    }
    return any;
  }

  std::optional<ShadowNodes> nodes_;
  ShadowShape shape_;
  ShadowTriangle triangle_{};
  const NearShadows& near_;
  const Tile& tile_;
  TileBeam& beam_;
  float x0_, x1_, y0_, y1_, z0_;  // box of the tile's shadow coordinates; its lowest node
  bool scanned_ = false;
};

bool NearShadows::darken(const Tile& tile, TileBeam& beam) const {
  if (opaque_.empty() && sheets_.empty() && crowns_.empty() && leaves_.empty()) return true;
  Over over(*this, tile, beam);
  if (!over.shapes(opaque_) || !over.shapes(sheets_)) return false;
  over.crowns();
  over.leaves();
  return true;
}

}  // namespace hummock::shade
