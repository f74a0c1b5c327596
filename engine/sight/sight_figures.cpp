#include "engine/sight/sight_json.h"

namespace hummock::sight {

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"sight.seen_share", "share of the usable ground that guests see", "of 1", 2, Better::neither,
       "Usable ground on which some guest's eye sees the animal, every plant in leaf.", "guests"},
      {"sight.unseen_area_m2", "usable ground that no guest sees", "m²", 1, Better::more,
       "Usable ground on which no guest's eye sees the animal, leaves down where they fall."},
      {"sight.usable_area_m2", "usable ground of the sight check", "m²", 1, Better::neither,
       "Ground it stands on with its height free, outside dens, houses and deep water."},
      {"sight.guest_boundary_share", "share of the boundary with guests", "of 1", 2, Better::less,
       "Length of viewing places and sections with guest view, of the whole boundary.", "guests"},
      {"sight.hidden_places", "places to lie unseen", "", 0, Better::more,
       "Unseen patches of usable ground with room for its length and width."},
      {"sight.largest_hidden_m2", "largest unseen place to lie", "m²", 1, Better::more,
       "Area of the largest of those patches."},
      {"sight.dens_in_sight", "pairs of dens in sight of each other", "", 0, Better::less,
       "Pairs of dens from whose openings animals see one another."}};
  return rows;
}

}  // namespace hummock::sight
