// Changes of a site's text: each takes the text and gives a new one in which only what changed is
// different, spelled by the rows of the grammar (engine/grammar/write_table.h). Comments, order and
// spacing stay.
//
// All throw InputError when the text has no such table.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "engine/site/site.h"

namespace hummock::viewer {

// Keys whose value differs between `before` and `after` are set, no others.
std::string edit_site(const std::string& text, const Site& before, const Site& after);
std::string edit_object(const std::string& text, int index, const Object& before,
                        const Object& after, const std::filesystem::path& folder = {});
// `folder`: of the site, for the path of a mesh file.
std::string append_object(const std::string& text, const Object& object,
                          const std::filesystem::path& folder);
std::string remove_object(const std::string& text, int index);

std::string edit_corner(const std::string& text, const std::vector<Vec2>& outline, int corner,
                        Vec2 at);
std::string edit_section(const std::string& text, int index, const Section& before,
                         const Section& after);
std::string append_forms(const std::string& text, const std::vector<GroundForm>& forms);

}  // namespace hummock::viewer
