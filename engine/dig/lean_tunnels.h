// Tunnels shorter than the upright plane's because they lean along the fence.
#pragma once

#include <limits>
#include <optional>

#include "engine/dig/lean_section.h"

namespace hummock::dig {

// A tunnel in a station's section, upright or leaning.
struct Dug {
  Tunnel tunnel;  // its depth is below the ground straight above
  std::optional<Lean> lean;
};

// The tunnel in space, from inside to outside.
std::vector<Vec3> laid_out(const StationPlace& place, const Dug& dug);

// The station's shortest tunnel no deeper than `max_depth`, given that of its upright plane, in the
// section of which either half leans towards the ground that is nearest to where the tunnel last
// bends there. `from_point`: the tunnel starts in the soil, and its one plane leans as its way out.
Dug leaning(const Model& model, const BuriedParts& parts, const StationPlace& place,
            const Tunnel& upright, double max_depth = std::numeric_limits<double>::infinity(),
            bool from_point = false);

}  // namespace hummock::dig
