// How far an answer is known. Verdicts, findings, the exit status and the report follow this, never
// the wording of a note.
#pragma once

#include <string>

namespace hummock {

// proven      as the model has it, to the error its header states
// bounded     known only to be at least `bound`: nothing was found up to there
// incomplete  the work stopped early: only what its bound decides is decided
// not_run     there is no answer
enum class Outcome { proven, bounded, incomplete, not_run };
const char* to_string(Outcome outcome);  // "proven" | "bounded" | "incomplete" | "not_run"

// Why an analysis has no answer.
enum class NotRun { not_asked, no_place, no_gate, no_viewing, no_house };
const char* to_string(NotRun why);  // in words: "the site has no [place]"

// An analysis' own word on how far it got.
struct Completion {
  Outcome outcome = Outcome::proven;
  std::string why;  // in words; empty when proven
};

}  // namespace hummock
