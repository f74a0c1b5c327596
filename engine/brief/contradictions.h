// Rows that cannot both be met, wherever they are asked.
#pragma once

#include "engine/site/site.h"

namespace hummock {

// Throws InputError, with the place of both, where one row asks more of a figure than another
// allows: at least above at most (after `per`), or words that must be there and must not. Rows of
// different sets of an either are alternatives, and rows of seasons apart are never asked at once;
// neither are compared.
void refuse_contradictions(const Site& site);

}  // namespace hummock
