#include "engine/model/model.h"

namespace hummock {

const char* to_string(PartKind kind) {
  switch (kind) {
    case PartKind::panel:
      return "panel";
    case PartKind::post:
      return "post";
    case PartKind::overhang:
      return "overhang";
    case PartKind::skirt:
      return "skirt";
    case PartKind::apron:
      return "apron";
    case PartKind::footing:
      return "footing";
    case PartKind::gate:
      return "gate";
    case PartKind::vestibule:
      return "vestibule";
    case PartKind::drain_grille:
      return "drain grille";
    case PartKind::roof:
      return "roof";
    case PartKind::object:
      return "object";
    case PartKind::crown:
      return "crown";
    case PartKind::planting:
      return "planting";
    case PartKind::den:
      return "den";
    case PartKind::water:
      return "water";
    case PartKind::house:
      return "house";
    case PartKind::surrounding:
      return "surrounding";
    case PartKind::ground:
      return "ground";
  }
  return "";
}

const char* to_string(Surface surface) {
  switch (surface) {
    case Surface::mesh:
      return "mesh";
    case Surface::smooth:
      return "smooth";
    case Surface::rock:
      return "rock";
    case Surface::wood:
      return "wood";
    case Surface::bark:
      return "bark";
    case Surface::earth:
      return "earth";
    case Surface::leaf:
      return "leaf";
    case Surface::water:
      return "water";
  }
  return "";
}

}  // namespace hummock
