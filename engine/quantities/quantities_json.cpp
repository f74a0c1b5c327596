#include "engine/quantities/quantities_json.h"

#include <nlohmann/json.hpp>

#include "engine/quantities/kinds.h"

namespace hummock::quantities {

nlohmann::json to_json(const std::vector<Row>& rows, const Model&) {
  auto out = nlohmann::json::array();
  for (const Row& r : rows)
    out.push_back({{"item", r.item},
                   {"where", r.where},
                   {"amount", r.amount},
                   {"unit", r.unit},
                   {"note", r.note}});
  return out;
}

void add_figures(const std::vector<Row>& rows, const Model& model, Figures& figures) {
  for (const Row& r : rows) {
    Figure& figure = figures["quantities." + r.key];
    figure.value = figure.value.value_or(0.0) + r.amount;
  }
  add_kinds(model, figures);
}

}  // namespace hummock::quantities
