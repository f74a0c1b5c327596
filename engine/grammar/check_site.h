// What only shows when the tables of a site are seen together. Internal to engine/grammar.
#pragma once

#include "engine/site/site.h"
#include "engine/toml/toml_tree.h"

namespace hummock {

// Throws InputError: an edge in no section or in two, an edge number too high, a gate, drain or
// viewing place beyond the end of its edge, gates that overlap, a gate taller than its fence, two
// things of one name, a thing outside outline + margin, a ground of too many points.
// `tree` is the text the site was read from, for line numbers.
void check_site(const Site& site, const TomlNode& tree);

// What is allowed but odd, a line each: a leap no animal is known for, a hot wire.
std::vector<std::string> doubtful_input(const Site& site);

}  // namespace hummock
