#include "tests/witness/way_out.h"

#include <algorithm>
#include <cstdint>
#include <limits>
#include <unordered_map>

namespace hummock::witness {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr int kBuckets = 1024;
constexpr double kRung = 1.16;  // between neighbouring flights, of the bulge over the rise
constexpr int kSteeper = 10;    // rungs tried above the flight of least effort
constexpr int kFlatter = 3;     // and below it
constexpr double kPaw = 0.15;  // m, from one thing's hold to another's or from the ground to a hold
constexpr double kRim = 0.6;   // m, from the end of the modelled ground

bool inside(const std::vector<Vec2>& outline, Vec2 p) {
  bool in = false;
  for (std::size_t k = 0, j = outline.size() - 1; k < outline.size(); j = k++) {
    const Vec2 a = outline[k];
    const Vec2 b = outline[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) in = !in;
  }
  return in;
}

// Footholds by cubes of `side`.
class Near {
 public:
  Near(const std::vector<Foothold>& all, double side) : side_(side) {
    for (std::size_t k = 0; k < all.size(); ++k)
      cells_[key(cell(all[k].at.x), cell(all[k].at.y), cell(all[k].at.z))].push_back(
          static_cast<int>(k));
  }
  template <class Use>
  void around(Vec3 p, const Use& use) const {
    for (int i = -1; i <= 1; ++i)
      for (int j = -1; j <= 1; ++j)
        for (int k = -1; k <= 1; ++k) {
          const auto found = cells_.find(key(cell(p.x) + i, cell(p.y) + j, cell(p.z) + k));
          if (found == cells_.end()) continue;
          for (const int n : found->second) use(n);
        }
  }

 private:
  std::int64_t cell(double v) const { return static_cast<std::int64_t>(std::floor(v / side_)); }
  static std::int64_t key(std::int64_t i, std::int64_t j, std::int64_t k) {
    return ((i + 100000) * 400009 + (j + 100000)) * 400009 + (k + 100000);
  }
  double side_;
  std::unordered_map<std::int64_t, std::vector<int>> cells_;
};

struct Come {
  double demand = kInfinite;  // m
  int from = -1;
  MoveKind kind = MoveKind::start;
  double effort = 0.0;
};

struct Try {
  int from, to;
  float effort, bulge;
  bool least;  // the flight of least effort: the others follow when it is blocked
};

class Flood {
 public:
  Flood(const Yard& yard, const std::vector<Vec2>& outline, const Animal& animal,
        const Search& search)
      : yard_(yard),
        outline_(outline),
        animal_(animal),
        search_(search),
        all_(footholds(yard, animal, search.spacing)),
        near_(all_, neighbour()),
        come_(all_.size()),
        tries_(all_.size(), 0),
        buckets_(kBuckets) {
    for (const Vec3& p : yard.pieces[static_cast<std::size_t>(yard.ground_piece)].corners)
      rim_.add(p);
  }
  WayOut run();

 private:
  double neighbour() const {
    return std::max({1.6 * search_.spacing.ground, 1.6 * search_.spacing.faces, animal_.reach});
  }
  bool out_there(Vec3 p) const;
  std::vector<int> ground_inside() const;
  std::vector<int> walked_from(int seed, std::vector<char>& seen) const;

  void gain(int n, const Come& by);
  void spread(int n);
  void effortless(int n);
  void step_off(int n);
  void fall(int n, Vec3 from);
  void land(int n, const Struck& where, MoveKind kind, double effort);

  std::optional<MoveKind> moves(int a, int b) const;
  bool walks(const Foothold& a, const Foothold& b) const;
  bool climbs(const Foothold& a, const Foothold& b) const;
  bool reaches(const Foothold& a, const Foothold& b) const;
  bool free_way(const Foothold& a, const Foothold& b) const;

  void aim_all(int n);
  double cost(int n) const;
  bool is_edge(int n) const { return all_[static_cast<std::size_t>(n)].kind == Holding::crest; }
  void push(const Try& t, double demand);
  void attempt(const Try& t);
  void other_flights(const Try& t);
  double tightened(const Try& t) const;
  void shoot();
  void shot(int n, double azimuth, double slope, double effort);
  WayOut answer() const;

  const Yard& yard_;
  const std::vector<Vec2>& outline_;
  const Animal& animal_;
  const Search& search_;
  std::vector<Foothold> all_;
  Near near_;
  std::vector<Come> come_;
  std::vector<int> tries_;
  std::vector<std::vector<Try>> buckets_;
  std::vector<int> fresh_;  // gained, not spread yet
  geom::Box3 rim_;
  int exit_ = -1;
  double best_ = kInfinite;
  long flights_ = 0;
};

bool Flood::out_there(Vec3 p) const {
  return p.x < rim_.lo.x + kRim || p.x > rim_.hi.x - kRim || p.y < rim_.lo.y + kRim ||
         p.y > rim_.hi.y - kRim;
}

// --- moves without effort

bool Flood::free_way(const Foothold& a, const Foothold& b) const {
  return passes(yard_.rays, animal_, a.centre, b.centre);
}

bool Flood::walks(const Foothold& a, const Foothold& b) const {
  if (a.kind == Holding::hold || b.kind == Holding::hold) return false;
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
  if (a.kind != Holding::hold && b.kind != Holding::hold) return false;
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

// --- flights

double Flood::cost(int n) const {
  const Foothold& f = all_[static_cast<std::size_t>(n)];
  if (f.kind == Holding::afloat || !f.leaps) return kInfinite;
  if (f.kind != Holding::hold) return 1.0;
  return animal_.cling > 0.0 ? 1.0 / animal_.cling : kInfinite;
}

void Flood::push(const Try& t, double demand) {
  const double key = std::max(demand, static_cast<double>(t.effort));
  if (!(key < std::min(search_.limit, best_))) return;
  if (come_[static_cast<std::size_t>(t.to)].demand <= key) return;
  const auto bucket = static_cast<std::size_t>(key / search_.limit * kBuckets);
  buckets_[std::min<std::size_t>(bucket, kBuckets - 1)].push_back(t);
}

void Flood::aim_all(int n) {
  const double each = cost(n);
  if (each == kInfinite) return;
  const Foothold& a = all_[static_cast<std::size_t>(n)];
  const double demand = come_[static_cast<std::size_t>(n)].demand;
  for (std::size_t k = 0; k < all_.size(); ++k) {
    const Foothold& b = all_[k];
    if (come_[k].demand <= demand || b.kind == Holding::afloat) continue;
    if (b.piece == yard_.ground_piece && !b.coarse) continue;
    const double z = b.centre.z - a.centre.z;
    if (z * each > search_.limit) continue;
    const double r = distance(xy(a.centre), xy(b.centre));
    const double e = least_effort(animal_, r, z) * each;
    if (e < search_.limit)
      push({n, static_cast<int>(k), static_cast<float>(e),
            static_cast<float>(least_bulge(animal_, r, z)), true},
           demand);
  }
}

// Between a blocked neighbour and a free flight: the cheaper edge of the gap.
double Flood::tightened(const Try& t) const {
  const Vec3 a = all_[static_cast<std::size_t>(t.from)].centre;
  const Vec3 b = all_[static_cast<std::size_t>(t.to)].centre;
  const double r = distance(xy(a), xy(b));
  const double z = b.z - a.z;
  double free = t.bulge;
  double blocked = least_bulge(animal_, r, z);
  for (int k = 0; k < 5; ++k) {
    const double middle = 0.5 * (free + blocked);
    (flies(yard_.rays, animal_, a, b, middle, is_edge(t.to)) ? free : blocked) = middle;
  }
  return effort_of_bulge(animal_, r, z, free) * cost(t.from);
}

void Flood::other_flights(const Try& t) {
  const Vec3 a = all_[static_cast<std::size_t>(t.from)].centre;
  const Vec3 b = all_[static_cast<std::size_t>(t.to)].centre;
  const double r = distance(xy(a), xy(b));
  const double z = b.z - a.z;
  for (int k = -kFlatter; k <= kSteeper; ++k) {
    const double w = z + (t.bulge - z) * std::pow(kRung, k);
    if (k == 0 || w <= z + 1e-4) continue;
    const double e = effort_of_bulge(animal_, r, z, w) * cost(t.from);
    push({t.from, t.to, static_cast<float>(e), static_cast<float>(w), false},
         come_[static_cast<std::size_t>(t.from)].demand);
  }
}

void Flood::attempt(const Try& t) {
  const double before = come_[static_cast<std::size_t>(t.from)].demand;
  const double key = std::max(before, static_cast<double>(t.effort));
  if (come_[static_cast<std::size_t>(t.to)].demand <= key || key >= best_) return;
  const Foothold& b = all_[static_cast<std::size_t>(t.to)];
  const int most =
      b.piece == yard_.ground_piece ? search_.tries_a_foothold / 4 : search_.tries_a_foothold;
  int& tries = tries_[static_cast<std::size_t>(t.to)];
  if (tries >= most) return;
  ++flights_;
  if (flies(yard_.rays, animal_, all_[static_cast<std::size_t>(t.from)].centre, b.centre, t.bulge,
            is_edge(t.to))) {
    const double e = t.least ? t.effort : std::min<double>(t.effort, tightened(t));
    gain(t.to, {std::max(before, e), t.from, MoveKind::flight, e});
    return;
  }
  ++tries;
  if (t.least) other_flights(t);
}

// --- flights without aim

void Flood::shot(int n, double azimuth, double slope, double effort) {
  const Vec3 a = all_[static_cast<std::size_t>(n)].centre;
  const double s = animal_.stretch();
  const double bend = s * s * (1.0 + slope * slope) / (4.0 * effort);
  const Vec3 way{std::cos(azimuth), std::sin(azimuth), 0.0};
  const double step = std::min(0.15, effort / s * 0.2);
  Vec3 last = a;
  for (int k = 1; k < 200; ++k) {
    const double r = step * k;
    const Vec3 next = a + way * r + Vec3{0, 0, s * slope * r - bend * r * r};
    if (const auto hit = yard_.rays.first(last, next)) {
      if (hit->piece != yard_.ground_piece || inside(outline_, xy(hit->at))) return;
      // The whole ball, back along the same flight.
      const Vec3 end = hit->at + hit->normal * (1.05 * animal_.radius());
      const double far = distance(xy(end), xy(a));
      const double z = end.z - a.z;
      const double w = z + bend * far * far;  // the flight's bulge
      ++flights_;
      if (far > 0.1 && w > z && flies(yard_.rays, animal_, a, end, w, false))
        land(n, *hit, MoveKind::flight, effort_of_bulge(animal_, far, z, w) * cost(n));
      return;
    }
    if (next.z < rim_.lo.z - 1.0) return;
    last = next;
  }
}

void Flood::shoot() {
  std::vector<int> from;
  for (std::size_t k = 0; k < all_.size(); ++k)
    if (come_[k].demand < std::min(best_, search_.limit) && all_[k].piece != yard_.ground_piece &&
        cost(static_cast<int>(k)) < kInfinite)
      from.push_back(static_cast<int>(k));
  if (from.empty()) return;
  std::sort(from.begin(), from.end(), [&](int a, int b) {
    return all_[static_cast<std::size_t>(a)].at.z > all_[static_cast<std::size_t>(b)].at.z;
  });
  for (int k = 0; k < search_.shots; ++k) {
    const int n = from[static_cast<std::size_t>(k) % from.size()];
    const double low = come_[static_cast<std::size_t>(n)].demand;
    const double high = std::min(best_, search_.limit);
    if (low >= high) continue;
    const double turn = 0.6180339887498949 * k;  // golden-ratio turns fill the compass evenly
    const double share = std::fmod(0.7548776662466927 * k, 1.0);  // of the plastic number
    const double slope =
        std::tan((-20.0 + 95.0 * std::fmod(0.5698402909980532 * k, 1.0)) * geom::kDegree);
    shot(n, 2.0 * geom::kPi * turn, slope,
         std::max(0.05, low + (high - low) * (0.1 + 0.9 * share)) / cost(n));
    while (!fresh_.empty()) {
      const int m = fresh_.back();
      fresh_.pop_back();
      effortless(m);
      if (out_there(all_[static_cast<std::size_t>(m)].at) &&
          come_[static_cast<std::size_t>(m)].demand < best_)
        best_ = come_[static_cast<std::size_t>(m)].demand, exit_ = m;
    }
  }
}

// --- the whole

std::vector<int> Flood::walked_from(int seed, std::vector<char>& seen) const {
  std::vector<int> found{seed};
  seen[static_cast<std::size_t>(seed)] = 1;
  for (std::size_t k = 0; k < found.size(); ++k) {
    const Foothold& a = all_[static_cast<std::size_t>(found[k])];
    near_.around(a.at, [&](int m) {
      const Foothold& b = all_[static_cast<std::size_t>(m)];
      if (seen[static_cast<std::size_t>(m)] != 0 || b.kind != Holding::ground ||
          !inside(outline_, xy(b.at)) || !walks(a, b) || !free_way(a, b))
        return;
      seen[static_cast<std::size_t>(m)] = 1;
      found.push_back(m);
    });
  }
  return found;
}

std::vector<int> Flood::ground_inside() const {
  std::vector<char> seen(all_.size(), 0);
  std::vector<int> largest;
  double nearest = kInfinite;
  for (std::size_t k = 0; k < all_.size(); ++k) {
    if (seen[k] != 0 || all_[k].kind != Holding::ground || !inside(outline_, xy(all_[k].at)))
      continue;
    std::vector<int> part = walked_from(static_cast<int>(k), seen);
    double off = 0.0;
    if (search_.start) {
      off = kInfinite;
      for (const int n : part)
        off = std::min(off, distance(xy(all_[static_cast<std::size_t>(n)].at), *search_.start));
    }
    if (off < nearest || (off == nearest && part.size() > largest.size()))
      nearest = off, largest = std::move(part);
  }
  return largest;
}

WayOut Flood::run() {
  for (const int n : ground_inside()) gain(n, {0.0, -1, MoveKind::start, 0.0});
  for (std::size_t b = 0; b < buckets_.size(); ++b) {
    for (std::size_t k = 0;; ++k) {
      while (!fresh_.empty()) {
        const int n = fresh_.back();
        fresh_.pop_back();
        spread(n);
      }
      if (best_ < kInfinite && best_ * kBuckets < static_cast<double>(b) * search_.limit) break;
      if (k >= buckets_[b].size()) break;
      attempt(Try(buckets_[b][k]));
    }
    std::vector<Try>().swap(buckets_[b]);
  }
  shoot();
  return answer();
}

WayOut Flood::answer() const {
  WayOut out;
  out.footholds = static_cast<int>(all_.size());
  out.flights = flights_;
  if (exit_ < 0) return out;
  out.effort = best_;
  for (int n = exit_; n >= 0; n = come_[static_cast<std::size_t>(n)].from) {
    const Come& c = come_[static_cast<std::size_t>(n)];
    const Foothold& f = all_[static_cast<std::size_t>(n)];
    const Vec3 from = c.from < 0 ? f.at : all_[static_cast<std::size_t>(c.from)].at;
    out.moves.push_back(
        {c.kind, from, f.at, c.effort, yard_.pieces[static_cast<std::size_t>(f.piece)].name});
  }
  std::reverse(out.moves.begin(), out.moves.end());
  return out;
}

}  // namespace

const char* word(MoveKind kind) {
  switch (kind) {
    case MoveKind::start:
      return "starts";
    case MoveKind::walk:
      return "walks";
    case MoveKind::climb:
      return "climbs";
    case MoveKind::reach:
      return "reaches";
    case MoveKind::swim:
      return "swims";
    case MoveKind::step_off:
      return "steps off";
    case MoveKind::flight:
      return "leaps";
  }
  return "";
}

WayOut way_out(const Yard& yard, const std::vector<Vec2>& outline, const Animal& animal,
               const Search& search) {
  return Flood(yard, outline, animal, search).run();
}

}  // namespace hummock::witness
