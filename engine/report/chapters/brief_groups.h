// The brief in the order of a reviewer's questions.
#pragma once

#include <string>
#include <vector>

#include "engine/brief/brief.h"
#include "engine/report/document.h"

namespace hummock::report {

struct Group {
  std::string id;        // "below-ground"
  std::string title;     // "Below ground"
  std::string question;  // "Can it dig its way out?"
};
// room, ground, boundary, entry, below ground, sun and shade, water, hiding, guests, indoors
const std::vector<Group>& groups();
// The id of the group a key of the results belongs to.
std::string group_of(const std::string& key);

Mark mark_of(Standing standing);
// Rows of the brief as a table: requirement, value, required, margin, standing, source.
// `all`: the whole brief, that the rows are of.
Table brief_table(const std::vector<BriefRow>& rows, const std::vector<BriefRow>& all,
                  const std::string& file);
// The whole brief, a table a group, then a table an either and one of what a person is to answer;
// groups without a requirement are named as such.
Chapter brief_chapter(const std::vector<BriefRow>& rows);

}  // namespace hummock::report
