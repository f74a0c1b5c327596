// What room, shade, sight, water and houses rest on: the figures by which an animal comes to the
// ground it lives on, lives there and is seen, where the file gives a careful value beside the used
// one, or nobody has shown the used one (engine/check/body_doubts.h says which, and their ends).
//
// All are taken together and the analysis is worked out again. Where a requirement that was met
// then is not, it rests on them, and those are listed that are to be confirmed: with these as used,
// the others taken the careful way, all of them together, turn nothing. A quick analysis is worked
// out again for each, and none that is listed may be left out. A slow one is worked out once more,
// with the first, the body; where that is not enough all are listed, and the answer says what was
// not tried. No requirement of the analysis that is met: nothing is worked out again.
#pragma once

#include <functional>
#include <string>

#include "engine/brief/brief.h"
#include "engine/model/model.h"

namespace hummock {

// `analysis`: whose requirements. `found`: its figures. `again`: the same of another model.
RestsOn rests_on_body(const Model& model, const std::string& analysis, const Figures& found,
                      const std::function<Figures(const Model&)>& again);

}  // namespace hummock
