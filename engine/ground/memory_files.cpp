#include "engine/ground/memory_files.h"

#include <atomic>

#include "engine/raster/gdal_library.h"

namespace hummock::ground {
namespace {

namespace fs = std::filesystem;

bool lies_in(const fs::path& file, const fs::path& folder) {
  std::error_code error;
  const fs::path real = fs::canonical(file, error);
  return !error && real.parent_path() == folder && fs::is_regular_file(real, error);
}

}  // namespace

MemoryFiles::MemoryFiles(const fs::path& file, const Where& where) {
  static std::atomic<unsigned> count{0};
  folder_ = "/vsimem/hummock-" + std::to_string(count++) + "/";
  InputBytes raster = read_input(file, "ground raster", where, "a raster file");
  files_.reserve(8);  // GDAL points into the bytes
  add(file.filename().string(), std::move(raster));
  path_ = names_.front();
  add_companions(file);
}

MemoryFiles::~MemoryFiles() {
  for (const std::string& name : names_) gdal().VSIUnlink(name.c_str());
}

void MemoryFiles::add(const std::string& name, InputBytes read) {
  files_.push_back(std::move(read));
  names_.push_back(folder_ + name);
  std::string& bytes = files_.back().bytes;
  VSILFILE* made =
      gdal().VSIFileFromMemBuffer(names_.back().c_str(), reinterpret_cast<GByte*>(bytes.data()),
                                  static_cast<vsi_l_offset>(bytes.size()), FALSE);
  if (made != nullptr) gdal().VSIFCloseL(made);
}

void MemoryFiles::add_companions(const fs::path& file) {
  std::error_code error;
  const fs::path folder =
      fs::canonical(file.parent_path().empty() ? "." : file.parent_path(), error);
  for (const char* ending : {".prj", ".tfw", ".wld", ".asw"}) {
    fs::path beside = file;
    beside.replace_extension(ending);
    if (!error && lies_in(beside, folder)) {
      add(beside.filename().string(), read_input(beside, "beside the raster", {}, ""));
    }
  }
  for (const char* ending : {".aux.xml", ".msk"}) {
    const fs::path beside = file.string() + ending;
    if (!error && lies_in(beside, folder)) {
      add(beside.filename().string(), read_input(beside, "beside the raster", {}, ""));
    }
  }
}

std::vector<InputFile> MemoryFiles::records() const {
  std::vector<InputFile> list;
  for (const InputBytes& f : files_) list.push_back(f.record);
  return list;
}

}  // namespace hummock::ground
