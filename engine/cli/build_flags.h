// The allowances every command that builds a model takes.
#pragma once

#include <CLI/App.hpp>

#include "engine/cli/finite_range.h"
#include "engine/model/model.h"

namespace hummock::cli {

struct BuildFlags {
  double snow = 0.0;
  double growth_percent = 0.0;
  double scour = 0.0;

  void add_to(CLI::App& command) {
    command.add_option("--snow", snow, "metres of snow or drifted sand on the ground")
        ->check(finite_range(0.0, 20.0));
    command
        .add_option("--growth", growth_percent, "percent by which trees and plantings have grown")
        ->check(finite_range(0.0, 500.0));
    command.add_option("--scour", scour, "metres of ground lost near the fence")
        ->check(finite_range(0.0, 5.0));
  }
  BuildOptions options() const {
    BuildOptions build;
    build.snow = snow;
    build.growth = growth_percent / 100.0;
    build.scour = scour;
    return build;
  }
};

}  // namespace hummock::cli
