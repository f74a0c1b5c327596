// Changes of a site's text: each takes the text and gives a new one in which only what changed is
// different. Comments, order and spacing stay (engine/toml/edit_text.h does the cutting).
//
// Numbers are written as a person would: metres to the millimetre, angles to the tenth of a degree.
// All throw InputError when the text has no such table.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "engine/site/site.h"

namespace hummock::viewer {

// Keys whose value differs between `before` and `after` are set, no others.
std::string edit_object(const std::string& text, int index, const Object& before,
                        const Object& after);
// `folder`: of the site, for the path of a mesh file.
std::string append_object(const std::string& text, const Object& object,
                          const std::filesystem::path& folder);
std::string remove_object(const std::string& text, int index);

std::string edit_corner(const std::string& text, const std::vector<Vec2>& outline, int corner,
                        Vec2 at);
std::string edit_section(const std::string& text, int index, const Section& before,
                         const Section& after);
std::string edit_roof(const std::string& text, const Roof& before, const Roof& after);
std::string append_forms(const std::string& text, const std::vector<GroundForm>& forms);

}  // namespace hummock::viewer
