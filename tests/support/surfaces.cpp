#include "tests/support/surfaces.h"

#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/support/paths.h"

namespace hummock::tests {

geom::Heightfield volcano() {
  std::ifstream in(tests::test_data() + "/volcano.json");
  const nlohmann::json data = nlohmann::json::parse(in);
  geom::Heightfield ground;
  ground.grid = {0.0, 0.0, 10.0, data.at("width").get<int>(), data.at("height").get<int>()};
  ground.z.resize(ground.grid.size());
  for (int row = 0; row < ground.grid.ny; ++row)
    for (int i = 0; i < ground.grid.nx; ++i)
      ground.at(i, ground.grid.ny - 1 - row) =
          data.at("values")
              .at(static_cast<std::size_t>(row) * static_cast<std::size_t>(ground.grid.nx) +
                  static_cast<std::size_t>(i))
              .get<double>();
  return ground;
}

}  // namespace hummock::tests
