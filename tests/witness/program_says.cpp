#include "tests/witness/program_says.h"

#include <nlohmann/json.hpp>
#include <stdexcept>

#include "tests/support/run_program.h"

namespace hummock::witness {
namespace {

using nlohmann::json;

void run(const std::string& arguments, const std::filesystem::path& folder) {
  const testing::Said said = testing::run_program(arguments, folder);
  if (said.status < 0 || said.status > 1)
    throw std::runtime_error("hummock " + arguments + ": " + said.err + said.out);
}

double number(const json& from, const char* key) {
  const auto found = from.find(key);
  return found != from.end() && found->is_number() ? found->get<double>() : 0.0;
}

bool is_met(const json& row) {
  if (row.contains("standing")) return row["standing"] == "met";
  return row.value("met", "") == "met";
}

}  // namespace

void write_yard(const RandomYard& yard, const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder);
  testing::write_text(folder / kSiteFile, yard.site);
  testing::write_text(folder / "animal.species.toml", yard.species);
  for (const auto& [name, text] : yard.files) testing::write_text(folder / name, text);
}

Yard exported(const std::filesystem::path& folder) {
  run(std::string("export ") + kSiteFile + " -o model.glb", folder);
  return yard_of(read_exported(folder / "model.glb"));
}

ProgramSays checked(const std::filesystem::path& folder) {
  run(std::string("check ") + kSiteFile + " --only leap,openings --json said.json", folder);
  const json all = json::parse(testing::text_of(folder / "said.json"));
  const json& leap = all.at("leap");
  ProgramSays says;
  says.found = leap.contains("escape_demand_m") && leap["escape_demand_m"].is_number();
  says.demand = number(leap, says.found ? "escape_demand_m" : "bounded_below_m");
  if (leap.contains("over") && leap["over"].is_string())
    says.over = leap["over"].get<std::string>();
  for (const json& row : all.at("brief")) {
    const std::string what = row.value("what", "");
    if (what == "leap.margin") says.leap_met = is_met(row);
    if (what == "leap.margin" && row.value("standing", "") == "met_if") says.if_named = true;
    if (what == "openings.largest_m") says.openings_met = is_met(row);
  }
  return says;
}

}  // namespace hummock::witness
