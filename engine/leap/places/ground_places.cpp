#include <algorithm>
#include <cmath>

#include "engine/base/input_error.h"
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

// Is some piece of the patch within the limit of the box?
bool within_leap(const LinkRules& links, const Box3& from, const Patch& to) {
  if (to.tree.empty()) return false;
  std::vector<int> open{0};
  while (!open.empty()) {
    const TreeNode& node = to.tree[static_cast<std::size_t>(open.back())];
    open.pop_back();
    if (link_bound(links, from, true, node.box, node.hook) > links.limit) continue;
    if (node.left < 0) return true;
    open.push_back(node.left);
    open.push_back(node.left + 1);
  }
  return false;
}

bool within_reach_of_any(const LinkRules& links, const Box3& from, const PatchTree& tree,
                         const std::vector<PatchPtr>& patches) {
  if (tree.nodes.empty()) return false;
  std::vector<int> open{0};
  while (!open.empty()) {
    const PatchTree::Node& node = tree.nodes[static_cast<std::size_t>(open.back())];
    open.pop_back();
    if (link_bound(links, from, true, node.box, node.hook) > links.limit) continue;
    if (node.patch >= 0) {
      if (within_leap(links, from, *patches[static_cast<std::size_t>(node.patch)])) return true;
    } else {
      open.push_back(node.left);
      open.push_back(node.left + 1);
    }
  }
  return false;
}

class GroundAssembler {
 public:
  GroundAssembler(const Model& model, const PlaceRules& rules, const GroundUse& use,
                  SquareSampler& squares)
      : model_(model),
        rules_(rules),
        use_(use),
        sampler_(squares),
        nx_(squares.squares().nx),
        ny_(squares.squares().ny),
        climbs_earth_(std::find(rules.climbs.begin(), rules.climbs.end(), "earth") !=
                      rules.climbs.end()) {}

  GroundPlaces run() {
    piece_.assign(sampler_.squares().state.size(), 0);
    if (model_.site.leap_start)
      pieces_ = join_by_tunnels(model_, rules_, sampler_, split_by_walking(), piece_);
    first_water_ = pieces_;
    if (rules_.body.swims) split_waters();
    slid_ = slide_down(model_, rules_, sampler_, piece_);
    gather_blocks();
    GroundPlaces places;
    std::vector<std::shared_ptr<Patch>> patches;
    patches.reserve(static_cast<std::size_t>(pieces_));
    for (int k = 0; k < pieces_; ++k) {
      patches.push_back(new_ground());
      if (k < first_water_) continue;
      patches.back()->name = kWaterName;
      patches.back()->takeoff = rules_.ability.water;
    }
    lay_spots(patches);
    if (patches[0]->pieces.empty()) refuse_no_ground();
    for (auto& patch : patches) {
      build_tree(*patch);
      places.patches.push_back(patch);
    }
    places.living_area_m2 =
        static_cast<double>(living_) * sampler_.squares().side * sampler_.squares().side;
    places.squares = sampler_.take();
    return places;
  }

 private:
  struct Block {
    int i, j, piece;
    Box3 box;
    std::size_t squares = 0;
    bool fine = false;  // its squares are laid one by one
  };

  template <class Visit>
  void in_block(int bi, int bj, Visit visit) const {
    for (int j = bj; j < std::min(ny_, bj + kBlock); ++j) {
      for (int i = bi; i < std::min(nx_, bi + kBlock); ++i) {
        const int piece = piece_[sampler_.index(i, j)];
        const bool used = sampler_.state(i, j) == kPlace || afloat(i, j) || slid(i, j);
        if (used) visit(i, j, piece);
      }
    }
  }

  bool slid(int i, int j) const { return slid_[sampler_.index(i, j)] != 0; }
  bool afloat(int i, int j) const { return rules_.body.swims && sampler_.state(i, j) == kWater; }

  // Numbers the pools: water squares side by side at one level.
  void split_waters() {
    std::vector<char> seen(piece_.size(), 0);
    for (int j = 0; j < ny_; ++j) {
      for (int i = 0; i < nx_; ++i) {
        if (sampler_.state(i, j) == kWater && seen[sampler_.index(i, j)] == 0) {
          flood_pool(i, j, pieces_++, seen);
        }
      }
    }
  }

  void flood_pool(int i, int j, int number, std::vector<char>& seen) {
    constexpr double kOneLevel = 1e-6;  // m
    const double level = sampler_.water_level(sampler_.point(i, j));
    std::vector<std::pair<int, int>> open{{i, j}};
    seen[sampler_.index(i, j)] = 1;
    while (!open.empty()) {
      const auto [x, y] = open.back();
      open.pop_back();
      piece_[sampler_.index(x, y)] = number;
      for (const auto& [a, b] : {std::pair{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}}) {
        if (a < 0 || b < 0 || a >= nx_ || b >= ny_ || sampler_.state(a, b) != kWater) continue;
        if (seen[sampler_.index(a, b)] != 0) continue;
        if (std::abs(sampler_.water_level(sampler_.point(a, b)) - level) > kOneLevel) continue;
        seen[sampler_.index(a, b)] = 1;
        open.emplace_back(a, b);
      }
    }
  }

  void gather_blocks() {
    for (int bj = 0; bj < ny_; bj += kBlock) {
      for (int bi = 0; bi < nx_; bi += kBlock) {
        const std::size_t first = blocks_.size();
        in_block(bi, bj, [&](int i, int j, int piece) {
          if (piece == 0 && !slid(i, j)) ++living_;
          const auto end = blocks_.end();
          auto it = std::find_if(blocks_.begin() + static_cast<std::ptrdiff_t>(first), end,
                                 [&](const Block& b) { return b.piece == piece; });
          if (it == end) it = blocks_.insert(end, {bi, bj, piece, {}, 0, false});
          it->box.add(cell_of(i, j));
          ++it->squares;
        });
      }
    }
  }

  void lay_spots(std::vector<std::shared_ptr<Patch>>& patches) {
    find_fine();
    std::vector<std::size_t> count(patches.size(), 0);
    for (const Block& block : blocks_)
      count[static_cast<std::size_t>(block.piece)] += block.fine ? block.squares : 1;
    for (std::size_t k = 0; k < patches.size(); ++k) patches[k]->pieces.reserve(count[k]);
    for (const Block& block : blocks_) {
      Patch& patch = *patches[static_cast<std::size_t>(block.piece)];
      bool joined = false;
      in_block(block.i, block.j, [&](int i, int j, int piece) {
        if (piece != block.piece || joined) return;
        patch.pieces.push_back(spot(i, j));
        if (block.fine) return;
        patch.pieces.back().cell = block.box;
        patch.pieces.back().slid = false;
        joined = true;
      });
    }
  }

  // Those that something else is within a leap of.
  void find_fine() {
    std::vector<int> wanted;
    for (std::size_t k = 0; k < use_.targets->size(); ++k) wanted.push_back(static_cast<int>(k));
    const PatchTree tree = build_patch_tree(*use_.targets, wanted);
    const std::vector<PatchPtr> coarse = coarse_pieces();
    for (Block& block : blocks_) {
      block.fine = within_reach_of_any(*use_.links, block.box, tree, *use_.targets);
      for (std::size_t k = 0; k < coarse.size() && !block.fine; ++k) {
        block.fine =
            static_cast<int>(k) != block.piece && within_leap(*use_.links, block.box, *coarse[k]);
      }
    }
  }

  // The parts of the ground by their blocks: enough to tell which blocks face another part.
  std::vector<PatchPtr> coarse_pieces() const {
    if (pieces_ < 2) return {};
    std::vector<std::shared_ptr<Patch>> coarse;
    coarse.reserve(static_cast<std::size_t>(pieces_));
    for (int k = 0; k < pieces_; ++k) coarse.push_back(new_ground());
    for (const Block& block : blocks_) {
      SurfacePiece spot;
      spot.cell = block.box;
      spot.hook = true;
      coarse[static_cast<std::size_t>(block.piece)]->pieces.push_back(spot);
    }
    for (auto& patch : coarse) {
      if (!patch->pieces.empty()) build_tree(*patch);
    }
    return {coarse.begin(), coarse.end()};
  }

  // From the bottom where it floats, so that it meets the shore.
  Box3 cell_of(int i, int j) const {
    Box3 cell = sampler_.cell(i, j);
    if (!afloat(i, j)) return cell;
    const double level = sampler_.water_level(sampler_.point(i, j));
    cell.lo.z = std::min(cell.lo.z, level);
    cell.hi.z = level;
    return cell;
  }

  SurfacePiece spot(int i, int j) const {
    const Vec2 p = sampler_.point(i, j);
    SurfacePiece spot;
    spot.cell = cell_of(i, j);
    if (afloat(i, j)) {
      spot.at = at_height(p, sampler_.water_level(p) + kLift);  // left from its surface
      return spot;
    }
    spot.at = at_height(p, geom::height_at(model_.ground, p) + kLift);
    spot.slid = slid(i, j);
    spot.hook = !spot.slid && beside_steep(i, j);
    spot.cling = climbs_earth_ && sampler_.steep(i, j);
    return spot;
  }

  bool beside_steep(int i, int j) const {
    for (const auto& [di, dj] : {std::pair{-1, 0}, {1, 0}, {0, -1}, {0, 1}}) {
      const int a = i + di;
      const int b = j + dj;
      if (a < 0 || b < 0 || a >= nx_ || b >= ny_) continue;
      if (sampler_.state(a, b) == kSteep) return true;
    }
    return false;
  }

  bool walkable(int i, int j, int a, int b) const {
    if (a < 0 || b < 0 || a >= nx_ || b >= ny_) return false;
    if (sampler_.state(a, b) != kPlace) return false;
    if (!sampler_.near_things(i, j) && !sampler_.near_things(a, b)) return true;
    return step_free(model_, rules_, sampler_, i, j, a, b);
  }

  // Numbers the parts one can walk within; the start's part is 0.
  int split_by_walking() {
    std::fill(piece_.begin(), piece_.end(), -1);
    const Vec2 start = *model_.site.leap_start;
    require_start(start);
    int pieces = 0;
    flood(sampler_.column(start.x), sampler_.row(start.y), pieces++);
    for (int j = 0; j < ny_; ++j) {
      for (int i = 0; i < nx_; ++i) {
        if (sampler_.state(i, j) == kPlace && piece_[sampler_.index(i, j)] < 0) {
          flood(i, j, pieces++);
        }
      }
    }
    return pieces;
  }

  void flood(int i, int j, int number) {
    std::vector<std::pair<int, int>> open{{i, j}};
    piece_[sampler_.index(i, j)] = number;
    while (!open.empty()) {
      const auto [x, y] = open.back();
      open.pop_back();
      // On along the row first: that lies side by side in memory.
      for (const auto& [a, b] : {std::pair{x, y - 1}, {x, y + 1}, {x - 1, y}, {x + 1, y}}) {
        if (a < 0 || b < 0 || a >= nx_ || b >= ny_ || piece_[sampler_.index(a, b)] >= 0) continue;
        if (!walkable(x, y, a, b)) continue;
        piece_[sampler_.index(a, b)] = number;
        open.emplace_back(a, b);
      }
    }
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
  const GroundUse& use_;
  SquareSampler& sampler_;
  int nx_, ny_;
  bool climbs_earth_;
  int pieces_ = 1;
  int first_water_ = 1;  // pieces from here on are pools
  std::int64_t living_ = 0;
  std::vector<int> piece_;  // by square
  std::vector<char> slid_;  // by square: steep, and slid down to
  std::vector<Block> blocks_;
};

}  // namespace

GroundPlaces ground_places(const Model& model, const PlaceRules& rules, const GroundUse& use) {
  SquareSampler sampler(model, rules);
  sampler.sample_all();
  return GroundAssembler(model, rules, use, sampler).run();
}

GroundPlaces ground_places_again(const Model& model, const PlaceRules& rules, const GroundUse& use,
                                 const GroundPlaces& before, const std::vector<Box3>& changed) {
  SquareSampler sampler(model, rules);
  sampler.sample_again(before.squares, changed);
  return GroundAssembler(model, rules, use, sampler).run();
}

}  // namespace hummock::leap
