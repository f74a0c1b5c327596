// What room, shade and sight rest on: the figures of the body by which an animal lives on the
// ground and is seen, where the file gives a careful value beside the used one
// (engine/brief/assumptions.h).
//
// All careful values are taken together, and the analysis worked out again, once. Where a
// requirement that was met then is not, it rests on them; which of several turns it is not tried
// one by one, so each is listed and each is to be confirmed, and the answer says so. No careful
// value, or no requirement of the analysis that is met: nothing is worked out again. Which end of a
// figure is the careful one the file says: a careful value on the other side turns nothing here.
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
