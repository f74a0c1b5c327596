// Flights: aimed at every foothold in order of effort, and shots without an aim.
#include "tests/witness/flood.h"

namespace hummock::witness {
namespace {

constexpr double kRung = 1.16;  // between neighbouring flights, of the bulge over the rise
constexpr int kSteeper = 10;    // rungs tried above the flight of least effort
constexpr int kFlatter = 3;     // and below it

}  // namespace

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

}  // namespace hummock::witness
