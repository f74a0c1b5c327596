// The catalogue rows of surfaces.
#include <fmt/format.h>

#include "engine/surfaces/surfaces_json.h"

namespace hummock::surfaces {
namespace {

void add_material_rows(FigureRows& rows) {
  for (const std::string& m : material_words()) {
    const std::string key = "surfaces." + m;
    rows.push_back({key + "_m2", "ground of " + m, "m²", 1, Better::neither,
                    "Plan area whose uppermost surface is said to be " + m +
                        ", without houses and what stands on it."});
    rows.push_back({key + "_share", "share of the ground that is " + m, "of 1", 2, Better::neither,
                    "The same over the ground inside the boundary."});
    rows.push_back({key + "_least_depth_m", "least depth of " + m, "m", 2, Better::more,
                    "Of all surfaces of it, as said but no deeper than rock or liner; none where "
                    "one does not say its depth."});
    rows.push_back({key + "_mean_depth_m", "mean depth of " + m, "m", 2, Better::more,
                    "The same as a mean over their area."});
  }
}

void add_dig_rows(FigureRows& rows) {
  const std::string where =
      "sand, soil, loam or litter on dry ground the animal can live on and comes to";
  rows.push_back({"surfaces.diggable_m2", "ground to dig in, as deep as it digs", "m²", 1,
                  Better::more,
                  "Plan area of " + where +
                      ", at least as deep as the animal digs above rock, liner, apron and footing "
                      "(of any depth that is "
                      "said, where it does not dig)."});
  rows.push_back({"surfaces.diggable_share", "share of the usable ground to dig in", "of 1", 2,
                  Better::more, "The same over the ground the animal can live on."});
  rows.push_back({"surfaces.diggable_least_depth_m", "least depth of the ground to dig in", "m", 2,
                  Better::more, "Of that ground; none where there is none."});
  rows.push_back({"surfaces.diggable_mean_depth_m", "mean depth of the ground to dig in", "m", 2,
                  Better::more, "The same as a mean over its area."});
  for (std::size_t d = 0; d < kDigDepths.size(); ++d)
    rows.push_back(
        {fmt::format("surfaces.diggable_{}_m2", kDigWords[d]),
         fmt::format("ground to dig in, {:g} m deep", kDigDepths[d]), "m²", 1, Better::more,
         fmt::format("Plan area of {}, at least {:g} m deep above rock, liner, apron and footing.",
                     where, kDigDepths[d])});
}

void add_cover_rows(const std::string& key, const std::string& season, const std::string& meaning,
                    FigureRows& rows) {
  rows.push_back({"surfaces." + key + "_share", "cover of plants, " + season, "of 1", 2,
                  Better::more,
                  "Mean over the usable ground of the share of light and sight from "
                  "straight above that plantings stop, " +
                      meaning + "."});
  for (const BandWords& band : kBandWords)
    rows.push_back(
        {fmt::format("surfaces.{}_{}_share", key, band.key),
         fmt::format("cover of plants {}, {}", band.said, season), "of 1", 2, Better::more,
         fmt::format("The same by what of them stands {} above the ground.", band.said)});
}

void add_plant_rows(FigureRows& rows) {
  rows.push_back({"surfaces.planted_share", "share of the usable ground that is planted", "of 1", 2,
                  Better::more, "Usable ground under one planting or more, whatever its cover."});
  rows.push_back({"surfaces.evergreen_share", "share of the usable ground under evergreens", "of 1",
                  2, Better::more, "The same under plantings said to be evergreen."});
  for (std::size_t k = 1; k < kPlantKinds; ++k) {
    const std::string& kind = plant_words()[k];
    rows.push_back({"surfaces." + kind + "_m2", "usable ground under plantings of " + kind, "m²", 1,
                    Better::more, "Plan area under plantings said to be of this kind."});
  }
  for (std::size_t k = 1; k < kLeaves; ++k) {
    const std::string& leaf = leaf_words()[k];
    rows.push_back({"surfaces." + leaf + "_leaf_m2", "usable ground under " + leaf + " leaves",
                    "m²", 1, Better::more, "Plan area under plantings said to have such leaves."});
  }
  add_cover_rows("cover", "in leaf", "all in leaf", rows);
  add_cover_rows("cover_bare", "leaves down",
                 "with every planting that falls bare standing bare at once", rows);
}

FigureRows made_rows() {
  FigureRows rows;
  rows.push_back({"surfaces.unsaid_m2", "ground of which no surface is said", "m²", 1, Better::less,
                  "Plan area inside the boundary, without houses and what stands on it, in no "
                  "[[surface]]."});
  rows.push_back({"surfaces.unsaid_share", "share of the ground of which no surface is said",
                  "of 1", 2, Better::less, "The same over that ground."});
  add_material_rows(rows);
  rows.push_back({"surfaces.drained_m2", "ground said to drain", "m²", 1, Better::more,
                  "Plan area whose uppermost surface is said to let rain through."});
  rows.push_back({"surfaces.drained_share", "share of the ground said to drain", "of 1", 2,
                  Better::more, "The same over the ground inside the boundary."});
  add_dig_rows(rows);
  add_plant_rows(rows);
  return rows;
}

}  // namespace

const FigureRows& figure_rows() {
  static const FigureRows rows = made_rows();
  return rows;
}

}  // namespace hummock::surfaces
