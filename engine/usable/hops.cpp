#include "engine/usable/hops.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>
#include <optional>
#include <utility>

#include "engine/species/body.h"
#include "engine/species/young.h"
#include "engine/usable/throws.h"

namespace hummock::usable {
namespace {

// Work done from one part to another: a pair of places whose flights are tried counts kOfAFlight,
// one where the body finds no room to take off or land counts one; numeric, a limit of work.
constexpr int kMostWork = 20000;
constexpr int kOfAFlight = 10;
constexpr double kLevelRim = 0.05;   // m: as good as the water's level; common practice, no source
constexpr double kBesideEdge = 0.5;  // m, of rims with an edge between; numeric, a limit of work
constexpr double kStraightBehind = 0.9;  // cosine, to the way it leaps: numeric, a limit of work

class Hops {
 public:
  Hops(const Model& model, const Leaper& leaper, const std::vector<RimSpot>& rim,
       const std::vector<RimSpot>& behind, const std::vector<std::pair<int, int>>& joined,
       int parts)
      : scene_(model.body_scene.get()),
        leaper_(leaper),
        spots_(rim),
        joined_(joined),
        leaps_(scene_ != nullptr && leaper.height > 0.0 && leaper.distance > 0.0),
        stretch_(leaps_ ? 2.0 * leaper.height / leaper.distance : 0.0),
        side_(leaps_ ? 2.0 * leaper.distance : 1.0),
        shut_(rim.size() + behind.size()),
        come_(static_cast<std::size_t>(parts), 0),
        given_up_(static_cast<std::size_t>(parts), 0),
        of_part_(static_cast<std::size_t>(parts)) {
    for (std::size_t k = 0; k < rim.size(); ++k) {
      of_part_[static_cast<std::size_t>(rim[k].part)].push_back(k);
      boxes_[box_of(rim[k].at, side_)].push_back(k);
      if (!behind.empty()) beside_[box_of(rim[k].at, kBesideEdge)].push_back(k);
    }
    for (const RimSpot& spot : behind) {
      behind_[near_box_of(spot.at)].push_back(spots_.size());
      spots_.push_back(spot);
    }
  }

  // `back`: those from which the start is come to, instead of those come to from it. `only`: parts
  // that are asked about; nothing = all.
  std::vector<std::uint8_t> run(int start, bool back, const std::vector<std::uint8_t>* only = {}) {
    back_ = back;
    only_ = only;
    std::fill(come_.begin(), come_.end(), std::uint8_t{0});
    std::vector<int> next{start};
    come_[static_cast<std::size_t>(start)] = 1;
    come_from(next, false);
    if (!leaps_ || behind_.empty()) return come_;
    // What is not come to so is tried from behind the rims; what comes to it then is gone on from.
    for (std::size_t part = 0; part < come_.size(); ++part)
      if (come_[part] != 0) next.push_back(static_cast<int>(part));
    come_from(next, true);
    return come_;
  }

  // Parts that the work done so far was too much for, come to or not.
  const std::vector<std::uint8_t>& given_up() const { return given_up_; }

 private:
  using Box = std::pair<int, int>;
  static Box box_of(Vec3 p, double side) {
    return {static_cast<int>(std::floor(p.x / side)), static_cast<int>(std::floor(p.y / side))};
  }
  static Box near_box_of(Vec3 p) { return box_of(p, kRunOff); }

  // `behind`: those of `next` have been left from their rims already, and are from behind them.
  void come_from(std::vector<int>& next, bool behind) {
    std::size_t known = behind ? next.size() : 0;
    while (!next.empty()) {
      const int part = next.back();
      next.pop_back();
      const bool old = next.size() < known;
      known = std::min(known, next.size());
      if (!old) walk_from(part, next);
      if (!leaps_) continue;
      for (const bool from_behind : {false, true}) {
        if (from_behind ? !behind : old) continue;
        behind_too_ = from_behind;
        std::vector<int> work(come_.size(), 0);  // on each part not come to yet
        for (const std::size_t k : of_part_[static_cast<std::size_t>(part)])
          leap_from(k, work, next);
      }
    }
  }

  void walk_from(int part, std::vector<int>& next) {
    for (const auto& [a, b] : joined_) {
      if (a != part && b != part) continue;
      const int to = a == part ? b : a;
      if (come_[static_cast<std::size_t>(to)] != 0) continue;
      come_[static_cast<std::size_t>(to)] = 1;
      next.push_back(to);
    }
  }

  void leap_from(std::size_t number, std::vector<int>& work, std::vector<int>& next) {
    const RimSpot& from = spots_[number];
    const auto& boxes = behind_too_ ? beside_ : boxes_;
    const Box here = box_of(from.at, behind_too_ ? kBesideEdge : side_);
    for (int i = here.first - 1; i <= here.first + 1; ++i)
      for (int j = here.second - 1; j <= here.second + 1; ++j) {
        const auto box = boxes.find({i, j});
        if (box == boxes.end()) continue;
        for (const std::size_t k : box->second) {
          const RimSpot& to = spots_[k];
          if (come_[static_cast<std::size_t>(to.part)] != 0) continue;
          const RimSpot& off = back_ ? to : from;
          const RimSpot& onto = back_ ? from : to;
          if (only_ != nullptr && (*only_)[static_cast<std::size_t>(to.part)] == 0) continue;
          if (behind_too_ && !beside_an_edge(from, to)) continue;
          int& done = work[static_cast<std::size_t>(to.part)];
          if (done >= kMostWork) given_up_[static_cast<std::size_t>(to.part)] = 1;
          if (done >= kMostWork || surely_beyond(off, onto) || !within(off, onto)) continue;
          const std::size_t from_spot = back_ ? k : number, to_spot = back_ ? number : k;
          if (behind_too_ ? !leaps_behind(from_spot, to_spot, done)
                          : !leaps_between(from_spot, to_spot, done))
            continue;
          come_[static_cast<std::size_t>(to.part)] = 1;
          next.push_back(to.part);
        }
      }
  }

  static bool beside_an_edge(const RimSpot& a, const RimSpot& b) {
    const double x = a.at.x - b.at.x, y = a.at.y - b.at.y;
    return a.at.z != b.at.z && x * x + y * y <= kBesideEdge * kBesideEdge;
  }

  bool leaps_between(std::size_t off, std::size_t onto, int& done) {
    const bool room = has_room(off, onto);
    done += room ? kOfAFlight : 1;
    return room && some_free(spots_[off], spots_[onto]);
  }

  // Up on to what is higher from places behind the lower rim, down from it to such places: to pass
  // the edge between it must come from, and goes, some way off.
  bool leaps_behind(std::size_t off, std::size_t onto, int& done) {
    const bool up = spots_[onto].at.z > spots_[off].at.z;
    const RimSpot& rim = spots_[up ? off : onto];
    const Vec2 away = geom::xy(rim.at) - geom::xy(spots_[up ? onto : off].at);
    if (rim.afloat) return false;
    const Box here = near_box_of(rim.at);
    for (int i = here.first - 1; i <= here.first + 1; ++i)
      for (int j = here.second - 1; j <= here.second + 1; ++j) {
        const auto box = behind_.find({i, j});
        if (box == behind_.end()) continue;
        for (const std::size_t k : box->second) {
          const Vec2 by = geom::xy(spots_[k].at) - geom::xy(rim.at);
          const bool straight = dot(by, away) > kStraightBehind * length(by) * length(away);
          if (spots_[k].part != rim.part || !straight) continue;
          if (done >= kMostWork) return false;
          const std::size_t from = up ? k : off, to = up ? onto : k;
          if (within(spots_[from], spots_[to]) && leaps_between(from, to, done)) return true;
        }
      }
    return false;
  }

  double leap_of(const RimSpot& from) const {
    return from.afloat ? leaper_.share_in_water * leaper_.height : leaper_.height;
  }

  // Most pairs, without a root: an effort e reaches x at the rise z as long as x² <= 4 e (e − z).
  bool surely_beyond(const RimSpot& from, const RimSpot& to) const {
    constexpr double kRounding = 1.0 + 1e-6, kLeast = 1e-9;  // m² for the latter
    if (from.afloat) return false;
    const double has = leap_of(from) * kRounding, rise = to.at.z - from.at.z;
    const double x = to.at.x - from.at.x, y = to.at.y - from.at.y;
    return stretch_ * stretch_ * (x * x + y * y) >
           std::max(0.0, 4.0 * has * (has - rise)) * kRounding + kLeast;
  }

  bool within(const RimSpot& from, const RimSpot& to) const {
    const double has = leap_of(from);
    const double r = geom::distance(geom::xy(from.at), geom::xy(to.at));
    const double rise = to.at.z - from.at.z;
    const double rim = std::min(leaper_.reach, leaper_.tall);
    if (from.afloat && r <= leaper_.length && rise <= std::max(rim, kLevelRim)) return true;
    return effort(r, rise, stretch_) <= has * (1.0 + 1e-9);
  }

  // The flight of least effort, or a higher one of what it has: half way, and all of it.
  bool some_free(const RimSpot& from, const RimSpot& to) {
    constexpr double kOfTheRest[] = {0.5, 1.0};
    const double r = geom::distance(geom::xy(from.at), geom::xy(to.at));
    const Throw least = least_throw(r, to.at.z - from.at.z, stretch_);
    if (free(from.at, to.at, least)) return true;
    const double rest = leap_of(from) - least.effort;
    if (!(r > 0.0) || !(rest > 0.0)) return false;
    return std::any_of(std::begin(kOfTheRest), std::end(kOfTheRest), [&](double share) {
      const double e = least.effort + share * rest;
      return free(from.at, to.at, steep_throw(r, to.at.z - from.at.z, stretch_, e));
    });
  }

  // Half its body to either side of the way from p to q; nothing where q is straight above.
  std::optional<Vec2> beside(Vec3 p, Vec3 q) const {
    const Vec2 along = geom::xy(q) - geom::xy(p);
    if (!(length(along) > 0.0)) return std::nullopt;
    return geom::left_of(geom::unit(along)) * leaper_.half_width;
  }

  // It may take off and land where it has that room only. Asked first where there was none most
  // often.
  bool has_room(std::size_t off, std::size_t onto) {
    const std::optional<Vec2> side = beside(spots_[off].at, spots_[onto].at);
    if (!side) return true;
    if (shut_[onto].times > shut_[off].times)
      return has_room_at(onto, *side, true) && has_room_at(off, *side, false);
    return has_room_at(off, *side, false) && has_room_at(onto, *side, true);
  }

  // To either side, and as much behind it where it takes off, and before it where it lands, as half
  // its width: else it would leap through a slot that it stands half in. The way that was shut the
  // last time is asked first.
  bool has_room_at(std::size_t spot, Vec2 side, bool lands) {
    constexpr std::size_t kWays = 5;
    const Vec3 by = at_height(side, 0.0);
    const Vec3 on = at_height(geom::left_of(side) * (lands ? -1.0 : 1.0), 0.0);
    const Vec3 low = spots_[spot].at + Vec3{0.0, 0.0, kOffTheGround};
    const Vec3 middle = spots_[spot].at + Vec3{0.0, 0.0, 0.5 * leaper_.crouch};
    const auto way_open = [&](std::size_t way) {
      if (way == 0) return open(low, low + by);
      if (way == 1) return open(low, low - by);
      const Vec3 from = way == 2 ? middle : way == 3 ? middle + by : middle - by;
      return open(from, from + on);
    };
    Shut& shut = shut_[spot];
    for (std::size_t k = 0; k < kWays; ++k) {
      const std::size_t way = (shut.way + k) % kWays;
      if (way_open(way)) continue;
      shut.way = way;
      ++shut.times;
      return false;
    }
    return true;
  }

  // As tall as it is when it squeezes, and half its width to either side. What was in the way the
  // last time is asked first: of leaps to and from neighbouring spots it mostly is again.
  bool free(Vec3 p, Vec3 q, const Throw& thrown) {
    constexpr double kOfIt[] = {0.0, 0.25, 0.5, 0.75, 0.95};
    std::array<Vec3, std::size(kOfIt) + 2> off;
    std::size_t n = 0;
    for (const double share : kOfIt) off[n++] = {0.0, 0.0, share * leaper_.crouch};
    if (const std::optional<Vec2> aside = beside(p, q)) {
      off[n++] = at_height(*aside, 0.0);
      off[n++] = at_height(-*aside, 0.0);
    }
    for (std::size_t k = 0; k < n; ++k) {
      const std::size_t line = (last_line_ + k) % n;
      if (free_line(p + off[line], q + off[line], thrown)) continue;
      last_line_ = line;
      return false;
    }
    return true;
  }

  // A little beyond b, so that nothing stands unseen between two pieces of a way.
  bool open(Vec3 a, Vec3 b) const {
    constexpr double kOver = 1.001;
    return !scene_->occluded({a, b - a, 0.0, kOver});
  }

  bool free_line(Vec3 p, Vec3 q, const Throw& thrown) {
    const auto way = flight(p, q, stretch_, thrown);
    const std::size_t pieces = way.size() - 1;
    for (std::size_t k = 0; k < pieces; ++k) {
      const std::size_t piece = (last_piece_ + k) % pieces;
      if (open(way[piece], way[piece + 1])) continue;
      last_piece_ = piece;
      return false;
    }
    return true;
  }

  const geom::RayScene* scene_;
  Leaper leaper_;
  std::vector<RimSpot> spots_;  // the rims, then those behind them
  const std::vector<std::pair<int, int>>& joined_;
  bool leaps_;
  double stretch_, side_;
  bool back_ = false, behind_too_ = false;
  // Of each spot: how often it had no room, and which way was shut then.
  struct Shut {
    std::size_t way = 0;
    int times = 0;
  };
  std::vector<Shut> shut_;
  std::size_t last_line_ = 0, last_piece_ = 0;  // that were in the way of the last flight
  std::vector<std::uint8_t> come_, given_up_;
  const std::vector<std::uint8_t>* only_ = nullptr;
  std::vector<std::vector<std::size_t>> of_part_;
  std::map<Box, std::vector<std::size_t>> boxes_, beside_, behind_;
};

}  // namespace

Leaper leaper_of(const Species& species) {
  const Body body = body_of(species);
  const double used = species.leap_height.value, height = leap_of_both(species);
  const double distance = species.leap_distance.value * (used > 0.0 ? height / used : 1.0);
  const double crouch = std::min(crouch_of_both(species, body.crouch), body.height);
  return {height,      distance,   body.leap_from_water, 0.5 * body.width,
          body.length, body.reach, body.height,          crouch};
}

std::vector<std::uint8_t> parts_come_to(const Model& model, const Leaper& leaper,
                                        const std::vector<RimSpot>& rim,
                                        const std::vector<std::pair<int, int>>& joined, int parts,
                                        int start, WayBack back_among,
                                        const std::vector<RimSpot>& behind) {
  Hops hops(model, leaper, rim, behind, joined, parts);
  std::vector<std::uint8_t> out = hops.run(start, false);
  // Unless of some not all leaps were tried.
  bool all_tried = back_among == WayBack::among_those_come_to;
  for (std::size_t k = 0; k < out.size(); ++k)
    all_tried = all_tried && (out[k] != 0 || hops.given_up()[k] == 0);
  const std::vector<std::uint8_t> back = hops.run(start, true, all_tried ? &out : nullptr);
  for (std::size_t k = 0; k < out.size(); ++k) out[k] = out[k] != 0 && back[k] != 0 ? 1 : 0;
  return out;
}

}  // namespace hummock::usable
