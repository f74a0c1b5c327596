#include "engine/check/check_json.h"

#include "engine/base/version.h"
#include "engine/brief/when.h"

namespace hummock {
namespace {

nlohmann::json or_null(const std::optional<double>& value) {
  return value ? nlohmann::json(*value) : nlohmann::json(nullptr);
}

nlohmann::json ifs_json(const std::vector<Assumption>& ifs) {
  nlohmann::json list = nlohmann::json::array();
  for (const Assumption& a : ifs) {
    list.push_back({{"key", a.key},
                    {"words", a.words},
                    {"used_value", a.used_value},
                    {"careful_value", a.careful_value},
                    {"breaking_value", a.breaking_value},
                    {"confirmed", a.confirmed()},
                    {"confirmed_by", a.confirmed_by},
                    {"confirmed_on", a.confirmed_on}});
  }
  return list;
}

// What only some rows have.
void add_what_is_told(const BriefRow& row, nlohmann::json& one) {
  const auto add = [&](const char* key, const std::string& words) {
    if (!words.empty()) one[key] = words;
  };
  if (row.key != row.what) add("key", row.key);
  add("words", row.words);
  add("stricter", row.stricter);
  add("either", row.either);
  add("set", row.set);
  if (row.when) one["when"] = in_words(*row.when);
  if (row.found) one["found"] = *row.found;
  for (const SetStanding& set : row.sets)
    one["sets"].push_back({{"name", set.name}, {"standing", to_string(set.standing)}});
}

nlohmann::json brief_json(const std::vector<BriefRow>& rows) {
  nlohmann::json list = nlohmann::json::array();
  for (const BriefRow& row : rows) {
    nlohmann::json one{{"what", row.what},
                       {"value", or_null(row.value)},
                       {"required", row.required},
                       {"at_least", or_null(row.at_least)},
                       {"at_most", or_null(row.at_most)},
                       {"met", to_string(row.met)},
                       {"margin", or_null(row.margin)},
                       {"where", row.where},
                       {"source", row.source},
                       {"note", row.note},
                       {"standing", to_string(row.standing)},
                       {"ifs", ifs_json(row.ifs)},
                       {"outcome", to_string(row.outcome)},
                       {"why", row.why},
                       {"must", row.must},
                       {"kind", to_string(row.kind)},
                       {"asked_by", row.asked_by}};
    add_what_is_told(row, one);
    list.push_back(std::move(one));
  }
  return list;
}

nlohmann::json not_run_json(const std::map<std::string, NotRun>& not_run) {
  nlohmann::json out = nlohmann::json::object();
  for (const auto& [name, why] : not_run) out[name] = to_string(why);
  return out;
}

}  // namespace

nlohmann::json to_json(const CheckResults& results, const Model& model) {
  nlohmann::json all;
  all["format"] = 1;
  all["program"] = std::string("hummock ") + version();
  all["site"] = model.site.name;
  all["species"] = model.site.species.name;
  all["animals"] = model.site.animals;
  for (const Analysis& a : analyses()) {
    if (a.there(results)) all[a.name] = a.to_json(results, model);
  }
  all["brief"] = brief_json(results.brief);
  all["not_run"] = not_run_json(results.not_run);
  all["notes"] = model.notes;
  all["warnings"] = model.site.warnings;
  return all;
}

}  // namespace hummock
