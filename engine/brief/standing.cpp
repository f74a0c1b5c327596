// How rows stand, and what that is called.
#include "engine/brief/brief.h"

namespace hummock {

std::string asker_of(const BriefRow& row) {
  return row.asked_by.empty() ? "the site or its species" : row.asked_by;
}

bool stands_in_the_way(const BriefRow& row) {
  if (!row.must || row.in_set() || row.not_run == NotRun::not_asked) return false;
  return row.standing != Standing::met && row.standing != Standing::waived &&
         row.standing != Standing::not_asked;
}

const char* to_string(Standing standing) {
  switch (standing) {
    case Standing::met:
      return "met";
    case Standing::met_if:
      return "met_if";
    case Standing::met_as_drawn:
      return "met_as_drawn";
    case Standing::short_of:
      return "short";
    case Standing::not_checked:
      return "not_checked";
    case Standing::open:
      return "open";
    case Standing::waived:
      return "waived";
    case Standing::not_asked:
      return "not_asked";
  }
  return "";
}

const char* in_words(Standing standing) {
  switch (standing) {
    case Standing::met_if:
      return "met, if";
    case Standing::met_as_drawn:
      return "met as drawn";
    case Standing::not_checked:
      return "not checked";
    case Standing::not_asked:
      return "not asked";
    case Standing::met:
    case Standing::short_of:
    case Standing::open:
    case Standing::waived:
      break;
  }
  return to_string(standing);
}

const char* to_string(RowKind kind) {
  switch (kind) {
    case RowKind::figure:
      return "figure";
    case RowKind::words:
      return "words";
    case RowKind::ask:
      return "ask";
    case RowKind::either:
      return "either";
  }
  return "";
}

const char* to_string(Met met) {
  if (met == Met::met) return "met";
  return met == Met::short_of ? "short" : "not checked";
}

}  // namespace hummock
