#include "engine/species/young.h"

#include <algorithm>
#include <cstdio>
#include <optional>

#include "engine/species/doubt.h"

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

// Of the two the one that does not decide may yet do more at its careful end: that stands among the
// records of the one that does, which the answers try.
void keep_doubt(const Sourced<double>& other, double share, Sourced<double>& deciding) {
  const std::optional<double> end = careful_end(other, share);
  if (!end || !(share < 1.0 ? *end < deciding.value : *end > deciding.value)) return;
  Sourced<double> record;
  record.value = *end;
  record.evidence = other.evidence;
  record.source = "young and grown, the careful end of the other: " + other.source;
  deciding.records.push_back(record);
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
  if (species.young) {
    const double head = species.least_opening.value;
    out.grown = {species.leap_height.value, head, species.crouch ? species.crouch->value : head};
  }
  if (smaller_head(species)) {
    out.least_opening = of_young(*species.young->least_opening);
    if (out.crouch && out.crouch->value > out.least_opening.value) out.crouch = out.least_opening;
    keep_doubt(species.least_opening, kSmallerHead, out.least_opening);
  } else if (species.young && species.young->least_opening) {
    keep_doubt(*species.young->least_opening, kSmallerHead, out.least_opening);
  }
  // They go, or rest, where they stand at least.
  if (out.crouch && species.young && species.young->body &&
      species.young->body->value[2] < out.crouch->value) {
    out.crouch->value = species.young->body->value[2];
    out.crouch->source = kOfYoung + species.young->body->source;
  }
  if (stronger_leap(species)) {
    out.leap_height = of_young(*species.young->leap_height);
    out.leap_distance.value *= out.leap_height.value / species.leap_height.value;
    if (out.leap_distance.careful) {
      *out.leap_distance.careful = std::max(*out.leap_distance.careful, out.leap_distance.value);
    }
    keep_doubt(species.leap_height, kStrongerLeap, out.leap_height);
  } else if (species.young && species.young->leap_height) {
    keep_doubt(*species.young->leap_height, kStrongerLeap, out.leap_height);
  }
  return out;
}

double leap_of_both(const Species& s) {
  double leap = s.leap_height.value;
  if (s.grown) leap = std::min(leap, s.grown->leap_height);
  if (s.young && s.young->leap_height) leap = std::min(leap, s.young->leap_height->value);
  return leap;
}

double head_of_both(const Species& s) {
  const double head = s.least_opening.value;
  return s.grown ? std::max(head, s.grown->least_opening) : head;
}

double crouch_of_both(const Species& s, double crouch) {
  return s.grown ? std::max(crouch, s.grown->crouch) : crouch;
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
