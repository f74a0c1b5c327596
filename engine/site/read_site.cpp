#include "engine/site/read_site.h"

#include <string>

#include "engine/site/check_site.h"
#include "engine/site/doubtful.h"
#include "engine/site/site_keys.h"
#include "engine/site/site_tables.h"
#include "engine/species/find_species.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;

template <class Thing, class Read>
std::vector<Thing> read_list(TableCursor& top, const char* key, Read read) {
  std::vector<Thing> out;
  for (const TableCursor& one : top.tables(key)) {
    out.push_back(read(one, static_cast<int>(out.size()) + 1));
  }
  return out;
}

void read_things(TableCursor& top, const fs::path& folder, Site& site) {
  site.objects = read_list<Object>(
      top, "object", [&](const TableCursor& t, int n) { return read_object(t, n, folder); });
  site.plantings = read_list<Planting>(top, "planting", read_planting);
  site.dens = read_list<Den>(top, "den", read_den);
  site.burrows = read_list<Burrow>(top, "burrow", read_burrow);
  site.waters = read_list<Water>(top, "water", read_water);
  site.viewings = read_list<Viewing>(top, "viewing", read_viewing);
  site.houses = read_list<House>(top, "house", read_house);
  site.surroundings = read_list<Surrounding>(top, "surrounding", read_surrounding);
  site.requirements = read_list<Requirement>(
      top, "require", [](const TableCursor& t, int) { return read_requirement(t); });
}

TableCursor needed_table(TableCursor& top, const char* key) {
  auto table = top.table(key);
  if (!table) top.refuse(key, "nothing", std::string("a table [") + key + "]");
  return *table;
}

void read_leap(TableCursor table, Site& site) {
  if (table.has("start")) site.leap_start = table.point("start");
  table.done("the leap settings");
}

Site read_tables(TableCursor& top, const fs::path& file) {
  Site site;
  const fs::path folder = file.parent_path();
  site.file = file;
  site.format = top.integer("format", 1, 1);
  site.name = top.text("name");
  site.story = top.text("story", site.story);
  site.animals = top.integer("animals", 1, 100000, site.animals);
  const std::string species = top.text("species");
  const auto found = find_species(species, folder);
  if (!found) {
    top.refuse("species", in_quotes(species) + ", which is not there",
               "a species file (path from the site file) or one of " + shipped_species_in_words());
  }
  site.species_file = *found;
  site.species = read_species(*found);
  if (top.has("climate")) {
    site.climate = read_file_key(top, "climate", folder, "an hourly CSV file");
  }
  if (top.has("accept")) site.accept = top.choices("accept", doubt_ids());
  if (auto place = top.table("place")) site.place = read_place(*place);
  site.ground = read_ground(needed_table(top, "ground"), folder);
  site.boundary = read_boundary(needed_table(top, "boundary"));
  if (auto roof = top.table("roof")) site.roof = read_roof(*roof);
  read_things(top, folder, site);
  if (auto leap = top.table("leap")) read_leap(*leap, site);
  if (auto siting = top.table("siting")) site.siting = read_siting(*siting);
  top.done("a site");
  return site;
}

}  // namespace

Site read_site_text(std::string_view text, const fs::path& file) {
  const TomlNode tree = parse_toml(text, file.string());
  TableCursor top(tree, "", file.string(), site_keys());
  Site site = read_tables(top, file);
  check_site(site, tree);
  site.warnings = doubtful_input(site);
  return site;
}

Site read_site(const fs::path& file) {
  return read_site_text(read_text_file(file.string(), "a site file, NAME.site.toml"), file);
}

}  // namespace hummock
