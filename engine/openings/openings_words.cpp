// The openings in a reviewer's words: each kind in each thing once, with how many more like it.
#include <fmt/format.h>

#include "engine/openings/openings_json.h"
#include "engine/species/young.h"

namespace hummock::openings {
namespace {

bool alike(const Opening& a, const Opening& b) {
  return a.passes && b.passes && a.what == b.what && a.thing == b.thing;
}

const char* whose_head(const Species& species) {
  return opening_is_of_young(species) ? "the young's head" : "the head";
}

// How many further openings of the same kind in the same thing pass the head.
int more_like(const Result& r, std::size_t k) {
  int more = 0;
  for (std::size_t i = k + 1; i < r.list.size(); ++i) more += alike(r.list[i], r.list[k]) ? 1 : 0;
  return more;
}

bool told_before(const Result& r, std::size_t k) {
  for (std::size_t i = 0; i < k; ++i) {
    if (alike(r.list[i], r.list[k])) return true;
  }
  return false;
}

}  // namespace

void add_findings(const Result& r, const Model& model, FindingList& list) {
  for (std::size_t k = 0; k < r.list.size(); ++k) {
    const Opening& o = r.list[k];
    if (!o.passes || told_before(r, k)) continue;
    std::string text = fmt::format(
        "at {} {} of {} {} a ball of {:.0f} mm; {} passes {:.0f} mm", place_words(model, o.at),
        o.what, quoted(o.thing), o.leads_out ? "lets through" : "takes", 1000.0 * o.ball_m,
        whose_head(model.site.species), 1000.0 * model.site.species.least_opening.value);
    if (const int more = more_like(r, k); more > 0) {
      text += fmt::format(" (and {} more place{} like it)", more, more == 1 ? "" : "s");
    }
    list.push_back({o.leads_out ? Severity::way_out : Severity::look, "openings", o.thing, text,
                    o.leads_out ? "close it" : "open the gap or close it: an animal may wedge",
                    o.at});
  }
}

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"openings.largest_m", "largest ball that passes the barrier", "m", 3, Better::less,
       "Diameter of the largest ball that passes anywhere out through the barrier."},
      {"openings.pinch_count", "gaps an animal may wedge in", "", 0, Better::less,
       "Places between two solids that take between half the body's width and its whole."}};
  return rows;
}

}  // namespace hummock::openings
