#include "engine/brief/asked.h"

#include <algorithm>

#include "engine/brief/brief.h"

namespace hummock {
namespace {

void add_rows(const std::vector<Requirement>& rows, const Asked& like, std::vector<Asked>& out) {
  for (const Requirement& row : rows) {
    out.push_back(like);
    out.back().row = &row;
  }
}

std::optional<double> limit_here(const Requirement& row, double limit, const Site& site) {
  switch (row.per) {
    case Per::group:
      return limit;
    case Per::animal:
      return limit * site.animals;
    case Per::extra_animal:
      return limit + row.extra.value_or(0.0) * std::max(0, site.animals - row.up_to);
    case Per::with_offspring:
      break;
  }
  if (!site.offspring) return std::nullopt;
  return limit + row.extra.value_or(0.0) * *site.offspring;
}

}  // namespace

std::vector<AskedEither> eithers_asked(const Site& site) {
  std::vector<AskedEither> out;
  for (const Either& one : site.species.eithers) out.push_back({&one, "", true});
  for (const Either& one : site.eithers) out.push_back({&one, "", false});
  for (const BriefFile& brief : site.briefs)
    for (const Either& one : brief.eithers) out.push_back({&one, brief.name, false});
  return out;
}

std::vector<Asked> rows_asked(const Site& site) {
  std::vector<Asked> out;
  add_rows(site.species.requirements, {nullptr, "", nullptr, nullptr, true}, out);
  add_rows(site.requirements, {}, out);
  for (const BriefFile& brief : site.briefs)
    add_rows(brief.requirements, {nullptr, brief.name, nullptr, nullptr, false}, out);
  for (const AskedEither& one : eithers_asked(site))
    for (const RowSet& set : one.either->sets)
      add_rows(set.requirements, {nullptr, one.by, one.either, &set, one.by_species}, out);
  return out;
}

Limits limits_here(const Requirement& row, const Site& site) {
  Limits out;
  if (row.at_least) out.low = limit_here(row, *row.at_least, site);
  if (row.at_most) out.high = limit_here(row, *row.at_most, site);
  return out;
}

Where place_of_high(const Requirement& row) {
  Where where = row.where;
  where.key += row.at_least ? ".between" : ".at_most";
  return where;
}

bool limited_alike(const BriefRow& a, const BriefRow& b) {
  return a.at_least.has_value() == b.at_least.has_value() &&
         a.at_most.has_value() == b.at_most.has_value();
}

double most_asked(const Site& site, const std::string& key, double otherwise) {
  for (const Asked& asked : rows_asked(site)) {
    const Requirement& row = *asked.row;
    if (row.what == key && row.at_least) otherwise = std::max(otherwise, *row.at_least);
  }
  return otherwise;
}

}  // namespace hummock
