// What the browser needs to turn the model: the mesh, its layers, the day's suns, the library.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"
#include "engine/shade/shade.h"

namespace hummock::report {

struct TurnData {
  std::string glb;                   // bytes
  std::string json;                  // layers, suns, size: read by assets/report/turn.js
  std::vector<std::string> scripts;  // in order, ours last
  std::string licence;               // of the library, as text
};

// The ground is thinned to at most this many nodes; things standing on it are not.
inline constexpr std::size_t kMostNodes = 25'000;

// Nothing when the library is not installed. `folder` is where the mesh writer may work; it leaves
// nothing there.
std::optional<TurnData> turn_data(const Model& model, const std::optional<shade::Day>& day,
                                  const std::filesystem::path& folder, const Progress& progress);

// The model with every n-th node of its ground, the last ones kept. Used for looking only.
Model with_thinner_ground(const Model& model, std::size_t most_nodes);

}  // namespace hummock::report
