// Is the whole of an animal in shade, or only the ground under it?
//
// What is dark on the ground may be lit a body's height above it: litter, a kerb, the rim of every
// shadow. An animal is in shade where both the ground and the place straight above it at the
// animal's height get less of the beam than asked; what stands between the two is not asked. The
// height is the body's, standing: the careful side, for how low it lies no figure tells.
//
// The upper place is lit as a node of the ground is (fast_beam.h), the ground beneath it standing
// before the sun like everything else; only nodes dark on the ground are asked.
#pragma once

#include <optional>

#include "engine/shade/beam/step_beam.h"
#include "engine/shade/day/tile_sums.h"

namespace hummock::shade {

// The box and all that lies up to `height` over it: who asks for what is near must ask for this.
geom::Box3 with_body(geom::Box3 box, double height);

class OverBody {
 public:
  // `fast` and `tile` must outlive it; height in m.
  OverBody(const FastBeam& fast, const Tile& tile, double height);

  // Takes from `shaded` the nodes above which an animal's back gets `shaded_below` or more.
  // `shadows`: laid out for the tile with what lies over it.
  void take_lit(const StepShadows& shadows, double shaded_below, TileRows& shaded);

 private:
  void lift();

  const FastBeam& fast_;
  const Tile& tile_;
  double up_;                   // m from the lifted node
  std::optional<Tile> lifted_;  // made when first asked
  TileBeam beam_, scratch_;
};

}  // namespace hummock::shade
