#include "engine/species/young.h"

#include <algorithm>
#include <cstdio>

namespace hummock {
namespace {

const std::string kOfYoung = "the young: ";

std::string metres(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%g m", value);
  return text;
}

Sourced<double> of_young(Sourced<double> figure) {
  figure.source = kOfYoung + figure.source;
  return figure;
}

bool smaller_head(const Species& s) {
  return s.young && s.young->least_opening && s.young->least_opening->value < s.least_opening.value;
}
bool stronger_leap(const Species& s) {
  return s.young && s.young->leap_height && s.young->leap_height->value > s.leap_height.value;
}

std::string decides(const std::string& what, bool young, double of_young, double of_grown) {
  return what + " judged by the " + (young ? "young" : "grown") + " (young " + metres(of_young) +
         ", grown " + metres(of_grown) + ")";
}

}  // namespace

Species young_and_grown(const Species& species) {
  Species out = species;
  if (smaller_head(species)) {
    out.least_opening = of_young(*species.young->least_opening);
    if (out.crouch && out.crouch->value > out.least_opening.value) out.crouch = out.least_opening;
  }
  if (stronger_leap(species)) {
    out.leap_height = of_young(*species.young->leap_height);
    out.leap_distance.value *= out.leap_height.value / species.leap_height.value;
    if (out.leap_distance.careful) {
      *out.leap_distance.careful = std::max(*out.leap_distance.careful, out.leap_distance.value);
    }
  }
  return out;
}

std::vector<std::string> young_notes(const Species& s) {
  std::vector<std::string> notes;
  if (!s.young) return notes;
  if (s.young->least_opening) {
    notes.push_back(decides("openings are", smaller_head(s), s.young->least_opening->value,
                            s.least_opening.value));
  }
  if (s.young->leap_height) {
    notes.push_back(
        decides("leaps are", stronger_leap(s), s.young->leap_height->value, s.leap_height.value));
  }
  return notes;
}

bool opening_is_of_young(const Species& species) {
  return species.least_opening.source.rfind(kOfYoung, 0) == 0;
}

}  // namespace hummock
