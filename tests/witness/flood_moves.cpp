// Moves that cost no leap: walking, climbing, reaching, swimming, stepping off, sliding down.
#include "tests/witness/flood.h"

namespace hummock::witness {
namespace {

constexpr double kPaw = 0.15;  // m, from one thing's hold to another's or from the ground to a hold

bool is_climbed(const Foothold& f) {
  return f.kind == Holding::hold || f.kind == Holding::branch;
}

}  // namespace

bool Flood::free_way(const Foothold& a, const Foothold& b) const {
  return passes(yard_.rays, animal_, a.centre, b.centre);
}

bool Flood::walks(const Foothold& a, const Foothold& b) const {
  if (is_climbed(a) || is_climbed(b)) return false;
  const double r = distance(xy(a.at), xy(b.at));
  const double far = distance(a.at, b.at);
  const bool afloat = a.kind == Holding::afloat || b.kind == Holding::afloat;
  const Vec3 from = a.kind == Holding::afloat ? a.centre : a.at;
  const Vec3 to = b.kind == Holding::afloat ? b.centre : b.at;
  const bool gentle = to.z - from.z <= std::tan(animal_.stand_slope) * r + 1e-6 ||
                      (afloat && to.z - from.z <= animal_.radius() * 2.0);
  if (a.piece == b.piece) {
    const double step = a.piece == yard_.ground_piece ? search_.spacing.ground
                                                      : std::max(search_.spacing.faces, 0.15);
    return far <= 1.6 * step && gentle;
  }
  return far <= 0.05;
}

bool Flood::climbs(const Foothold& a, const Foothold& b) const {
  if (!is_climbed(a) && !is_climbed(b)) return false;
  if (a.kind == Holding::afloat) return false;
  const double far = distance(a.at, b.at);
  if (a.piece == b.piece) return far <= 1.6 * search_.spacing.faces;
  return far <= std::max(animal_.reach, kPaw);
}

bool Flood::reaches(const Foothold& a, const Foothold& b) const {
  return b.kind == Holding::crest && a.kind != Holding::afloat &&
         distance(a.at, b.at) <= animal_.reach;
}

// Which way, if any, it comes from a to b without a leap.
std::optional<MoveKind> Flood::moves(int na, int nb) const {
  const Foothold& a = all_[static_cast<std::size_t>(na)];
  const Foothold& b = all_[static_cast<std::size_t>(nb)];
  if (walks(a, b) && free_way(a, b))
    return b.kind == Holding::afloat ? MoveKind::swim : MoveKind::walk;
  if (climbs(a, b) && free_way(a, b)) return MoveKind::climb;
  if (!reaches(a, b)) return std::nullopt;
  if (free_way(a, b)) return MoveKind::reach;
  // Round the edge.
  const double off = 1.2 * animal_.radius();
  for (const double side : {1.0, -1.0}) {
    const Vec3 round = b.at + b.out * (side * off);
    if (passes(yard_.rays, animal_, a.centre, round) && yard_.rays.free(round, b.centre))
      return MoveKind::reach;
  }
  return std::nullopt;
}

void Flood::gain(int n, const Come& by) {
  Come& now = come_[static_cast<std::size_t>(n)];
  if (!(by.demand < now.demand - 1e-12)) return;
  now = by;
  fresh_.push_back(n);
}

void Flood::effortless(int n) {
  const double demand = come_[static_cast<std::size_t>(n)].demand;
  near_.around(all_[static_cast<std::size_t>(n)].at, [&](int m) {
    if (m == n || come_[static_cast<std::size_t>(m)].demand <= demand) return;
    if (const auto kind = moves(n, m)) gain(m, {demand, n, *kind, 0.0});
  });
}

// Comes down at a struck point: gains what is next to it.
void Flood::land(int n, const Struck& where, MoveKind kind, double effort) {
  const double demand = std::max(come_[static_cast<std::size_t>(n)].demand, effort);
  Foothold here;
  here.at = where.at;
  here.piece = where.piece;
  here.kind = where.piece == yard_.ground_piece ? Holding::ground : Holding::face;
  here.centre = where.at + where.normal * (1.05 * animal_.radius());
  near_.around(here.at, [&](int m) {
    const Foothold& there = all_[static_cast<std::size_t>(m)];
    if (come_[static_cast<std::size_t>(m)].demand <= demand || there.piece != here.piece) return;
    if (walks(here, there) && free_way(here, there)) gain(m, {demand, n, kind, effort});
  });
}

// Down from a point in the air; slides on where it is too steep to stand.
void Flood::fall(int n, Vec3 from) {
  for (int k = 0; k < 20; ++k) {
    const auto hit = yard_.rays.first(from, from - Vec3{0, 0, 60.0});
    if (!hit) return;
    if (hit->normal.z >= std::cos(animal_.stand_slope) || hit->piece == yard_.ground_piece) {
      land(n, *hit, MoveKind::step_off, 0.0);
      return;
    }
    if (hit->normal.z < 0.02) return;
    const Vec3 at = hit->at + hit->normal * (1.05 * animal_.radius());
    const Vec3 next = at + at_height(geom::unit(xy(hit->normal)) * 0.1, 0.0);
    if (!yard_.rays.free(from, at) || !passes(yard_.rays, animal_, at, next)) return;
    from = next;
  }
}

void Flood::step_off(int n) {
  const Foothold f = all_[static_cast<std::size_t>(n)];
  if (f.piece == yard_.ground_piece) return;
  const double off = 2.0 * animal_.radius() + 0.05;
  for (int d = 0; d < 8; ++d) {
    const double a = 0.25 * geom::kPi * d + std::atan2(f.out.y, f.out.x);
    const Vec3 beside = f.centre + Vec3{off * std::cos(a), off * std::sin(a), 0.0};
    if (passes(yard_.rays, animal_, f.centre, beside)) fall(n, beside);
  }
}

void Flood::spread(int n) {
  const Vec3 at = all_[static_cast<std::size_t>(n)].at;
  const double demand = come_[static_cast<std::size_t>(n)].demand;
  if (out_there(at) && all_[static_cast<std::size_t>(n)].piece == yard_.ground_piece) {
    if (demand < best_) best_ = demand, exit_ = n;
    return;
  }
  effortless(n);
  step_off(n);
  aim_all(n);
}

}  // namespace hummock::witness
