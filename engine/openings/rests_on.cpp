#include "engine/openings/rests_on.h"

#include "engine/brief/given.h"
#include "engine/findings/finding.h"
#include "engine/species/young.h"

namespace hummock::openings {

RestsOn what_it_rests_on(const Model& model, const Result& found) {
  RestsOn out;
  out.figures = {"openings.largest_m"};
  const Sourced<double>& head = model.site.species.least_opening;
  const auto careful = careful_end(head, kSmaller);
  if (!careful || found.largest_m >= head.value || found.largest_m < *careful) return out;
  Assumption a;
  a.key = "least_opening";
  a.used_value = plain_figure(head.value) + " m";
  a.careful_value = plain_figure(*careful) + " m";
  a.breaking_value = plain_figure(found.largest_m) + " m";
  a.words = std::string(opening_is_of_young(model.site.species) ? "the young's" : "its") +
            " head does not pass " + a.breaking_value + " (used " + a.used_value + ")";
  take_confirmations(model.site, a);
  out.list.push_back(a);
  return out;
}

}  // namespace hummock::openings
