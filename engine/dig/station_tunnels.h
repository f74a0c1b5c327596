// The tunnels of one station.
#pragma once

#include "engine/dig/dig.h"
#include "engine/dig/stations.h"

namespace hummock::dig {

// Measures the station. `with_tunnel`: also lays out the tunnel that counts, in the model's
// coordinates.
Station measure_station(const Model& model, const BuriedParts& parts, const StationPlace& place,
                        bool with_tunnel);

// "under the skirt", "round the apron's inner edge" …
std::string weakness_in_words(const Tunnel& tunnel, const StationPlace& place);

// An upright shaft, x metres inside the fence, `depth` deep and down to the height `floor` at
// least.
struct Shaft {
  double x = 0.0, depth = 0.0;  // m
  double floor = 0.0;           // m above datum
};
// The shortest tunnel to the ground outside from anywhere in it; looked at every 0.1 m down it, and
// closer about the shortest where it is `closer`.
Tunnel from_burrow(const Model& model, const BuriedParts& parts, const StationPlace& place,
                   const Shaft& shaft, double max_depth, bool closer = false);

}  // namespace hummock::dig
