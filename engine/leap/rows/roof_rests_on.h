// What the gap between a full leap and the roof rests on: the leap at its careful end, from all
// that the animal then gains, and the height of the body where another record, its careful value or
// a want of any source makes it more (a quarter). Worked out only where a requirement asks for the
// gap and it is met.
#pragma once

#include "engine/brief/assumptions.h"
#include "engine/leap/leap.h"

namespace hummock::leap {

// The breaking value is that of the closed form, the leap by which the gap shrinks to what is asked
// from where it is least today; where more is gained by a lesser leap it is not sought.
RestsOn what_the_roof_gap_rests_on(const Model& model, const Settings& settings,
                                   const Result& found, const Progress& progress);

}  // namespace hummock::leap
