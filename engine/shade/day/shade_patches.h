// Of a set of shaded nodes, those in patches the animal's body fits.
//
// What a patch is: engine/usable/body_patches.h, the same to the node (tested). Here 64 nodes a
// word, because a day asks it at every step.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "geometry/plan/grid.h"

namespace hummock::shade {

// A bit a node, row by row, with words of nothing before and after each row.
struct NodeBits {
  NodeBits(const geom::Grid& grid, int pad_words);
  int nx = 0, ny = 0;
  int pad = 0, words = 0;  // words of nothing on either side; words a row between them
  std::vector<std::uint64_t> bits;
  std::uint64_t* row(int j) {
    return bits.data() + static_cast<std::size_t>(j) * static_cast<std::size_t>(words + 2 * pad) +
           pad;
  }
  const std::uint64_t* row(int j) const { return const_cast<NodeBits*>(this)->row(j); }
  // Sets 16 nodes from (i, j) on, i a multiple of 16: bit k is node i + k.
  void set16(int i, int j, std::uint16_t nodes) {
    row(j)[i / 64] |= static_cast<std::uint64_t>(nodes) << (i % 64);
  }
  std::size_t count() const;
};

class ShadePatches {
 public:
  // The body's length and width, m.
  ShadePatches(const geom::Grid& grid, double length, double width);
  NodeBits none() const { return {grid_, pad_}; }
  // Nodes of `standing` in patches the body fits.
  NodeBits fitting(const NodeBits& standing) const;

 private:
  using Offsets = std::vector<std::pair<int, int>>;
  NodeBits eroded(const NodeBits& from, const Offsets& shape, const NodeBits& within) const;
  void dilate_onto(const NodeBits& from, NodeBits& onto) const;

  geom::Grid grid_;
  int pad_ = 1;
  Offsets body_, grown_;        // where no other node may be; how far a patch reaches
  std::vector<Offsets> lying_;  // the rectangles it lies in
};

}  // namespace hummock::shade
