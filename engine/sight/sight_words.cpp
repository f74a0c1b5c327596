// Sight in a reviewer's words.
#include <fmt/format.h>

#include "engine/sight/sight_json.h"

namespace hummock::sight {

void add_findings(const Result& result, const Model&, FindingList& list) {
  for (const ViewRow& view : result.views) {
    if (view.eyes_inside == 0) continue;
    list.push_back(
        {Severity::look,
         "sight",
         view.name,
         fmt::format("'{}': {} of the {} eyes of guests stand inside '{}', which is drawn "
                     "without windows: what they see is not known",
                     view.name, view.eyes_inside, view.eyes, view.inside),
         "draw it round their eyes with its walls and windows, or leave it out there",
         {}});
  }
}

}  // namespace hummock::sight
