// What of the queue of the search (minimax.h) can be left out because it comes too late.
//
// Where a fence follows the ground every stretch of it needs much the same, and the bounds of boxes
// lie just below: hundreds of thousands of pairs of boxes would be queued and split whose flights
// need more than the one that is found. So before a block of ground is split against a place, it
// is looked into depth-first, without the queue, for any flight, step or limb that would come no
// later than one known to be free. Where there is none the block is left out.
//
// Why the answer is the same to the last bit, and the same flight of equal ones wins. What is left
// out has no pair whose key is not above that of a free flight, whose own pair is not left out
// (a later free flight needs less, and what it leaves out besides is above it too). So the place is
// gained before any of those pairs would be taken, and none is ever tested or counted; what comes
// from their boxes is of no other place. The order of the rest hangs on keys, kinds and on which
// was pushed first, of which none hangs on what is left out. It does hang on it where the search
// stops between (`most_flights`), and a free flight's key may be raised where walls are asked for
// that stand between its places (over_walls.h): then the search is done again without
// (minimax.cpp). Where such are known, and where pockets are left, nothing is left out.
#pragma once

#include <cstdint>
#include <set>
#include <utility>
#include <vector>

#include "engine/leap/ground/unfolded.h"
#include "engine/leap/physics/known_flights.h"
#include "engine/leap/search/links.h"
#include "engine/leap/search/minimax.h"
#include "engine/leap/search/over_walls.h"
#include "engine/leap/search/search_queue.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::leap {

class LookAhead {
 public:
  // Keeps references.
  LookAhead(const std::vector<PatchPtr>& patches, const Quest& quest, const geom::RayScene& scene,
            const LinkRules& rules, const Unfolded& places, OverWalls& walls)
      : patches_(patches),
        quest_(quest),
        scene_(scene),
        rules_(rules),
        places_(places),
        walls_(walls),
        least_free_(patches.size(), 1e300) {}

  // Of two nodes: the first is a block of ground, and every flight from it comes after the place is
  // gained. `from`: m, the demand of what it leaves from. Asked when the block is split, unfolded
  // by then: a block left out is unfolded when it would have been, since boxes are others before.
  bool leaves_out(const Entry& e, double from);
  std::int64_t left_out() const { return left_out_; }  // blocks
  // Walls asked for since stand between none of the places whose flights were compared.
  bool holds() const;

 private:
  struct Group {
    const Entry& e;
    double from;
    bool kept = false;     // something comes in time
    bool done = false;     // and no more is to be found out
    double needs = 1e300;  // m, the least bound of what was found to be late
  };
  // Keys and bounds agree but for the last bits; numeric.
  static constexpr double kRounded = 1.0 + 1e-9;

  bool asked_of(const Entry& e) const;
  bool comes_too_late(const Entry& e, double from);
  LateBlocks::Way way_of(const Entry& e) const;
  void look(Group& group, int a, int b);
  void look_at_spots(Group& group, const TreeNode& a, const TreeNode& b);
  void look_at_pair(Group& group, const SurfacePiece& p, const SurfacePiece& q);
  // m, from below.
  double bound(const Group& group, int a, int b) const;
  double from_patch(const Group& group, double effort) const;
  bool late(Group& group, double bound) const;
  bool is_free(const SurfacePiece& p, const SurfacePiece& q) const;
  double& least_free(const Group& group) {
    return least_free_[static_cast<std::size_t>(group.e.pb)];
  }

  const std::vector<PatchPtr>& patches_;
  const Quest& quest_;
  const geom::RayScene& scene_;
  const LinkRules& rules_;
  const Unfolded& places_;
  OverWalls& walls_;
  std::vector<double> least_free_;  // m, by patch: the least key of a flight known to be free
  std::set<std::pair<int, int>> compared_;  // from which patch to which
  std::int64_t left_out_ = 0;
};

}  // namespace hummock::leap
