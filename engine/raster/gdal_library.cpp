#include "engine/raster/gdal_library.h"

#include <dlfcn.h>

#include <new>
#include <string>

#include "engine/base/resource_error.h"

namespace hummock {
namespace {

// Never closed: what it made may outlive any moment we could choose.
void* opened_gdal() {
  static void* const library = dlopen(HUMMOCK_GDAL, RTLD_LAZY | RTLD_LOCAL);
  return library;
}

// A hundred libraries want a hundred megabytes of addresses; the loader says so in these words.
bool tells_of_memory(const std::string& why) {
  return why.find("failed to map segment") != std::string::npos ||
         why.find("annot allocate memory") != std::string::npos;
}

[[noreturn]] void refuse_gdal() {
  const char* told = dlerror();
  const std::string why = told != nullptr ? told : "no reason given";
  if (tells_of_memory(why)) throw std::bad_alloc();
  throw ResourceError("rasters are read and written by the library " HUMMOCK_GDAL
                      ", which cannot be used (" +
                      why + ")");
}

Gdal ready_gdal() {
  const Gdal table;
  table.GDALAllRegister();
  table.OSRSetPROJEnableNetwork(0);
  return table;
}

}  // namespace

GdalSymbol::GdalSymbol(const char* name) {
  void* const library = opened_gdal();
  at_ = library != nullptr ? dlsym(library, name) : nullptr;
  if (at_ == nullptr) refuse_gdal();
}

const Gdal& gdal() {
  static const Gdal table = ready_gdal();
  return table;
}

}  // namespace hummock
