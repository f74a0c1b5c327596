#include <algorithm>
#include <cmath>

#include "engine/base/input_error.h"
#include "engine/leap/ground/ground_folds.h"
#include "engine/leap/ground/unfolded.h"
#include "engine/leap/places/ground_slides.h"
#include "engine/leap/places/ground_squares.h"
#include "engine/leap/places/ground_tunnels.h"
#include "engine/leap/places/places.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Box3;
using geom::Vec2;

namespace {

std::shared_ptr<Patch> new_ground() {
  auto patch = std::make_shared<Patch>();
  patch->kind = PatchKind::ground;
  patch->name = "the ground";
  return patch;
}

class GroundAssembler {
 public:
  GroundAssembler(const Model& model, const PlaceRules& rules, SquareSampler& squares)
      : model_(model),
        rules_(rules),
        sampler_(squares),
        nx_(squares.squares().nx),
        ny_(squares.squares().ny) {}

  // `before`: the same ground before a thing was moved, or nothing.
  GroundPlaces run(std::shared_ptr<const GroundSurface> surface, std::int64_t laid_whole,
                   const GroundFolds* before = nullptr) {
    piece_ = BlockGrid<int>(nx_, ny_, 0);
    if (model_.site.leap_start)
      pieces_ = join_by_tunnels(model_, rules_, sampler_, split_by_walking(), piece_);
    first_water_ = pieces_;
    if (rules_.body.swims) split_waters();
    BlockGrid<char> slid = slide_down(model_, rules_, sampler_, piece_);
    GroundPlaces places;
    places.surface = std::move(surface);
    places.squares = std::make_shared<const GroundSquares>(sampler_.take());
    GroundFolds::Squares of{places.surface, places.squares, std::move(piece_), std::move(slid),
                            rules_.body.swims};
    places.folds = before != nullptr ? std::make_shared<const GroundFolds>(std::move(of), *before)
                                     : std::make_shared<const GroundFolds>(std::move(of));
    lay_patches(places, laid_whole);
    const double side = places.squares->side;
    places.living_area_m2 = static_cast<double>(places.folds->squares_lived_on()) * side * side;
    return places;
  }

 private:
  void lay_patches(GroundPlaces& places, std::int64_t laid_whole) const {
    const std::int64_t squares = static_cast<std::int64_t>(nx_) * ny_;
    const bool whole = squares <= laid_whole;
    // Of ground laid whole the blocks' boxes are asked by nobody.
    std::vector<std::vector<SurfacePiece>> pieces =
        whole ? places.folds->all(pieces_) : places.folds->blocks(pieces_);
    if (pieces[0].empty()) refuse_no_ground();
    for (int k = 0; k < pieces_; ++k) {
      const auto patch = new_ground();
      if (!whole) patch->folds = places.folds;
      patch->part_of_folds = k;
      patch->climbed = places.folds->any_climbed(k);
      patch->pieces = std::move(pieces[static_cast<std::size_t>(k)]);
      if (k >= first_water_) {
        patch->name = kWaterName;
        patch->takeoff = rules_.ability.water;
      }
      build_tree(*patch);
      places.patches.push_back(patch);
    }
  }

  // Numbers the pools: water squares side by side at one level.
  void split_waters() {
    BlockGrid<char> seen(nx_, ny_, 0);
    const auto& state = sampler_.squares().state;
    const auto dry = [&](int bi, int bj) {
      const std::optional<char> all = state.whole(bi, bj);
      return all && *all != kWater;
    };
    by_rows(nx_, ny_, dry, [&](int i, int j) {
      if (state.at(i, j) == kWater && seen.at(i, j) == 0) flood_pool(i, j, pieces_++, seen);
    });
  }

  void flood_pool(int i, int j, int number, BlockGrid<char>& seen) {
    constexpr double kOneLevel = 1e-6;  // m
    const auto level_at = [&](int a, int b) {
      return sampler_.surface().water_level(sampler_.point(a, b));
    };
    const double level = level_at(i, j);
    std::vector<std::pair<int, int>> open{{i, j}};
    seen.set(i, j, 1);
    while (!open.empty()) {
      const auto [x, y] = open.back();
      open.pop_back();
      piece_.set(x, y, number);
      for (const auto& [a, b] : {std::pair{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}}) {
        if (a < 0 || b < 0 || a >= nx_ || b >= ny_ || sampler_.state(a, b) != kWater) continue;
        if (seen.at(a, b) != 0 || std::abs(level_at(a, b) - level) > kOneLevel) continue;
        seen.set(a, b, 1);
        open.emplace_back(a, b);
      }
    }
  }

  bool walkable(int i, int j, int a, int b) const {
    if (a < 0 || b < 0 || a >= nx_ || b >= ny_) return false;
    if (sampler_.state(a, b) != kPlace) return false;
    if (!sampler_.near_things(i, j) && !sampler_.near_things(a, b)) return true;
    return step_free(model_, rules_, sampler_, i, j, a, b);
  }

  // Numbers the parts one can walk within; the start's part is 0.
  int split_by_walking() {
    piece_ = BlockGrid<int>(nx_, ny_, -1);
    const Vec2 start = *model_.site.leap_start;
    require_start(start);
    int pieces = 0;
    flood(sampler_.column(start.x), sampler_.row(start.y), pieces++);
    const auto& state = sampler_.squares().state;
    const auto settled = [&](int bi, int bj) {
      const std::optional<char> all = state.whole(bi, bj);
      const std::optional<int> piece = piece_.whole(bi, bj);
      return (all && *all != kPlace) || (piece && *piece >= 0);
    };
    by_rows(nx_, ny_, settled, [&](int i, int j) {
      if (state.at(i, j) == kPlace && piece_.at(i, j) < 0) flood(i, j, pieces++);
    });
    return pieces;
  }

  // All of it a place, with nothing near: walked all over.
  bool open_block(int bi, int bj) const {
    return sampler_.squares().state.is_whole(bi, bj, kPlace) &&
           sampler_.squares().near.is_whole(bi, bj, 0);
  }

  void flood(int i, int j, int number) {
    Flood open;
    reach(i, j, number, open);
    while (!open.empty()) {
      const Reached r = open.back();
      open.pop_back();
      const auto on = [&](int x, int y, int a, int b) {
        if (a < 0 || b < 0 || a >= nx_ || b >= ny_ || piece_.at(a, b) >= 0) return;
        if (walkable(x, y, a, b)) reach(a, b, number, open);
      };
      const int bi = r.i0 / kBlock, bj = r.j0 / kBlock;
      if (!onto_block(r, bi, bj - 1, number, open))
        for (int x = r.i0; x <= r.i1; ++x) on(x, r.j0, x, r.j0 - 1);
      if (!onto_block(r, bi, bj + 1, number, open))
        for (int x = r.i0; x <= r.i1; ++x) on(x, r.j1, x, r.j1 + 1);
      if (!onto_block(r, bi - 1, bj, number, open))
        for (int y = r.j0; y <= r.j1; ++y) on(r.i0, y, r.i0 - 1, y);
      if (!onto_block(r, bi + 1, bj, number, open))
        for (int y = r.j0; y <= r.j1; ++y) on(r.i1, y, r.i1 + 1, y);
    }
  }

  // A square, or all of its block where that is open.
  struct Reached {
    int i0, j0, i1, j1;
  };
  using Flood = std::vector<Reached>;

  // From an open block on to the one beside it where that is open too, or reached all over: all
  // that its squares would come on to there. False: they are to be asked one by one.
  bool onto_block(const Reached& from, int bi, int bj, int number, Flood& open) {
    if (!open_block(from.i0 / kBlock, from.j0 / kBlock)) return false;
    if (bi < 0 || bj < 0 || bi >= piece_.across() || bj >= piece_.up()) return true;
    const std::optional<int> piece = piece_.whole(bi, bj);
    if (piece && *piece >= 0) return true;
    if (!open_block(bi, bj)) return false;
    reach(bi * kBlock, bj * kBlock, number, open);
    return true;
  }

  void reach(int i, int j, int number, Flood& open) {
    const int bi = i / kBlock, bj = j / kBlock;
    if (!open_block(bi, bj)) {
      piece_.set(i, j, number);
      open.push_back({i, j, i, j});
      return;
    }
    piece_.set_block(bi, bj, number);
    open.push_back(
        {bi * kBlock, bj * kBlock, BlockGrid<int>::last(bi, nx_), BlockGrid<int>::last(bj, ny_)});
  }

  void require_start(Vec2 start) const {
    const Where where{model_.site.file.string(), 0, "leap.start"};
    const Vec2 told = model_.to_site(start);
    const std::string found = "[" + std::to_string(told.x) + ", " + std::to_string(told.y) + "]";
    if (!geom::contains(model_.outline, start)) {
      throw InputError(where, found + ", outside the boundary", "a point inside the outline");
    }
    if (sampler_.state(sampler_.column(start.x), sampler_.row(start.y)) != kPlace) {
      throw InputError(where, found + ", where the animal cannot stand",
                       "open ground it can stand on, not in a house, solid or deep water");
    }
  }

  [[noreturn]] void refuse_no_ground() const {
    Where where = model_.site.boundary.where;
    if (where.key.empty()) where.key = "boundary";
    throw InputError(where, "no ground the animal can live on inside the outline",
                     "some ground no steeper than stand_slope that no house, solid or deep water "
                     "covers");
  }

  const Model& model_;
  const PlaceRules& rules_;
  SquareSampler& sampler_;
  int nx_, ny_;
  int pieces_ = 1;
  int first_water_ = 1;  // pieces from here on are pools
  BlockGrid<int> piece_;
};

}  // namespace

GroundSquares near_of(const GroundPlaces& ground) {
  GroundSquares known;
  if (!ground.squares) return known;
  known.side = ground.squares->side;
  known.near = ground.squares->near;
  known.near_crouch = ground.squares->near_crouch;
  return known;
}

GroundPlaces ground_places(const Model& model, const PlaceRules& rules, std::int64_t laid_whole,
                           const GroundSquares& known) {
  auto surface = std::make_shared<const GroundSurface>(model, rules);
  SquareSampler sampler(model, rules, surface);
  sampler.sample_all(known);
  return GroundAssembler(model, rules, sampler).run(std::move(surface), laid_whole);
}

GroundPlaces ground_places_again(const Model& model, const PlaceRules& rules,
                                 const GroundPlaces& before, const std::vector<Box3>& changed) {
  SquareSampler sampler(model, rules, before.surface);
  sampler.sample_again(*before.squares, changed);
  return GroundAssembler(model, rules, sampler)
      .run(before.surface, kLaidWhole, changed.empty() ? nullptr : before.folds.get());
}

}  // namespace hummock::leap
