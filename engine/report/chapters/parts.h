// What each analysis puts into the chapters of the report.
//
// A chapter walks the list of analyses (engine/check/analyses.h). One that has a part here is set
// by it, in words and pictures of its own; any other that names the chapter as its group is set
// from what it declares: its figures by the catalogue, and its own tables (`Analysis::chapter`).
#pragma once

#include <string>
#include <vector>

#include "engine/report/chapters/chapters.h"

namespace hummock::report {

struct Part {
  std::string chapter;  // id: of a group, or "schedule"
  std::string analysis;
  std::string in_words;                             // "Not checked: sun and shade (…)"
  void (*add)(Chapter&, const Sources&) = nullptr;  // its results are there
};
const std::vector<Part>& parts();

// Everything that analyses put into the chapter, in the order of the list; what was not run is
// named with the reason.
void add_parts(Chapter& chapter, const Sources& sources);

// Figure, value, unit, what it is.
Table figures_table(const std::string& file, std::vector<std::vector<Cell>> rows);

void add_room(Chapter& chapter, const Sources& sources);
void add_relief(Chapter& chapter, const Sources& sources);
void add_earthworks(Chapter& chapter, const Sources& sources);
void add_leap(Chapter& chapter, const Sources& sources);
void add_openings(Chapter& chapter, const Sources& sources);
void add_entry(Chapter& chapter, const Sources& sources);
void add_dig(Chapter& chapter, const Sources& sources);
void add_burrows(Chapter& chapter, const Sources& sources);
void add_shade(Chapter& chapter, const Sources& sources);
void add_water(Chapter& chapter, const Sources& sources);
void add_hiding(Chapter& chapter, const Sources& sources);
void add_guests(Chapter& chapter, const Sources& sources);
void add_houses(Chapter& chapter, const Sources& sources);
void add_quantities(Chapter& chapter, const Sources& sources);

}  // namespace hummock::report
