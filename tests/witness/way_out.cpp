#include "tests/witness/flood.h"

namespace hummock::witness {

bool inside(const std::vector<Vec2>& outline, Vec2 p) {
  bool in = false;
  for (std::size_t k = 0, j = outline.size() - 1; k < outline.size(); j = k++) {
    const Vec2 a = outline[k];
    const Vec2 b = outline[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) in = !in;
  }
  return in;
}

bool Flood::out_there(Vec3 p) const {
  return p.x < rim_.lo.x + kRim || p.x > rim_.hi.x - kRim || p.y < rim_.lo.y + kRim ||
         p.y > rim_.hi.y - kRim;
}

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
