#include "engine/shade/cast/near_shadows.h"

#include <algorithm>
#include <bit>
#include <bitset>
#include <cmath>
#include <optional>

#include "engine/shade/beam/may_shade.h"

namespace hummock::shade {

void NearShadows::lay_out(const std::vector<Caster>& casters, const std::vector<Pieces>& pieces,
                          const std::vector<bool>& heavy, const geom::Box3& box, const SunRay& sun,
                          const sun::Date& date, std::span<const int> near) {
  sun_ = sun;
  ref_ = box.lo;  // the same whatever stands on the ground: so are all roundings
  points_.clear(), opaque_.clear(), sheets_.clear(), sides_.clear(), planes_.clear();
  feet_.clear(), crowns_.clear(), leaves_.clear(), heavy_.clear(), crown_boxes_.clear();
  leaf_triangles_.clear(), eights_.clear();
  if (!sun.up) return;
  const RunRange run{sun.run, sun.run};
  const Vec2 along = unit(sun.run);
  across_ = {-along.y, along.x};
  shaded_ = shaded_box(box, ref_, sun, across_);
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
      add_crown(c, per_metre);
      continue;
    }
    // A lone piece stands where its caster does.
    if (pieces[k].all.size() == 1)
      near_.assign(1, 0);
    else
      pieces[k].near.near(box, run, along, near_);
    for (const int p : near_) {
      const Piece& piece = pieces[k].all[static_cast<std::size_t>(p)];
      place_points(piece);
      piece.kind == PieceKind::leaves ? add_leaves(piece) : add(c, piece);
    }
    c.kind == CasterKind::volume ? close_leaves(per_metre) : close_eight(c);
  }
  set_boxes(opaque_, opaque_boxes_);
  set_boxes(sheets_, sheet_boxes_);
}

void NearShadows::set_boxes(const std::vector<Shape>& of, ShadowBoxes& boxes) {
  boxes.clear();
  for (const Shape& s : of) boxes.add(s.box);
}

// float32 about a crown is good to less than a hundredth of its size (round_shade.h).
void NearShadows::add_crown(const Caster& c, float per_metre) {
  crowns_.push_back({RoundShade(*c.round, sun_, ref_), per_metre});
  ShadowBox box = crowns_.back().shade.box();
  box.z_high = static_cast<float>(c.box.hi.z - ref_.z + 0.01);
  crown_boxes_.add(box);
}

void NearShadows::place_points(const Piece& piece) {
  points_.resize(piece.points.size());
  ShadowPoint* to = points_.data();
  for (const Vec3& v : piece.points) {
    const double z = v.z - ref_.z;
    *to++ = {static_cast<float>(v.x - ref_.x - z * sun_.run.x),
             static_cast<float>(v.y - ref_.y - z * sun_.run.y), static_cast<float>(z)};
  }
}

void NearShadows::add_leaves(const Piece& piece) {
  for (const PieceFace& f : piece.faces) {
    const std::uint32_t* c = &piece.corners[f.first];
    leaf_triangles_.add(points_[c[0]], points_[c[1]], points_[c[2]], shaded_);
  }
}

void NearShadows::close_leaves(float per_metre) {
  leaf_triangles_.close(shaded_);
  leaves_.push_back({leaf_triangles_.eights(), per_metre});
}

void NearShadows::add(const Caster& c, const Piece& piece) {
  if (piece.kind == PieceKind::solid) return add_solid(piece);
  if (piece.kind == PieceKind::curtain) return close_eight(c), add_curtain(c, piece);
  const bool many = piece.faces.size() >= kWide / 2;  // fewer are as well looked at one by one
  for (const PieceFace& f : piece.faces) {
    // Every line that meets a closed solid leaves it through a face that looks to the sun.
    const bool away = dot(f.normal, sun_.towards) <= 0.0;
    if (c.closed && c.kind == CasterKind::opaque && away) continue;
    if (many && f.count <= 4) {
      add_to_eight(piece, f);
      if (waiting_.count == kWide) close_eight(c);
      continue;
    }
    close_eight(c);  // sheets take from the beam in their order
    add_face(c, piece, f);
  }
}

void NearShadows::add_to_eight(const Piece& piece, const PieceFace& face) {
  if (dot(face.normal, sun_.towards) == 0.0) return;
  const std::uint32_t k = waiting_.count++;
  const std::uint32_t* corner = &piece.corners[face.first];
  for (std::uint32_t i = 0; i < 4; ++i) {
    const ShadowPoint& p = points_[corner[i < face.count ? i : 0]];
    waiting_.corner[i][0][k] = p.x;
    waiting_.corner[i][1][k] = p.y;
    waiting_.corner[i][2][k] = p.z;
  }
  const Vec3& through = piece.points[corner[0]];
  waiting_.through[0][k] = through.x, waiting_.normal[0][k] = face.normal.x;
  waiting_.through[1][k] = through.y, waiting_.normal[1][k] = face.normal.y;
  waiting_.through[2][k] = through.z, waiting_.normal[2][k] = face.normal.z;
  waiting_.four |= face.count == 4 ? std::uint32_t{1} << k : 0;
}

// Panels of one roof often lie alike: what the last one passes the next need not be asked.
void NearShadows::set_factors(const Caster& c, std::uint32_t met, EightFaces& faces) const {
  std::optional<Vec3> known;
  float passes = 0;
  for (; met != 0; met &= met - 1) {
    const auto k = static_cast<std::size_t>(std::countr_zero(met));
    const Vec3 normal{waiting_.normal[0][k], waiting_.normal[1][k], waiting_.normal[2][k]};
    if (!known || *known != normal)
      passes = static_cast<float>(sheet_transmittance(c, normal, sun_.towards));
    known = normal;
    faces.factor[k] = passes;
  }
}

void NearShadows::close_eight(const Caster& c) {
  if (waiting_.count == 0) return;
  EightFaces& faces = eights_.emplace_back();
  set_up(waiting_, {ref_, sun_.run, across_}, kOwn, faces);
  waiting_.count = waiting_.four = 0;
  const std::uint32_t met = faces_meeting(faces, shaded_);
  if (met == 0) return eights_.pop_back();
  const bool sheet = c.kind == CasterKind::sheet;
  if (sheet) set_factors(c, met, faces);
  Shape s = begin_shape();
  s.eight = eights_.size() - 1;
  s.box = box_of(faces.box);
  keep(sheet ? sheets_ : opaque_, s);
}

NearShadows::Shape NearShadows::begin_shape() const {
  Shape s;
  s.z_low = 1e30F;
  s.side = sides_.size();
  s.plane = planes_.size();
  return s;
}

void NearShadows::widen(Shape& s, ShadowPoint p) const {
  ShadowBox& b = s.box;
  b.x0 = std::min(b.x0, p.x);
  b.x1 = std::max(b.x1, p.x);
  b.y0 = std::min(b.y0, p.y);
  b.y1 = std::max(b.y1, p.y);
  const auto across = static_cast<float>(across_.x * p.x + across_.y * p.y);
  b.across0 = std::min(b.across0, across);
  b.across1 = std::max(b.across1, across);
  s.z_low = std::min(s.z_low, p.z);
  b.z_high = std::max(b.z_high, p.z);
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
  shape.planes = planes_.size() - shape.plane;
  to.push_back(shape);
}

void NearShadows::add_side(Shape& shape, const ShadowSide& side) {
  const std::size_t k = shape.sides++ % kWide;
  if (k == 0) sides_.emplace_back();
  EightSides& to = sides_.back();
  to.ax[k] = side.ax, to.ay[k] = side.ay;
  to.dx[k] = side.dx, to.dy[k] = side.dy;
  to.negative[k] = side.negative;
}

// Nothing of one seen edge-on.
void NearShadows::add_face(const Caster& c, const Piece& piece, const PieceFace& face) {
  if (dot(face.normal, sun_.towards) == 0.0) return;
  const std::uint32_t* corner = &piece.corners[face.first];
  const auto at = [&](std::uint32_t k) { return points_[corner[k]]; };
  Shape s = begin_shape();
  for (std::uint32_t k = 0; k < face.count; ++k) widen(s, at(k));
  // Of many faces some are far from all the nodes; of a lone one its piece's box was asked.
  if (piece.faces.size() > 1 && !may_meet(s.box, shaded_)) return;
  double area = 0.0;
  const ShadowPoint o = at(0);
  for (std::uint32_t k = 1; k + 1 < face.count; ++k) {
    const ShadowPoint p = at(k), q = at(k + 1);
    area += (double{p.x} - o.x) * (double{q.y} - o.y) - (double{p.y} - o.y) * (double{q.x} - o.x);
  }
  if (area == 0.0) return;
  // A curtain's foot, where it is not straight, stands for the side from corner 0 to 1.
  for (std::uint32_t k = piece.foot.empty() ? 0 : 1; k < face.count; ++k)
    add_side(s, shadow_side(at(k), at(k + 1 == face.count ? 0 : k + 1), area > 0.0));
  add_plane(piece.points[corner[0]], face.normal);
  const bool sheet = c.kind == CasterKind::sheet;
  if (sheet) s.factor = static_cast<float>(sheet_transmittance(c, face.normal, sun_.towards));
  keep(sheet ? sheets_ : opaque_, s);
}

// The sides between faces that look to the sun and faces that do not; below all of the former.
void NearShadows::add_solid(const Piece& piece) {
  Shape s = begin_shape();
  static_assert(kMostSides <= 64);
  std::uint64_t looks = 0;  // a bit a face
  for (std::size_t k = 0; k < piece.faces.size(); ++k)
    if (dot(piece.faces[k].normal, sun_.towards) > 0.0) looks |= std::uint64_t{1} << k;
  std::bitset<2 * kMostSides> seen;  // points of those that look to the sun
  for (std::size_t k = 0; k < piece.faces.size(); ++k) {
    const PieceFace& f = piece.faces[k];
    if ((looks >> k & 1U) == 0) continue;
    const ShadowPoint* points = points_.data();
    const std::uint32_t *corner = &piece.corners[f.first], *end = corner + f.count;
    for (const std::uint32_t* c = corner; c != end; ++c) {
      const ShadowPoint p = points[*c];
      seen.set(*c);
      const int over = piece.beside[f.first + static_cast<std::size_t>(c - corner)];
      if ((looks >> over & 1U) == 0)
        add_side(s, shadow_side(p, points[c + 1 == end ? *corner : c[1]], true));
    }
    add_plane(piece.points[*corner], f.normal);
  }
  if (planes_.size() == s.plane) return;
  for (std::size_t k = 0; k < piece.points.size(); ++k)
    if (seen[k]) widen(s, points_[k]);
  keep(opaque_, s);
}

void NearShadows::add_curtain(const Caster& c, const Piece& piece) {
  std::vector<Shape>& to = c.kind == CasterKind::sheet ? sheets_ : opaque_;
  const std::size_t count = to.size();
  add_face(c, piece, piece.faces.front());
  if (to.size() == count || piece.foot.empty()) return;
  Shape& s = to.back();
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

}  // namespace hummock::shade
