// What the rows of a species' brief ask for, as numbers a designer can start from.
#pragma once

#include <optional>
#include <string>

#include "engine/species/species.h"

namespace hummock::first_yard {

// The strictest lower limit of the rows on this figure (of a `between` its lower end), for that
// many animals, in the figure's unit; nothing where no row has one. A `should` row counts as well.
std::optional<double> least_asked(const Species& species, const std::string& what, int animals);

// The strictest upper limit, the same way.
std::optional<double> most_asked(const Species& species, const std::string& what, int animals);

// Whether any row asks for a figure whose key begins so: "water.".
bool asks(const Species& species, const std::string& beginning);

}  // namespace hummock::first_yard
