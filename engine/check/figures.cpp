#include "engine/check/figures.h"

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

Figures figures_of(const CheckResults& results, const Model& model) {
  Figures figures;
  const auto add = [&](const auto& result) {
    if (result) add_figures(*result, model, figures);
  };
  add(results.relief);
  add(results.space);
  add(results.leap);
  add(results.dig);
  add(results.openings);
  add(results.entry);
  add(results.shade);
  add(results.sight);
  add(results.water);
  add(results.earthworks);
  add(results.quantities);
  add(results.houses);
  add(results.burrows);
  return figures;
}

}  // namespace hummock
