#include "engine/model/build/overhang_profile.h"

#include <algorithm>
#include <cmath>

namespace hummock {

double OverhangProfile::rise_at(double u) const {
  if (share.size() == 2) return rise.back() * u;
  const auto next = std::upper_bound(share.begin(), share.end(), u);
  const auto k =
      std::clamp(next - share.begin(), std::ptrdiff_t{1}, std::ssize(share) - std::ptrdiff_t{1});
  const auto i = static_cast<std::size_t>(k);
  if (u == share[i]) return rise[i];
  const double t = (u - share[i - 1]) / (share[i] - share[i - 1]);
  return rise[i - 1] + (rise[i] - rise[i - 1]) * t;
}

OverhangProfile profile_of(const Overhang& overhang) {
  if (overhang.profile == Profile::straight) {
    return {overhang.length * std::cos(overhang.angle),
            {0.0, 1.0},
            {0.0, overhang.length * std::sin(overhang.angle)}};
  }
  const double turn = 0.5 * geom::kPi - overhang.angle;
  const double radius = overhang.length / turn;
  const int count = std::max(1, static_cast<int>(std::ceil(turn / kFacetTurn - 1e-9)));
  OverhangProfile out;
  out.reach = radius * (1.0 - std::cos(turn));
  for (int k = 0; k <= count; ++k) {
    const double at = turn * k / count;
    out.share.push_back(k == count ? 1.0 : radius * (1.0 - std::cos(at)) / out.reach);
    out.rise.push_back(radius * std::sin(at));
  }
  return out;
}

}  // namespace hummock
