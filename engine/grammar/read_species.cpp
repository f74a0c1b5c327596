#include <string>

#include "engine/grammar/read_table.h"
#include "engine/grammar/tables.h"
#include "engine/site/read_site.h"
#include "engine/species/find_species.h"

namespace hummock {
namespace {

const TableKeys& species_keys() {
  static const TableKeys all = grammar::keys_of(grammar::species_table());
  return all;
}

}  // namespace

Species read_species(const std::filesystem::path& file) {
  const auto found = find_species(file.string(), "");
  if (!found) {
    throw InputError({file.string(), 0, ""}, "no such file",
                     "a species file, or one of " + shipped_species_in_words());
  }
  const std::string name = found->string();
  const std::string text = read_text_file(name, "a species file, NAME.species.toml");
  const TomlNode tree = parse_toml(text, name);
  Species out;
  grammar::read_table(TableCursor(tree, "", name, species_keys()), grammar::species_table(), &out,
                      {found->parent_path()});
  out.file = *found;
  out.read = record_of("species", *found, text);
  return out;
}

}  // namespace hummock
