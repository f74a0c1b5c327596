#include "viewer/scene/visibility.h"

namespace hummock::viewer {

bool part_shown(const Show& show, const Part& part) {
  switch (part.kind) {
    case PartKind::panel:
    case PartKind::overhang:
    case PartKind::gate:
    case PartKind::post:
    case PartKind::vestibule:
      return show.fence;
    case PartKind::roof:
      return show.roof;
    case PartKind::crown:
    case PartKind::planting:
      return show.leaves;
    case PartKind::object:
      return show.objects;
    case PartKind::footing:
    case PartKind::skirt:
    case PartKind::apron:
      return show.buried;
    case PartKind::surrounding:
      return show.surroundings;
    default:
      return true;
  }
}

}  // namespace hummock::viewer
