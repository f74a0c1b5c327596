#include "viewer/document/site_edits.h"

#include <cmath>

#include "engine/grammar/tables.h"
#include "engine/grammar/write_table.h"
#include "engine/toml/edit_text.h"

namespace hummock::viewer {
namespace {

grammar::Style by_hand(const std::filesystem::path& folder = {}) {
  return {grammar::Digits::to_hand, folder};
}

std::string at_index(const char* list, int index) {
  return std::string(list) + "[" + std::to_string(index) + "]";
}

}  // namespace

std::string edit_site(const std::string& text, const Site& before, const Site& after) {
  return grammar::write_changes(text, "", grammar::site_table(), &before, &after,
                                by_hand(before.file.parent_path()));
}

std::string edit_object(const std::string& text, int index, const Object& before,
                        const Object& after, const std::filesystem::path& folder) {
  return grammar::write_changes(text, at_index("object", index), grammar::object_table(), &before,
                                &after, by_hand(folder));
}

std::string append_object(const std::string& text, const Object& o,
                          const std::filesystem::path& folder) {
  return add_table(text, "object", key_values(grammar::object_table(), &o, by_hand(folder)));
}

std::string remove_object(const std::string& text, int index) {
  return remove_table(text, at_index("object", index));
}

std::string edit_corner(const std::string& text, const std::vector<Vec2>& outline, int corner,
                        Vec2 at) {
  Boundary before, after;
  before.outline = outline;
  after.outline = outline;
  after.outline.at(static_cast<std::size_t>(corner)) = at;
  return grammar::write_changes(text, "boundary", grammar::boundary_table(), &before, &after,
                                by_hand());
}

std::string edit_section(const std::string& text, int index, const Section& before,
                         const Section& after) {
  return grammar::write_changes(text, at_index("boundary.section", index), grammar::section_table(),
                                &before, &after, by_hand());
}

std::string append_forms(const std::string& text, const std::vector<GroundForm>& forms) {
  std::string out = text;
  for (const GroundForm& f : forms) {
    out = add_table(out, "ground.form", key_values(grammar::form_table(), &f, by_hand()));
  }
  return out;
}

}  // namespace hummock::viewer
