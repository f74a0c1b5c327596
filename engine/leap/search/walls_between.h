// What stands between two places, whatever flight is tried: how high the animal must come at least
// to get from the one to the other.
//
// Of a flight over a wall that is tried from every place before it to every place behind it there
// is no end; and none of them is free. Here the plan is laid over with a lattice, and from each
// node to its eight neighbours it is asked how high, from the ground up without a gap, something
// stands between (rays, one each step up). Places between which the animal gets over nothing are of
// one basin. Of two basins the height between is that of the lowest saddle: the least over all ways
// of the highest thing on the way (the bottleneck path, as in minimax.h; Kruskal's tree gives them
// all). A flight is a way on plan, and its top is no higher than its effort above its take-off
// (effort.h), so that the height less the take-off's is a bound from below for every flight from
// the one to the other. kSlack is taken off it: the lattice's way lies beside the flight's.
//
// Limits, as of the search itself: openings narrower than about one step are not seen, neither
// beside a thing nor between planks. Nothing is bounded on a site whose lattice would have more
// than kMostNodes nodes, whose ground is one part (what it bounds is then told by the flights), or
// that falls into more than kMostBasins.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <utility>
#include <vector>

#include "engine/leap/ground/basins.h"
#include "engine/leap/places/patch.h"
#include "engine/model/model.h"

namespace hummock::leap {

class WallsBetween {
 public:
  static constexpr double kNothing = -1e300;
  static constexpr std::size_t kMostNodes = 4000000;  // numeric, a limit of work
  static constexpr std::size_t kMostBasins = 1500;    // numeric, a limit of work
  static constexpr double kSlack = 2.0;               // steps; numeric

  WallsBetween() = default;  // nothing stands anywhere
  // `step`: m, of the lattice and between rays; `limit`: m, flights reach no higher above any
  // place.
  WallsBetween(const Model& model, const std::vector<PatchPtr>& patches, double step, double limit);

  bool any() const { return basins_ > 1; }
  // From one patch to each: m above datum that every flight must pass; kNothing where there is
  // nothing to get over.
  std::vector<double> from(std::size_t patch) const;

  // Of the saddles themselves, for who tells efforts to them (over_walls.h).
  struct Crossing {
    geom::Box3 where;     // on plan: between the two nodes
    double height = 0.0;  // m above datum, as `from` tells it
  };
  struct Border {
    int other = 0;  // basin
    const std::vector<Crossing>* crossings = nullptr;
  };
  double step() const { return step_; }
  std::size_t basins() const { return basins_; }
  const std::vector<int>& basins_of(std::size_t patch) const { return meets_[patch]; }
  std::vector<Border> borders_of(std::size_t basin) const;

 private:
  void keep_crossings(const std::vector<Saddle>& saddles);
  double between(int a, int b) const {
    return height_[static_cast<std::size_t>(a) * basins_ + static_cast<std::size_t>(b)];
  }

  std::size_t basins_ = 0;
  double step_ = 0.0;                                               // m
  std::map<std::pair<int, int>, std::vector<Crossing>> crossings_;  // of two basins, lesser first
  std::vector<std::vector<int>> beside_;                            // by basin
  std::vector<double> height_;                                      // basin by basin
  std::vector<std::vector<int>> meets_;  // the basins of each patch, rising
};

// What stands between the patches of a search, asked for only once it bears on it: most searches
// never do.
class KnownWalls {
 public:
  using Ask = std::function<WallsBetween()>;
  explicit KnownWalls(const Ask& ask) : ask_(ask) {}

  void ask() {
    if (asked_ || !ask_) return;
    asked_ = true;
    walls_ = ask_();
  }
  bool any() const { return walls_.any(); }
  const WallsBetween& now() const { return walls_; }
  // As WallsBetween::from.
  double between(std::size_t from, std::size_t to);

 private:
  const Ask& ask_;
  bool asked_ = false;
  WallsBetween walls_;
  std::map<std::size_t, std::vector<double>> rows_;
};

}  // namespace hummock::leap
