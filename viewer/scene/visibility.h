// What the user has switched on.
#pragma once

#include "engine/model/model.h"

namespace hummock::viewer {

struct Show {
  bool fence = true;
  bool roof = true;
  bool leaves = true;
  bool objects = true;
  bool surroundings = true;
  bool buried = false;  // footings, skirts, aprons: under the ground, shown when it is cut open
};

bool part_shown(const Show& show, const Part& part);

}  // namespace hummock::viewer
