#include "tests/escapes/remedy_trial.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "engine/toml/edit_text.h"
#include "engine/toml/toml_tree.h"
#include "tests/escapes/bounded_run.h"
#include "tests/escapes/json_path.h"
#include "tests/support/run_program.h"

namespace hummock::escapes {
namespace {

namespace fs = std::filesystem;
using geom::Vec2;
using nlohmann::json;

struct Remedy {
  Vec2 shift;          // m
  double lower = 0.0;  // m
  std::string words;
};

Remedy moved(Vec2 shift) {
  std::ostringstream words;
  words << "moved by (" << shift.x << ", " << shift.y << ")";
  return {shift, 0.0, words.str()};
}
Remedy lowered(double by) {
  return {{}, by, "lowered by " + std::to_string(by)};
}

// `remedies[]{kind, by_m, bearing_deg}` where the program writes them, else the older keys.
std::vector<Remedy> told(const json& row) {
  std::vector<Remedy> list;
  for (const json& r : row.value("remedies", json::array())) {
    const double by = r.value("by_m", 0.0);
    if (r.value("kind", "") == "move") {
      const double bearing = r.value("bearing_deg", 0.0) * geom::kDegree;
      list.push_back(moved({by * std::sin(bearing), by * std::cos(bearing)}));
    }
    if (r.value("kind", "") == "lower") list.push_back(lowered(by));
  }
  if (row.contains("remedies")) return list;
  if (row.contains("move_m") && row["move_m"].is_number()) {
    const double by = row["move_m"].get<double>();
    const json& to = row["move_towards"];
    list.push_back(moved({by * to[0].get<double>(), by * to[1].get<double>()}));
  }
  if (row.contains("lower_m") && row["lower_m"].is_number()) {
    list.push_back(lowered(row["lower_m"].get<double>()));
  }
  return list;
}

struct Drawn {
  std::size_t index = 0;
  Vec2 at;
  geom::Vec3 size;
};

Drawn drawn(const std::string& text, const std::string& name) {
  const TomlNode top = parse_toml(text, "site");
  const TomlNode* objects = top.find("object");
  for (std::size_t k = 0; objects != nullptr && k < objects->items.size(); ++k) {
    const TomlNode& o = objects->items[k];
    if (o.find("name") == nullptr || o.find("name")->text != name) continue;
    const auto& at = o.find("at")->items;
    const auto& size = o.find("size")->items;
    return {k, {at[0].number, at[1].number}, {size[0].number, size[1].number, size[2].number}};
  }
  throw std::runtime_error("no object named " + name);
}

// The plan of a thing that is not turned.
std::array<double, 4> plan(const Drawn& d, Vec2 shift) {
  const Vec2 at = d.at + shift;
  return {at.x - d.size.x / 2, at.y - d.size.y / 2, at.x + d.size.x / 2, at.y + d.size.y / 2};
}

bool overlap(const std::array<double, 4>& a, const std::array<double, 4>& b) {
  return a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
}

bool inside(const std::array<double, 4>& a, const std::array<double, 4>& b) {
  return a[0] >= b[0] && a[1] >= b[1] && a[2] <= b[2] && a[3] <= b[3];
}

std::string with_remedy(const std::string& text, const Drawn& d, const Remedy& r) {
  const std::string table = "object[" + std::to_string(d.index) + "]";
  if (r.lower > 0.0) {
    const double z = std::max(0.01, d.size.z - r.lower);
    return set_key(text, table, "size", toml_size({d.size.x, d.size.y, z}));
  }
  return set_key(text, table, "at", toml_point(d.at + r.shift));
}

// The site with its paths made whole, so that it can be checked from elsewhere.
std::string moved_house(const Case& escape, const std::string& text) {
  const TomlNode top = parse_toml(text, "site");
  const std::string species = top.find("species")->text;
  const fs::path file = escape.folder / species;
  return fs::exists(file) ? set_key(text, "", "species", toml_text(fs::canonical(file).string()))
                          : text;
}

std::string margin_fault(const Case& escape, const RemedyTrial& trial, const std::string& text) {
  const testing::ScratchFolder scratch;
  fs::copy(escape.folder, scratch.path(), fs::copy_options::overwrite_existing);
  testing::write_text(scratch / "mended.site.toml", moved_house(escape, text));
  const Said said =
      bounded_run("check mended.site.toml --only leap --json all.json", scratch.path(), 60.0);
  if (said.status != 0 && said.status != 1)
    return "ends with " + std::to_string(said.status) + " " + said.err;
  const json results = json::parse(testing::text_of(scratch / "all.json"));
  const double margin = results["leap"].value("margin", 0.0);
  return margin >= trial.margin_at_least ? "" : "leaves a margin of " + std::to_string(margin);
}

std::string fault_of_one(const Case& escape, const RemedyTrial& trial, const Remedy& r) {
  const std::string text = testing::text_of(escape.site);
  const Drawn d = drawn(text, trial.thing);
  for (const auto& box : trial.off) {
    if (overlap(plan(d, r.shift), box)) return "stands in something else";
  }
  if (trial.within && !inside(plan(d, r.shift), *trial.within)) return "stands outside the yard";
  return margin_fault(escape, trial, with_remedy(text, d, r));
}

}  // namespace

std::string fault_of(const Case& escape, const RemedyTrial& trial, const json& results) {
  for (const json& row : values_at(results, "leap.objects[" + trial.thing + "]")) {
    for (const Remedy& r : told(row)) {
      const std::string fault = fault_of_one(escape, trial, r);
      if (!fault.empty()) return trial.thing + ", " + r.words + " as told, " + fault;
    }
  }
  return {};
}

}  // namespace hummock::escapes
