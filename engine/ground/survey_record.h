// What is told of a survey beside its heights.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/base/input_file.h"
#include "engine/site/unseen.h"

namespace hummock::ground {

struct SurveyRecord {
  std::vector<std::string> notes;     // what the reader of a report should know
  std::vector<Unseen> unseen;         // what of it the ground lacks
  std::vector<InputFile> read;        // its files, as they were read
  std::vector<std::uint8_t> guessed;  // nodes it has no height for, filled; empty = none
};

}  // namespace hummock::ground
