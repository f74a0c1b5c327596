// How low and how high an upright sheet reaches, along its line.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "geometry/vec.h"

namespace hummock::openings {

using geom::Vec2;

// A triangle of the sheet, or the straight piece in which a solid is cut by the sheet's plane (then
// the last two corners are the same): x along the line, y height.
using BandPiece = std::array<Vec2, 3>;

// Least and greatest height of the pieces over each stretch between their corners. Straight within
// a stretch, so exact.
class SheetBand {
 public:
  explicit SheetBand(const std::vector<BandPiece>& pieces);

  struct Reach {
    double low = 0.0, high = 0.0;  // m
  };
  // At x, on the stretch that holds `within`; nothing where the sheet has a gap.
  std::optional<Reach> at(double x, double within) const;

  const std::vector<double>& breaks() const { return breaks_; }

 private:
  struct Stretch {
    bool any = false;
    Reach from, to;
  };
  std::vector<double> breaks_;      // rising
  std::vector<Stretch> stretches_;  // one fewer
};

}  // namespace hummock::openings
