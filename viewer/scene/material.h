// How each part of a model looks.
#pragma once

#include "engine/model/model.h"
#include "viewer/scene/scene.h"

namespace hummock::viewer {

// Sets pattern, colour, see_through, passes and mesh sizes of `drawable` for the part.
void dress(Drawable& drawable, const Part& part);

}  // namespace hummock::viewer
