// The rows of a brief as a file says them: figures with limits, words that may or must be there,
// rows in words for a person, alternatives, and when a row is asked at all.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/input_error.h"
#include "engine/base/input_file.h"
#include "engine/base/season.h"

namespace hummock {

// group: the limit is for all; animal: times the animals; extra_animal: for up to `up_to`, `extra`
// for each further; with_offspring: for the grown, `extra` for each young that is expected.
enum class Per { group, animal, extra_animal, with_offspring };

enum class Weight { must, should };

// The row is asked only then; all that is given must be so.
struct When {
  std::optional<Season> season;  // of days of that season
  bool offspring = false;        // where young are expected
  std::optional<double> below;   // °C: where the outdoor air goes below it
  Where where;
};

// A row of the brief: a key of the results and its limits or words, or words for a person.
struct Requirement {
  std::string what;                // e.g. "space.plan_area_m2"
  std::optional<double> at_least;  // one of these forms
  std::optional<double> at_most;
  Per per = Per::group;
  int up_to = 1;                // extra_animal: animals included in the base figure
  std::optional<double> extra;  // added for each further animal, or each young
  std::string source;
  std::string note;
  Where where;
  Weight weight = Weight::must;
  std::string unit;      // that the limits are said in; empty = the file leaves it to the figure
  std::string ask = {};  // a row in words for a person, instead of `what`
  std::string id = {};   // what a confirmation or a waiver names it by; empty = `what` or `ask`
  // Of a figure whose value is words: each is among the first, none among the second, all of the
  // third are there. Empty = not asked.
  std::vector<std::string> one_of = {}, none_of = {}, all_of = {};
  std::optional<When> when = {};

  bool of_words() const { return !one_of.empty() || !none_of.empty() || !all_of.empty(); }
  // What a person signs: its id, or its own words.
  const std::string& key() const { return !id.empty() ? id : ask.empty() ? what : ask; }
};

// One of several sets of rows of which one must be met as a whole.
struct RowSet {
  std::string name;
  std::vector<Requirement> requirements;
  Where where;
};
struct Either {
  std::string name;
  Weight weight = Weight::must;
  std::vector<RowSet> sets;  // >= 2
  Where where;
};

// A keeper's word that an assumption holds, or that a row in words is so: in a species file for all
// sites, in a site file for one.
struct Confirmation {
  std::string what;  // the key of what is confirmed
  std::string by;
  std::string on;  // the day, 2026-05-01
  std::string note;
  Where where;
};

// A brief in a file of its own, shared by sites.
struct BriefFile {
  int format = 1;
  std::string name;  // whose it is: law, association, park
  std::filesystem::path file;
  std::vector<Requirement> requirements;
  std::vector<Either> eithers;
  InputFile read;  // that file as it was read
  Where where;
};

}  // namespace hummock
