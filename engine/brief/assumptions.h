// What an answer rests on that nobody has shown: a default used, a figure that is assumed, told or
// from memory, a premise of a model.
//
// An analysis attaches those that bear its answer: taken the careful way, alone or together with
// others, they turn a verdict. A requirement that is met and rests on one that no keeper has
// confirmed stands as `met_if`.
#pragma once

#include <string>
#include <vector>

namespace hummock {

struct Assumption {
  std::string key;            // of the species file: "hangs"; of several together "hangs+reach"
  std::string words;          // after "met, if": "it does not climb beneath an overhang"
  std::string careful_value;  // the value at which the animal can most
  std::string used_value;
  std::string breaking_value = {};  // from here on the verdict turns; empty when not a number
  std::string confirmed_by = {};    // a keeper; empty = not confirmed
  std::string confirmed_on = {};    // date
  bool confirmed() const { return !confirmed_by.empty() && !confirmed_on.empty(); }
};

struct RestsOn {
  std::vector<Assumption> list;      // at most kMostIfs, the least sets first
  std::vector<std::string> figures;  // keys of the figures whose verdict rests on them
  // Not everything was tried: the verdict may rest on more than is listed.
  bool explored = true;
  std::string why_not = {};
  std::vector<RestsOn> besides = {};  // what other figures of the analysis rest on
};
inline constexpr std::size_t kMostIfs = 3;

}  // namespace hummock
