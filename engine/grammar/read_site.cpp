#include "engine/site/read_site.h"

#include "engine/brief/signed.h"
#include "engine/grammar/check_site.h"
#include "engine/grammar/read_table.h"
#include "engine/grammar/tables.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;

const TableKeys& site_keys() {
  static const TableKeys all = grammar::keys_of(grammar::site_table());
  return all;
}

}  // namespace

Site read_site_text(std::string_view text, const fs::path& file) {
  const TomlNode tree = parse_toml(text, file.string());
  const TableCursor top(tree, "", file.string(), site_keys());
  Site site;
  site.file = file;
  grammar::read_table(top, grammar::site_table(), &site, {file.parent_path()});
  site.species = read_species(site.species_file);
  for (const std::string& brief : site.brief_files)
    site.briefs.push_back(read_brief(file.parent_path() / brief));
  check_site(site, tree);
  check_signed(site, grammar::assumable());
  site.warnings = doubtful_input(site);
  site.read = {record_of("site", file, text), site.species.read};
  for (const BriefFile& brief : site.briefs) site.read.push_back(brief.read);
  return site;
}

Site read_site(const fs::path& file) {
  return read_site_text(read_text_file(file.string(), "a site file, NAME.site.toml"), file);
}

}  // namespace hummock
