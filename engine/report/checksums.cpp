#include "engine/report/checksums.h"

namespace hummock::report {

std::vector<InputFile> input_files(const Model& model, const CheckResults& results) {
  std::vector<InputFile> list = model.read;
  list.insert(list.end(), results.read.begin(), results.read.end());
  return list;
}

}  // namespace hummock::report
