// What a report was made from: the files whose bytes were judged, each with its SHA-256.
#pragma once

#include <vector>

#include "engine/base/sha256.h"
#include "engine/check/check.h"
#include "engine/model/model.h"

namespace hummock::report {

// The site, its species and every file they name, in the order they were read. A climate file that
// no analysis needed is not among them.
std::vector<InputFile> input_files(const Model& model, const CheckResults& results);

}  // namespace hummock::report
