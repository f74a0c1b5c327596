// The colour of a part, by what it is made of: the same in every file and picture.
#pragma once

#include "engine/draw/colour_scale.h"
#include "engine/mesh_export/chosen_parts.h"

namespace hummock::mesh_export {

draw::Colour colour_of(const ExportPart& part);

}  // namespace hummock::mesh_export
