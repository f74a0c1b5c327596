#include "engine/openings/sheet_band.h"

#include <algorithm>
#include <cmath>

namespace hummock::openings {

namespace {

constexpr double kSame = 1e-9;  // m

// Where the upright line at x meets the piece, on the side of `within`.
SheetBand::Reach cut_piece(const BandPiece& piece, double x, double within) {
  SheetBand::Reach reach{1e300, -1e300};
  for (std::size_t k = 0; k < 3; ++k) {
    const Vec2 p = piece[k];
    const Vec2 q = piece[(k + 1) % 3];
    if (std::min(p.x, q.x) >= within || std::max(p.x, q.x) <= within) continue;
    const double y = p.y + (q.y - p.y) * (x - p.x) / (q.x - p.x);
    reach.low = std::min(reach.low, y);
    reach.high = std::max(reach.high, y);
  }
  return reach;
}

void widen(SheetBand::Reach& reach, const SheetBand::Reach& by) {
  reach.low = std::min(reach.low, by.low);
  reach.high = std::max(reach.high, by.high);
}

}  // namespace

SheetBand::SheetBand(const std::vector<BandPiece>& pieces) {
  for (const BandPiece& piece : pieces) {
    for (const Vec2& p : piece) breaks_.push_back(p.x);
  }
  std::sort(breaks_.begin(), breaks_.end());
  breaks_.erase(
      std::unique(breaks_.begin(), breaks_.end(), [](double a, double b) { return b - a < kSame; }),
      breaks_.end());
  if (breaks_.size() < 2) {
    breaks_.clear();
    return;
  }
  const Reach none{1e300, -1e300};
  stretches_.assign(breaks_.size() - 1, {false, none, none});
  for (const BandPiece& piece : pieces) {
    const auto [lo, hi] = std::minmax({piece[0].x, piece[1].x, piece[2].x});
    auto k = static_cast<std::size_t>(std::lower_bound(breaks_.begin(), breaks_.end(), lo - kSame) -
                                      breaks_.begin());
    for (; k + 1 < breaks_.size() && breaks_[k] < hi - kSame; ++k) {
      const double middle = 0.5 * (breaks_[k] + breaks_[k + 1]);
      stretches_[k].any = true;
      widen(stretches_[k].from, cut_piece(piece, breaks_[k], middle));
      widen(stretches_[k].to, cut_piece(piece, breaks_[k + 1], middle));
    }
  }
}

std::optional<SheetBand::Reach> SheetBand::at(double x, double within) const {
  const auto it = std::upper_bound(breaks_.begin(), breaks_.end(), within);
  if (it == breaks_.begin() || it == breaks_.end()) return std::nullopt;
  const auto k = static_cast<std::size_t>(it - breaks_.begin()) - 1;
  const Stretch& s = stretches_[k];
  if (!s.any) return std::nullopt;
  const double t = (x - breaks_[k]) / (breaks_[k + 1] - breaks_[k]);
  return Reach{s.from.low + (s.to.low - s.from.low) * t,
               s.from.high + (s.to.high - s.from.high) * t};
}

}  // namespace hummock::openings
