// Every table and key a site file may have, and every one a species file may have.
//
// The readers refuse anything else; examples/SITE-FILE.md explains each (a test compares).
#pragma once

#include <string>
#include <vector>

#include "engine/toml/table_cursor.h"

namespace hummock {

const TableKeys& site_keys();
const TableKeys& species_keys();

// The ability rows of a species file, each { value, source, measures, evidence }.
const std::vector<std::string>& ability_names();

// The groups of figures a requirement may name: the part of `what` before the first dot.
const std::vector<std::string>& figure_groups();

}  // namespace hummock
