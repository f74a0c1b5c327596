#include "engine/mesh_export/part_colour.h"

namespace hummock::mesh_export {

draw::Colour colour_of(const ExportPart& part) {
  if (part.glass) return {0.62, 0.74, 0.78, 1.0};
  switch (part.surface) {
    case Surface::mesh:
      return {0.36, 0.38, 0.40, 1.0};
    case Surface::smooth:
      return {0.66, 0.66, 0.64, 1.0};
    case Surface::rock:
      return {0.52, 0.50, 0.47, 1.0};
    case Surface::wood:
      return {0.58, 0.44, 0.29, 1.0};
    case Surface::bark:
      return {0.37, 0.29, 0.22, 1.0};
    case Surface::earth:
      return {0.60, 0.53, 0.41, 1.0};
    case Surface::leaf:
      return {0.34, 0.46, 0.27, 1.0};
    case Surface::water:
      return {0.35, 0.52, 0.60, 1.0};
  }
  return {0.5, 0.5, 0.5, 1.0};
}

}  // namespace hummock::mesh_export
