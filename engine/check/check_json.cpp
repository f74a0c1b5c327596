#include "engine/check/check_json.h"

#include "engine/base/version.h"
#include "engine/burrows/burrows_json.h"
#include "engine/dig/dig_json.h"
#include "engine/earthworks/earthworks_json.h"
#include "engine/entry/entry_json.h"
#include "engine/houses/houses_json.h"
#include "engine/leap/rows/leap_json.h"
#include "engine/openings/openings_json.h"
#include "engine/quantities/quantities_json.h"
#include "engine/relief/relief_json.h"
#include "engine/shade/shade_json.h"
#include "engine/sight/sight_json.h"
#include "engine/space/space_json.h"
#include "engine/water/water_json.h"

namespace hummock {
namespace {

nlohmann::json or_null(const std::optional<double>& value) {
  return value ? nlohmann::json(*value) : nlohmann::json(nullptr);
}

nlohmann::json brief_json(const std::vector<BriefRow>& rows) {
  nlohmann::json list = nlohmann::json::array();
  for (const BriefRow& row : rows) {
    list.push_back({{"what", row.what},
                    {"value", or_null(row.value)},
                    {"required", row.required},
                    {"at_least", or_null(row.at_least)},
                    {"at_most", or_null(row.at_most)},
                    {"met", to_string(row.met)},
                    {"margin", or_null(row.margin)},
                    {"where", row.where},
                    {"source", row.source},
                    {"note", row.note}});
  }
  return list;
}

template <class Result>
void put(nlohmann::json& all, const char* name, const std::optional<Result>& result,
         const Model& model) {
  if (result) all[name] = to_json(*result, model);
}

}  // namespace

nlohmann::json to_json(const CheckResults& results, const Model& model) {
  nlohmann::json all;
  all["format"] = 1;
  all["program"] = std::string("hummock ") + version();
  all["site"] = model.site.name;
  all["species"] = model.site.species.name;
  all["animals"] = model.site.animals;
  put(all, "relief", results.relief, model);
  put(all, "space", results.space, model);
  put(all, "leap", results.leap, model);
  put(all, "dig", results.dig, model);
  put(all, "openings", results.openings, model);
  put(all, "entry", results.entry, model);
  put(all, "shade", results.shade, model);
  put(all, "sight", results.sight, model);
  put(all, "water", results.water, model);
  put(all, "earthworks", results.earthworks, model);
  put(all, "quantities", results.quantities, model);
  put(all, "houses", results.houses, model);
  put(all, "burrows", results.burrows, model);
  all["brief"] = brief_json(results.brief);
  all["not_run"] = results.not_run;
  all["notes"] = model.notes;
  all["warnings"] = model.site.warnings;
  return all;
}

}  // namespace hummock
