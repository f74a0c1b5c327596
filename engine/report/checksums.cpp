#include "engine/report/checksums.h"

namespace hummock::report {

std::vector<InputFile> input_files(const Model& model, const CheckResults& results) {
  std::vector<InputFile> list = model.read;
  if (results.houses) {
    list.insert(list.end(), results.houses->read.begin(), results.houses->read.end());
  }
  return list;
}

}  // namespace hummock::report
