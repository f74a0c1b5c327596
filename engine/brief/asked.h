// All rows that are asked of a site, from wherever they are asked: its species, itself, its brief
// files, and the sets of every `either` of these.
#pragma once

#include <string>
#include <vector>

#include "engine/site/site.h"

namespace hummock {

struct BriefRow;  // engine/brief/brief.h

struct Asked {
  const Requirement* row = nullptr;
  std::string by;                  // the brief file's name; empty = the site or its species
  const Either* either = nullptr;  // with its set, or nothing
  const RowSet* set = nullptr;
  bool by_species = false;
};

// Those outside of sets first: of the species, the site, each brief file; then in the same order
// each either, set by set. They point into `site`.
std::vector<Asked> rows_asked(const Site& site);

// What stands outside of sets, of one asker or another, and the eithers.
struct AskedEither {
  const Either* either = nullptr;
  std::string by;
  bool by_species = false;
};
std::vector<AskedEither> eithers_asked(const Site& site);

// The row's limits as they are for the site's animals and young, in the figure's unit. Nothing
// where there is none, or where it is for young whose number the site does not say.
struct Limits {
  std::optional<double> low, high;
};
Limits limits_here(const Requirement& row, const Site& site);
// Where the upper limit is written. Precondition: there is one.
Where place_of_high(const Requirement& row);

// Have both a lower limit, or neither; and so of the upper.
bool limited_alike(const BriefRow& a, const BriefRow& b);

// The largest `at_least` that any row, in a set or not, asks of the figure; `otherwise` if larger.
double most_asked(const Site& site, const std::string& key, double otherwise);

}  // namespace hummock
