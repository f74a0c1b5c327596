// Places as the search sees them: patches of spots under a tree of boxes.
//
// A spot is a small piece of surface: a point of it and the box that holds all of it. The pieces
// of a patch cover it, so a bound over boxes is a bound over the surface itself and not only over
// sample points. A patch is what the animal moves about in without a leap.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "geometry/vec.h"

namespace hummock::leap {

struct SurfacePiece {
  geom::Vec3 at;       // a point of the piece, lifted kLift off the surface
  geom::Box3 cell;     // holds the whole piece, not lifted
  bool hook = false;   // an edge: `grip` is taken off the rise to it
  bool cling = false;  // climbed, too steep to stand: only the cling share from here
  bool slid = false;   // steep ground, slid down to: nobody leaps up on to it
  int fold = -1;       // of a folded patch (Folds): the pieces that this one stands for
};
inline constexpr double kLift = 2e-3;  // m, so that float rays leave the surface they start on

inline constexpr const char* kWaterName = "the water";

enum class PatchKind { ground, thing, exit };
enum class ExitKind { none, barrier_top, overhang_tip, roof_edge, beyond, house_hole };

struct TreeNode {
  geom::Box3 box;
  int left = -1;  // children are left and left + 1; -1 = leaf
  int first = 0;  // leaf: spots first … first + count − 1; inner: of all below
  int count = 0;
  bool hook = false;    // some spot below is an edge
  bool stand = false;   // some spot below is stood on
  bool folded = false;  // leaf: of pieces that stand for others
};

// What the pieces of a folded patch stand for. Each has the box and the marks that hold of all its
// own: bounds over it are bounds over them, and no flight is tried from it (ground/unfolded.h).
struct Patch;
class Folds {
 public:
  virtual ~Folds() = default;
  // Adds the pieces of one fold and part, the same ones in the same order each time. Thread-safe.
  virtual void unfold(int fold, int part, std::vector<SurfacePiece>& out) const = 0;
  // The same pieces under their tree, from before where they were asked for before. Thread-safe.
  virtual std::shared_ptr<const Patch> laid(int fold, int part) const = 0;
};

struct Patch {
  PatchKind kind = PatchKind::thing;
  ExitKind exit = ExitKind::none;
  int part = -1;         // index into Model::parts; -1 = ground, or the way through a house
  std::string name;      // of what it stands on
  double takeoff = 1.0;  // share of its leap it has from here: less when afloat
  // Ways of one room (passages/through_houses.h): from one to another it goes within, at this
  // effort, m, whatever stands between them outside.
  int room = -1;
  double up_within = 0.0;
  bool from_within = false;  // an exit that no flight leads to
  std::vector<SurfacePiece> pieces;
  std::vector<TreeNode> tree;          // root first; spots are in the leaves' order
  std::shared_ptr<const Folds> folds;  // what the pieces stand for; nothing: they are all there is
  int part_of_folds = 0;
  bool climbed = false;  // ground: some of it is
};
inline bool is_exit(const Patch& patch) {
  return patch.exit != ExitKind::none;
}
// A way out that a flight may end at.
inline bool is_leapt_to(const Patch& patch) {
  return is_exit(patch) && !patch.from_within;
}
// The way through a house, which is no thing of its own (passages/through_houses.h).
inline bool is_passage(const Patch& patch) {
  return patch.kind == PatchKind::thing && patch.part < 0;
}
using PatchPtr = std::shared_ptr<const Patch>;

// Orders the spots and builds the tree: halves at the median of the longest side, leaves of at
// most four, or of one fold. O(n log n); the same result for the same spots in the same order. A
// patch needs at least one spot.
void build_tree(Patch& patch);

// A tree over the patches themselves, by their root boxes. Leaves hold one patch.
struct PatchTree {
  struct Node {
    geom::Box3 box;
    int left = -1;  // children left, left + 1; -1 = leaf
    int parent = -1;
    int patch = -1;  // leaf
    int count = 0;   // patches below
    bool hook = false;
  };
  std::vector<Node> nodes;   // root first; empty without patches
  std::vector<int> leaf_of;  // by patch; -1 = not in this tree
};
PatchTree build_patch_tree(const std::vector<PatchPtr>& patches, const std::vector<int>& wanted);

}  // namespace hummock::leap
