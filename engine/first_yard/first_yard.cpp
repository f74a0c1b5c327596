#include "engine/first_yard/first_yard.h"

#include <fmt/core.h>

#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "engine/base/assets.h"
#include "engine/base/input_error.h"
#include "engine/first_yard/plan.h"

namespace hummock::first_yard {
namespace {

struct Filling {
  std::map<std::string, std::string> words;  // mark → what stands for it
  std::set<std::string> parts;               // whose lines are kept
};

// Two decimals at most (three for what is finer), none that are zero.
std::string number(double value, int decimals = 2) {
  std::string out = fmt::format("{:.{}f}", value, decimals);
  if (out.find('.') == std::string::npos) return out;
  out.erase(out.find_last_not_of('0') + 1);
  if (out.back() == '.') out += '0';
  return out;
}

void put_patch(Filling& fill, const std::string& mark, const Patch& patch) {
  fill.words[mark + "_X"] = number(patch.x);
  fill.words[mark + "_Y"] = number(patch.y);
  fill.words[mark + "_X2"] = number(patch.x2);
  fill.words[mark + "_Y2"] = number(patch.y2);
}

void put_numbers(Filling& fill, const Plan& p) {
  const double door = 0.5 * (p.house.y2 - p.house.y - p.door_w);
  const std::map<std::string, double> lengths{
      {"CELL", p.cell},
      {"MARGIN", p.margin},
      {"DIG", p.dig},
      {"LINER", kDeepestFooting},
      {"MOUND_X", 0.68 * p.w},
      {"MOUND_Y", 0.36 * p.h},
      {"MOUND2_X", 0.34 * p.w},
      {"MOUND2_Y", 0.6 * p.h},
      {"MOUND_R", p.mound_r},
      {"MOUND_H", p.mound_h},
      {"WINDOW_A", p.window_a},
      {"WINDOW_B", p.window_b},
      {"WINDOW_W", p.window_b - p.window_a},
      {"W", p.w},
      {"H", p.h},
      {"WALL", p.wall},
      {"FOOT", p.foot},
      {"GATE", p.w - kGateFromCorner - p.gate_w},
      {"GATE_W", p.gate_w},
      {"GATE_H", p.gate_h},
      {"DRAIN", 0.5 * p.h},
      {"POP", p.house.y + door},
      {"DOOR", door},
      {"DOOR_W", p.door_w},
      {"DOOR_H", p.door_h},
      {"HOUSE_H", p.house_h},
      {"LOW", p.low},
      {"SHELTER_X", 0.5 * (p.shelter.x + p.shelter.x2)},
      {"SHELTER_Y", 0.5 * (p.shelter.y + p.shelter.y2)},
      {"SHELTER_L", p.shelter.x2 - p.shelter.x},
      {"SHELTER_D", p.shelter.y2 - p.shelter.y},
      {"SHELTER_H", p.shelter_h},
      {"SHRUB_H", p.shrubs_h},
      {"POOL_DEPTH", p.water_depth},
      {"POOL_SIDE", p.water_side},
      {"BURROW_X", 0.5 * (p.shelter.x + p.shelter.x2) - 1.2},
      {"BURROW_D", p.burrow_d}};
  for (const auto& [mark, value] : lengths) fill.words[mark] = number(value);
  fill.words["APERTURE"] = number(p.aperture, 3);
  fill.words["GATE_GAP"] = number(p.gate_gap, 3);
  put_patch(fill, "HOUSE", p.house);
  put_patch(fill, "SHRUB", p.shrubs);
  put_patch(fill, "POOL", p.water);
}

Filling filling_of(const Species& species, const Asked& asked, const Plan& plan) {
  Filling fill;
  put_numbers(fill, plan);
  fill.words["NAME"] = asked.name;
  fill.words["SPECIES"] = asked.species;
  fill.words["SPECIES_NAME"] = species.name;
  fill.words["ANIMALS"] = std::to_string(asked.animals);
  const std::map<std::string, bool> parts{
      {"liner", plan.liner},       {"mound", plan.mounds > 0},    {"mounds", plan.mounds > 1},
      {"roofed", plan.roofed},     {"open", !plan.roofed},        {"mesh", plan.mesh},
      {"solid", !plan.mesh},       {"pool", plan.pool},           {"burrow", plan.burrow},
      {"ask_leap", plan.ask_leap}, {"ask_gates", plan.ask_gates}, {"no_room", plan.no_room}};
  for (const auto& [name, there] : parts)
    if (there) fill.parts.insert(name);
  return fill;
}

// "@MARK@" becomes its word.
std::string filled(const std::string& line, const Filling& fill) {
  std::string out;
  std::size_t at = 0;
  while (true) {
    const std::size_t first = line.find('@', at);
    const std::size_t last = first == std::string::npos ? first : line.find('@', first + 1);
    if (last == std::string::npos) return out + line.substr(at);
    out += line.substr(at, first - at) + fill.words.at(line.substr(first + 1, last - first - 1));
    at = last + 1;
  }
}

}  // namespace

// The file's lines are those of assets/first-yard.site.toml; one that begins "?part|" is kept where
// the yard has the part.
std::string first_yard(const Species& species, const Asked& asked, const Tuning& tuning) {
  const auto path = assets_folder() / "first-yard.site.toml";
  std::ifstream in(path, std::ios::binary);
  if (!in) throw InputError({path.string(), 0, ""}, "no such file", "the shipped assets");
  const Filling fill = filling_of(species, asked, plan_of(species, asked, tuning));
  std::string text, line;
  while (std::getline(in, line)) {
    if (!line.empty() && line[0] == '?') {
      const std::size_t bar = line.find('|');
      if (fill.parts.count(line.substr(1, bar - 1)) == 0) continue;
      line.erase(0, bar + 1);
    }
    text += filled(line, fill) + "\n";
  }
  return text;
}

}  // namespace hummock::first_yard
