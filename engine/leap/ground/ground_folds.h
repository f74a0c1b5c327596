// The ground's pieces, block by block: laid where they are asked for (patch.h, Folds).
//
// A hillside of some hectares has tens of millions of squares, of which a search looks at those
// beside the fence and about the things. So a patch of ground holds its blocks, kBlock squares to
// a side, each under a box that holds its squares'; what is found over boxes is a bound from below,
// and no answer is taken from a block: where one may bear it, its squares are laid, the same ones
// as if all had been.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

#include "engine/leap/ground/ground_surface.h"

namespace hummock::leap {

class GroundFolds : public Folds {
 public:
  // What each square is, and whose.
  struct Squares {
    std::shared_ptr<const GroundSurface> surface;
    std::shared_ptr<const GroundSquares> squares;
    BlockGrid<int> part;
    BlockGrid<char> slid;  // steep, and slid down to
    bool swims = false;
  };
  explicit GroundFolds(Squares of) : of_(std::move(of)) {}
  // The same ground after a thing was moved, and perhaps moved again: what is laid is kept, and of
  // what was kept before that where the squares it was laid from are the same.
  GroundFolds(Squares of, const GroundFolds& before);

  void unfold(int block, int part, std::vector<SurfacePiece>& out) const override;
  PatchPtr laid(int block, int part) const override;
  std::size_t kept() const;  // blocks, of those laid

  // The blocks of each part, in rows from the south, as pieces that are folded; part by part below
  // `parts`.
  std::vector<std::vector<SurfacePiece>> blocks(int parts) const;
  // The pieces themselves of each part, block by block in the same order.
  std::vector<std::vector<SurfacePiece>> all(int parts) const;
  std::int64_t squares_lived_on() const;  // of part 0, those slid down to left out
  int part_at(int i, int j) const { return of_.part.at(i, j); }
  bool any_climbed(int part) const;

 private:
  char state(int i, int j) const { return of_.squares->state.at(i, j); }
  bool slid(int i, int j) const { return of_.slid.at(i, j) != 0; }
  // Of a block: no square is used; or all are, of one part.
  bool unused(int bi, int bj) const;
  std::optional<int> whole(int bi, int bj) const;
  bool afloat(int i, int j) const { return of_.swims && state(i, j) == kWater; }
  bool used(int i, int j) const { return state(i, j) == kPlace || afloat(i, j) || slid(i, j); }
  bool beside_steep(int i, int j) const;
  bool any_of_state(char wanted, int i0, int j0, int i1, int j1) const;
  geom::Box3 cell_of(int i, int j) const;
  // The same, of the surface's own cell there.
  geom::Box3 afloat_from(int i, int j, geom::Box3 cell) const;
  struct Square {
    int i, j;
    double middle;   // m, the height there
    bool any_steep;  // false: none beside it is steep
  };
  SurfacePiece piece_of(const Square& square, const geom::Box3& cell) const;
  struct Range {
    int part, i0, j0, i1, j1;  // the squares from the first to the last used on either axis
  };
  std::vector<Range> ranges_of(int bi, int bj) const;
  SurfacePiece block_of(int block, int i0, int j0, int i1, int j1) const;
  int blocks_across() const { return of_.part.across(); }
  bool lays_the_same(const GroundFolds& other, int block) const;

  // Blocks kept under their trees, some 30 kB each: a search asks for those beside the fence and
  // about the things, and after a move for the same ones. So many are a paddock's of five hectares.
  static constexpr std::size_t kMostKept = 4096;  // numeric, a setting: no answer hangs on it

  Squares of_;
  std::size_t most_kept_ = 0;
  mutable std::mutex keeping_;
  mutable std::map<std::pair<int, int>, PatchPtr> kept_;  // by block and part
};

}  // namespace hummock::leap
