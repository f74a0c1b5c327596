#include <string>

#include "engine/grammar/read_table.h"
#include "engine/grammar/tables.h"
#include "engine/site/read_site.h"

namespace hummock {
namespace {

const TableKeys& brief_keys() {
  static const TableKeys all = grammar::keys_of(grammar::brief_table());
  return all;
}

}  // namespace

BriefFile read_brief(const std::filesystem::path& file) {
  const std::string name = file.string();
  const std::string text = read_text_file(name, "a brief file, NAME.brief.toml");
  const TomlNode tree = parse_toml(text, name);
  BriefFile out;
  grammar::read_table(TableCursor(tree, "", name, brief_keys()), grammar::brief_table(), &out,
                      {file.parent_path()});
  out.file = file;
  out.read = record_of("brief", file, text);
  return out;
}

}  // namespace hummock
