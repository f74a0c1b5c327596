// What people signed of a brief: answers to its rows in words, and what may stay short.
//
// A row in words is answered by a `[[confirm]]` whose `what` is its id or its own words, wherever
// the same words are asked. The site file's answer any; the species file's, which are read for
// every site, answer only the species file's own rows, so that a row of another file is never
// answered by chance. A `[[waiver]]` names a figure, an id, or an `either`; without `of` it speaks
// of what the site and its species ask, with `of` of what that brief file asks, so that a file
// added later is not signed off unread. Rows in a set are signed off as a whole, by the name of
// their either.
#pragma once

#include <string>
#include <vector>

#include "engine/brief/asked.h"
#include "engine/brief/brief.h"

namespace hummock {

// Throws InputError (file, line, key): two brief files of one name, two eithers or rows of one name
// or id,
// a confirmation that is a slip of one of the words of *ifs* (`assumable`) or of a row's.
void check_signed(const Site& site, const std::vector<std::string>& assumable);

// Who answered the row in words, and when: "R. Alder, 2026-05-01: as seen"; empty = nobody.
std::string answer_of(const Site& site, const Asked& asked);

// Who signed it off and why: "R. Alder, 2026-05-01: until the yard is joined"; empty = nobody.
std::string waiver_of(const Site& site, const Asked& asked);
std::string waiver_of(const Site& site, const AskedEither& asked);

// In words, what signs nothing: waivers of rows that are met, gone or not asked, and answers to
// rows that are gone or not asked. Silent on what was left out on purpose (--only) or is not
// checked.
std::vector<std::string> idle_waivers(const Site& site, const std::vector<BriefRow>& rows);
std::vector<std::string> idle_answers(const Site& site, const std::vector<BriefRow>& rows,
                                      const std::vector<std::string>& assumable);

}  // namespace hummock
