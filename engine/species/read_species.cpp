#include <string>

#include "engine/site/read_site.h"
#include "engine/site/site_keys.h"
#include "engine/site/site_tables.h"
#include "engine/species/find_species.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;

const std::vector<std::string> kMeasures{"ledge", "bar", "centre of mass", "wall scrambled"};
const std::vector<std::string> kEvidence{"trial", "biomechanics", "record", "anecdote", "assumed"};

TableCursor row(TableCursor& top, const char* key) {
  const std::string allowed = std::string(key) + " = { value = …, source = \"…\" }";
  const TomlNode* node = top.raw(key);
  if (node == nullptr) top.refuse(key, "nothing", allowed);
  if (node->kind != TomlNode::Kind::table) top.refuse(key, describe(*node) + " alone", allowed);
  return *top.table(key);
}

// Source, and for a jump what was measured and on what evidence (asked for, since published leaps
// differ in both).
template <class T>
void read_grounds(TableCursor& table, Sourced<T>& out, bool jump) {
  out.where = table.where();
  out.source = table.text("source");
  if (jump || table.has("measures")) out.measures = table.choice("measures", kMeasures);
  if (jump || table.has("evidence")) out.evidence = table.choice("evidence", kEvidence);
  table.done("an ability");
}

Sourced<double> read_number(TableCursor& top, const char* key, Range range, bool jump = false) {
  Sourced<double> out;
  TableCursor table = row(top, key);
  out.value = table.number("value", range);
  read_grounds(table, out, jump);
  return out;
}

std::optional<Sourced<double>> maybe_number(TableCursor& top, const char* key, Range range) {
  if (!top.has(key)) return std::nullopt;
  return read_number(top, key, range);
}

std::optional<Sourced<bool>> maybe_flag(TableCursor& top, const char* key) {
  if (!top.has(key)) return std::nullopt;
  Sourced<bool> out;
  TableCursor table = row(top, key);
  if (!table.has("value")) table.refuse("value", "nothing", "true or false");
  out.value = table.flag("value", false);
  read_grounds(table, out, false);
  return out;
}

// The rows of the animal's body; each may be left out (engine/species/body.h).
void read_body_rows(TableCursor& top, Species& out) {
  out.crouch = maybe_number(top, "crouch", {0.0, 10.0, "m", true});
  if (out.crouch && out.crouch->value > out.body.value[2]) {
    throw InputError(
        out.crouch->where, plain_number(out.crouch->value),
        "a crouch no taller than the body (" + plain_number(out.body.value[2]) + " m)");
  }
  out.reach = maybe_number(top, "reach", {0.0, 10.0, "m"});
  out.perch = maybe_number(top, "perch", {0.0, 5.0, "m"});
  out.climbs_past_upright = maybe_number(top, "climbs_past_upright", {0.0, 90.0, "degrees"});
  if (out.climbs_past_upright) out.climbs_past_upright->value *= geom::kDegree;
  out.hangs = maybe_flag(top, "hangs");
  out.swims = maybe_flag(top, "swims");
  out.leap_from_water = maybe_number(top, "leap_from_water", {0.0, 1.0, "share of its leap"});
}

Sourced<std::vector<std::string>> read_climbs(TableCursor& top) {
  Sourced<std::vector<std::string>> out;
  TableCursor table = row(top, "climbs");
  out.value = table.choices("value", {"mesh", "bark", "rock", "wood", "earth"});
  read_grounds(table, out, false);
  return out;
}

Sourced<std::array<double, 3>> read_body(TableCursor& top) {
  Sourced<std::array<double, 3>> out;
  TableCursor table = row(top, "body");
  const auto size = table.numbers("value", 3, {0.0, 10.0, "m", true});
  out.value = {size[0], size[1], size[2]};
  read_grounds(table, out, false);
  return out;
}

Species read_rows(TableCursor& top) {
  Species out;
  top.integer("format", 1, 1);
  top.text("name");  // a species must have one
  out.name = read_name(top, "species", 1);
  out.leap_height = read_number(top, "leap_height", {0.01, 15.0, "m"}, true);
  out.leap_distance = read_number(top, "leap_distance", {0.01, 50.0, "m"}, true);
  out.grip = read_number(top, "grip", {0.0, 5.0, "m"});
  out.cling_leap = read_number(top, "cling_leap", {0.0, 1.0, "share of its leap"});
  out.stand_slope = read_number(top, "stand_slope", {1.0, 89.0, "degrees"});
  out.stand_slope.value *= geom::kDegree;
  out.climbs = read_climbs(top);
  out.body = read_body(top);
  out.least_opening = read_number(top, "least_opening", {0.0, 5.0, "m", true});
  read_body_rows(top, out);
  out.dig_depth = read_number(top, "dig_depth", {0.0, 20.0, "m"});
  out.dig_length = read_number(top, "dig_length", {0.0, 200.0, "m of tunnel"});
  out.wade_depth = read_number(top, "wade_depth", {0.0, 20.0, "m"});
  out.eye_height = read_number(top, "eye_height", {0.0, 10.0, "m", true});
  if (top.has("outdoor_low"))
    out.outdoor_low = read_number(top, "outdoor_low", {-60.0, 60.0, "°C"});
  for (const TableCursor& one : top.tables("require")) {
    out.requirements.push_back(read_requirement(one));
  }
  top.done("a species");
  return out;
}

}  // namespace

Species read_species(const fs::path& file) {
  const auto found = find_species(file.string(), "");
  if (!found) {
    throw InputError({file.string(), 0, ""}, "no such file",
                     "a species file, or one of " + shipped_species_in_words());
  }
  const std::string name = found->string();
  const std::string text = read_text_file(name, "a species file, NAME.species.toml");
  const TomlNode tree = parse_toml(text, name);
  TableCursor top(tree, "", name, species_keys());
  Species out = read_rows(top);
  out.file = *found;
  return out;
}

}  // namespace hummock
