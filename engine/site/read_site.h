// Reading and checking a site file (TOML) and the species file it names.
//
// Both are read by walking the grammar (engine/grammar/tables.h), where the definitions stand too.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "engine/site/site.h"

namespace hummock {

// Reads, checks and returns the site with its species. Throws InputError on the first thing wrong:
// unknown key, wrong type, out of range, self-crossing outline, edge covered twice or never,
// missing file, not-a-number, zero panel, object outside the ground, duplicate name.
Site read_site(const std::filesystem::path& file);

// The same from text already in memory; `file` gives the folder for relative paths and the name in
// errors. For the viewer's unsaved edits and for tests.
Site read_site_text(std::string_view text, const std::filesystem::path& file);

// A species file, or a shipped one by name ("corsac"); looked for beside the site first, then in
// the assets folder (engine/base/assets.h).
Species read_species(const std::filesystem::path& file);

// A brief file. Throws InputError.
BriefFile read_brief(const std::filesystem::path& file);

}  // namespace hummock
