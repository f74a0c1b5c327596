// The top of a site file, and its settings.
#include <algorithm>

#include "engine/grammar/tables.h"
#include "engine/site/doubtful.h"
#include "engine/species/find_species.h"

namespace hummock::grammar {
namespace {

// A path, or the name of a species that is found without one.
Value read_species_key(TableCursor& table, const Row& row, const Source& source) {
  const std::string species = table.text(row.key.c_str());
  const auto found = find_species(species, source.folder);
  if (!found) {
    table.refuse(
        row.key.c_str(), in_quotes(species) + ", which is not there",
        "a species file (path from the site file) or one of " + shipped_species_in_words());
  }
  return found->string();
}

// One path or a list of them, kept as written; each of a file that is there.
Value read_brief_files(TableCursor& table, const Row& row, const Source& source) {
  const char* key = row.key.c_str();
  const TomlNode& node = *table.raw(key);
  const bool one = node.kind == TomlNode::Kind::text;
  const std::string allowed = "a brief file (path from the site file), or a list of them";
  if (!one && node.kind != TomlNode::Kind::list) table.refuse(key, describe(node), allowed);
  Words files;
  for (const TomlNode& item : one ? std::vector<TomlNode>{node} : node.items) {
    if (item.kind != TomlNode::Kind::text || item.text.empty())
      table.refuse(key, describe(item), allowed);
    std::error_code ignored;
    if (item.text.find('\0') != std::string::npos ||
        !std::filesystem::is_regular_file(source.folder / item.text, ignored))
      table.refuse(key, in_quotes(item.text) + ", which is not there", allowed);
    if (std::find(files.begin(), files.end(), item.text) != files.end())
      table.refuse(key, in_quotes(item.text) + " twice", "each brief file once");
    files.push_back(item.text);
  }
  if (files.empty()) table.refuse(key, "an empty list", allowed);
  return files;
}

void check_weights(const TableCursor& table, const SitingWeights& w) {
  if (w.shade + w.soil + w.slope + w.ponding + w.fence > 0.0) return;
  table.refuse("shade", "no weight above 0", "at least one weight above 0");
}

Row weight(const std::string& key, double SitingWeights::*member, const std::string& meaning) {
  return {.key = key,
          .kind = Kind::number,
          .meaning = meaning,
          .range = {0.0, 1000.0, "weight"},
          .member = of(member)};
}

template <class C>
Row things(const std::string& key, std::vector<C> Site::*member, const Table& (*table)()) {
  return {.key = key,
          .kind = Kind::tables,
          .meaning = table().title,
          .absent = "none",
          .children = in(member),
          .table = table};
}

// [leap] fills a member of the site itself.
Children itself_with_start() {
  return {[](void* site) { return site; },
          [](const void* site) {
            return std::size_t{static_cast<const Site*>(site)->leap_start ? 1U : 0U};
          },
          [](void* site, std::size_t) { return site; }};
}

std::vector<Row> head_rows() {
  return {
      {.key = "format",
       .kind = Kind::count,
       .meaning = "version of the file format",
       .needed = true,
       .range = {1, 1, ""},
       .member = of(&Site::format)},
      {.key = "name",
       .kind = Kind::name,
       .meaning = "name of the site",
       .needed = true,
       .member = of(&Site::name)},
      {.key = "story",
       .kind = Kind::text,
       .meaning = "a few lines for the reader",
       .absent = "none",
       .member = of(&Site::story)},
      {.key = "animals",
       .kind = Kind::count,
       .meaning = "how many are kept",
       .range = {1, 100000, ""},
       .member = of(&Site::animals)},
      {.key = "species",
       .kind = Kind::file,
       .meaning =
           "a species file, or the name of one beside the site, in its `species/` folder, or "
           "shipped",
       .needed = true,
       .member = of(&Site::species_file),
       .read = read_species_key},
      {.key = "offspring",
       .kind = Kind::count,
       .meaning = "young expected, for rows `when` there are some and `per` \"with offspring\"",
       .range = {0, 100000, ""},
       .absent = "not said: some, their number not known",
       .member = of(&Site::offspring)},
      {.key = "brief",
       .kind = Kind::texts,
       .meaning = "brief files whose rows are asked too: one path, or a list of them",
       .absent = "none",
       .example = "\"law.brief.toml\", or a list of such",
       .member = of(&Site::brief_files),
       .read = read_brief_files},
      {.key = "climate",
       .kind = Kind::file,
       .meaning = "hourly CSV with columns `time` and `temperature` (°C)",
       .absent = "none",
       .example = "an hourly CSV file",
       .member = of(&Site::climate)},
      {.key = "accept",
       .kind = Kind::choices,
       .meaning = "doubtful input taken on purpose, by its id (engine/site/doubtful.h)",
       .words = doubt_ids(),
       .absent = "none",
       .member = of(&Site::accept)},
      {.key = "place",
       .kind = Kind::table,
       .meaning = place_table().title,
       .absent = "none",
       .children = in(&Site::place),
       .table = place_table},
      {.key = "ground",
       .kind = Kind::table,
       .meaning = ground_table().title,
       .needed = true,
       .children = in(&Site::ground),
       .table = ground_table},
      {.key = "boundary",
       .kind = Kind::table,
       .meaning = boundary_table().title,
       .needed = true,
       .children = in(&Site::boundary),
       .table = boundary_table},
      {.key = "roof",
       .kind = Kind::table,
       .meaning = roof_table().title,
       .absent = "open sky",
       .children = in(&Site::roof),
       .table = roof_table},
  };
}

}  // namespace

const Table& siting_table() {
  static const Table table = [] {
    Table t = table_of<SitingWeights>(
        "of burrows: what counts how much", "the siting weights",
        {
            weight("shade", &SitingWeights::shade, "shade at the hot hours"),
            weight("soil", &SitingWeights::soil, "depth of soil"),
            weight("slope", &SitingWeights::slope, "gentle ground"),
            weight("ponding", &SitingWeights::ponding, "where no rain ponds"),
            weight("fence", &SitingWeights::fence, "away from the fence"),
            {.key = "count",
             .kind = Kind::count,
             .meaning = "spots wanted",
             .range = {1, 50, ""},
             .member = of(&SitingWeights::count)},
            {.key = "spacing",
             .kind = Kind::length,
             .meaning = "between spots",
             .range = {0.0, 1000.0, "m"},
             .member = of(&SitingWeights::spacing)},
        });
    t.check = check<SitingWeights>(check_weights);
    return t;
  }();
  return table;
}

const Table& leap_table() {
  static const Table table = table_of<Site>("settings of the leap analysis", "the leap settings",
                                            {
                                                {.key = "start",
                                                 .kind = Kind::point,
                                                 .meaning = "a place the animals live on, inside",
                                                 .absent = "the largest ground",
                                                 .member = of(&Site::leap_start)},
                                            });
  return table;
}

const Table& site_table() {
  static const Table table = [] {
    std::vector<Row> rows = head_rows();
    rows.push_back(things("object", &Site::objects, object_table));
    rows.push_back(things("planting", &Site::plantings, planting_table));
    rows.push_back(things("den", &Site::dens, den_table));
    rows.push_back(things("burrow", &Site::burrows, burrow_table));
    rows.push_back(things("water", &Site::waters, water_table));
    rows.push_back(things("viewing", &Site::viewings, viewing_table));
    rows.push_back(things("house", &Site::houses, house_table));
    rows.push_back(things("surrounding", &Site::surroundings, surrounding_table));
    rows.push_back(things("surface", &Site::surfaces, surface_table));
    rows.push_back(things("station", &Site::stations, station_table));
    rows.push_back(things("require", &Site::requirements, require_table));
    rows.push_back(things("either", &Site::eithers, either_table));
    rows.push_back(things("confirm", &Site::confirmations, confirm_table));
    rows.push_back(things("waiver", &Site::waivers, waiver_table));
    rows.push_back({.key = "leap",
                    .kind = Kind::table,
                    .meaning = leap_table().title,
                    .absent = "none",
                    .children = itself_with_start(),
                    .table = leap_table});
    rows.push_back({.key = "siting",
                    .kind = Kind::table,
                    .meaning = siting_table().title,
                    .absent = "none",
                    .children = in(&Site::siting),
                    .table = siting_table});
    return table_of<Site>("a site", "a site", std::move(rows));
  }();
  return table;
}

}  // namespace hummock::grammar
