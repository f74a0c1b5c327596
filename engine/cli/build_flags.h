// What every command that builds a model takes: allowances, and what to do about its memory.
#pragma once

#include "engine/cli/command_line.h"
#include "engine/model/model.h"

namespace hummock::cli {

struct BuildFlags {
  double snow = 0.0;
  double growth_percent = 0.0;
  double scour = 0.0;
  bool foresee = false;
  bool all_the_same = false;

  void add_to(Command& command) {
    command.number("--snow", snow, {0.0, 20.0}, "metres of snow or drifted sand on the ground")
        .number("--growth", growth_percent, {0.0, 500.0},
                "percent by which trees and plantings have grown")
        .number("--scour", scour, {0.0, 5.0}, "metres of ground lost near the fence")
        .flag("--foresee", foresee, "say how much memory this would take at its peak, and end")
        .flag("--all-the-same", all_the_same, "begin even if more memory is foreseen than is free");
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
