// The effort that takes a flight over all that stands between two places, by where it is left from.
//
// walls_between.h tells how high a flight must come. How far the wall lies off counts besides: what
// is thrown with an effort passes no point outside its parabola of safety (effort.h), so that a
// flight from a box needs at least the effort to the nearest point of a wall that it cannot go
// round. Of two basins the effort between is the least over all ways of the dearest saddle on the
// way, each saddle's told from the box itself. kBeside is taken off the distance: a saddle lies
// between two nodes, and the lattice's way beside the flight's.
//
// Asked of a box once and kept. After kMostEfforts only the height is told, which bounds too.
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "engine/leap/ground/unfolded.h"
#include "engine/leap/search/links.h"
#include "engine/leap/search/walls_between.h"

namespace hummock::leap {

class OverWalls {
 public:
  static constexpr double kBeside = 1.0;                  // steps; numeric
  static constexpr std::int64_t kMostEfforts = 20000000;  // numeric, a limit of work

  // Keeps references.
  OverWalls(const std::vector<PatchPtr>& patches, const Unfolded& places, const LinkRules& rules,
            const KnownWalls::Ask& ask)
      : patches_(patches), places_(places), rules_(rules), walls_(ask) {}

  void ask() { walls_.ask(); }
  bool any() const { return walls_.any(); }
  // False: of the flights and steps from the one patch to the other nothing is told, of any box.
  bool stand_between(int from, int to) {
    return any() && walls_.between(static_cast<std::size_t>(from), static_cast<std::size_t>(to)) >
                        WallsBetween::kNothing;
  }
  // m, of a flight from the one to the other, as its patch lets it be made; 0 where nothing stands
  // between, or within a limb's reach. Of what may be stepped across it is how far that stands
  // above the box, wherever it is.
  double of_nodes(int from, int node, int to, int node_to);
  double of_pieces(int from, int piece, int to, int piece_to);

 private:
  double of_boxes(int from, std::int64_t key, const geom::Box3& a, int to, const geom::Box3& b,
                  bool hook);
  double rise(int from, const geom::Box3& box, int to);
  double from_box(int from, std::int64_t key, const geom::Box3& box, int to);
  std::vector<double> to_basins(int from, const geom::Box3& box);

  const std::vector<PatchPtr>& patches_;
  const Unfolded& places_;
  const LinkRules& rules_;
  KnownWalls walls_;
  std::int64_t efforts_ = 0;
  struct Hash {
    std::size_t operator()(const std::pair<int, std::int64_t>& key) const {
      return static_cast<std::size_t>(
          (static_cast<std::uint64_t>(key.first) * 0x9E3779B97F4A7C15ULL) ^
          (static_cast<std::uint64_t>(key.second) * 0xBF58476D1CE4E5B9ULL));
    }
  };
  std::unordered_map<std::pair<int, std::int64_t>, std::vector<double>, Hash> told_;
};

}  // namespace hummock::leap
