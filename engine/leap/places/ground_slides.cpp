#include "engine/leap/places/ground_slides.h"

#include <algorithm>
#include <array>

namespace hummock::leap {

using geom::Vec3;

namespace {

class Slide {
 public:
  Slide(const Model& model, const PlaceRules& rules, const SquareSampler& sampler,
        BlockGrid<int>& piece)
      : model_(model),
        rules_(rules),
        sampler_(sampler),
        piece_(piece),
        nx_(sampler.squares().nx),
        ny_(sampler.squares().ny),
        slid_(nx_, ny_, 0) {}

  BlockGrid<char> run() {
    const auto none = [&](int bi, int bj) { return none_beside_steep(bi, bj); };
    by_rows(nx_, ny_, none, [&](int i, int j) {
      if (sampler_.state(i, j) == kPlace && beside_steep(i, j)) from(i, j);
    });
    return std::move(slid_);
  }

 private:
  double height(int i, int j) const { return geom::height_at(model_.ground, sampler_.point(i, j)); }

  // Told by whole blocks: this one holds no place, or it is one all over, and so are those about
  // it.
  bool none_beside_steep(int bi, int bj) const {
    const auto& state = sampler_.squares().state;
    const std::optional<char> all = state.whole(bi, bj);
    if (!all) return false;
    if (*all != kPlace) return true;
    for (const auto& [a, b] : {std::pair{bi - 1, bj}, {bi + 1, bj}, {bi, bj - 1}, {bi, bj + 1}}) {
      if (a < 0 || b < 0 || a >= state.across() || b >= state.up()) continue;
      const std::optional<char> beside = state.whole(a, b);
      if (!beside || *beside == kSteep) return false;
    }
    return true;
  }

  bool beside_steep(int i, int j) const {
    const auto steep = [&](int a, int b) {
      return a >= 0 && b >= 0 && a < nx_ && b < ny_ && sampler_.state(a, b) == kSteep;
    };
    return steep(i - 1, j) || steep(i + 1, j) || steep(i, j - 1) || steep(i, j + 1);
  }

  void from(int i, int j) {
    std::vector<std::array<int, 2>> open{{i, j}};
    while (!open.empty()) {
      const auto [x, y] = open.back();
      open.pop_back();
      for (const auto& [a, b] : {std::pair{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}}) {
        if (!slides(x, y, a, b)) continue;
        slid_.set(a, b, 1);
        piece_.set(a, b, piece_.at(x, y));
        open.push_back({a, b});
      }
    }
  }

  bool slides(int x, int y, int a, int b) const {
    if (a < 0 || b < 0 || a >= nx_ || b >= ny_) return false;
    if (sampler_.state(a, b) != kSteep || slid_.at(a, b) != 0) return false;
    if (height(a, b) > height(x, y)) return false;
    if (others_near(a, b, piece_.at(x, y))) return false;
    if (!sampler_.near_things(x, y) && !sampler_.near_things(a, b)) return true;
    return sampler_.can_be(sampler_.point(a, b)) && step_free(model_, rules_, sampler_, x, y, a, b);
  }

  bool others_near(int i, int j, int own) const {
    constexpr int kRing = 2;  // squares: wider than what is stepped across
    for (int b = std::max(0, j - kRing); b <= std::min(ny_ - 1, j + kRing); ++b) {
      for (int a = std::max(0, i - kRing); a <= std::min(nx_ - 1, i + kRing); ++a) {
        const char state = sampler_.state(a, b);
        const bool used =
            state == kPlace || slid_.at(a, b) != 0 || (state == kWater && rules_.body.swims);
        if (used && piece_.at(a, b) != own) return true;
      }
    }
    return false;
  }

  const Model& model_;
  const PlaceRules& rules_;
  const SquareSampler& sampler_;
  BlockGrid<int>& piece_;
  int nx_, ny_;
  BlockGrid<char> slid_;
};

}  // namespace

bool step_free(const Model& model, const PlaceRules& rules, const SquareSampler& sampler, int i,
               int j, int a, int b) {
  const auto lifted = [&](int x, int y) {
    const Vec2 p = sampler.point(x, y);
    return at_height(p, geom::height_at(model.ground, p) + kLift);
  };
  const Vec3 p = lifted(i, j);
  const Vec3 q = lifted(a, b);
  const Vec3 head{0.0, 0.0, std::max(0.0, rules.body.crouch - 2.0 * kLift)};
  const Vec3 foot{0.0, 0.0, 0.02};
  return model.body_scene->segment_free(p + foot, q + foot) ||
         model.body_scene->segment_free(p + head, q + head);
}

BlockGrid<char> slide_down(const Model& model, const PlaceRules& rules,
                           const SquareSampler& sampler, BlockGrid<int>& piece) {
  return Slide(model, rules, sampler, piece).run();
}

}  // namespace hummock::leap
