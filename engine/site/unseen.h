// What the ground of a model lacks of what its files hold: less than it seems, though nothing is
// wrong with the file.
//
// What an answer on the ground rests on is then that this does not matter: a requirement that is
// met stands as *met, if* until a keeper confirms the key (engine/check/unseen_ground.h). It cannot
// be taken on purpose by `accept`, which is for input that is probably wrong.
#pragma once

#include <string>

namespace hummock {

// The survey holds detail that the cell does not.
inline constexpr const char* kSurveyDetail = "survey-detail";
// A form goes on beyond the ground that is modelled.
inline constexpr const char* kFormCut = "form-cut";

// A drawn form is finer than the cell.
inline constexpr const char* kFormDetail = "form-detail";
// The face of a bench is drawn steeper than the cell shows it.
inline constexpr const char* kFormFace = "form-face";
// Between a basin and the boundary lies a strip narrower than the cell.
inline constexpr const char* kNarrowStrip = "narrow-strip";
// A side of a basin near the boundary is drawn steeper than the cell shows it, or the basin
// narrower than its cells: what is dug from there rests on it.
inline constexpr const char* kBasinDetail = "basin-detail";

struct Unseen {
  std::string key;      // of a confirmation
  std::string words;    // after "met, if": "what the cell leaves out of the survey does not matter"
  std::string used;     // what the model has
  std::string careful;  // what would leave nothing out
};

}  // namespace hummock
