// Map layers to files through GDAL.
#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "engine/base/atomic_file.h"
#include "engine/maps/map_layers.h"
#include "engine/raster/gdal_library.h"

namespace hummock::maps {
namespace {

constexpr double kNoData = -9999.0;

// No .aux.xml beside a file that is about to be renamed; what went wrong is kept for our own line.
struct Writing {
  Writing() {
    gdal().CPLSetThreadLocalConfigOption("GDAL_PAM_ENABLED", "NO");
    gdal().CPLErrorReset();
  }
  ~Writing() { gdal().CPLSetThreadLocalConfigOption("GDAL_PAM_ENABLED", nullptr); }
  Writing(const Writing&) = delete;
  Writing& operator=(const Writing&) = delete;

  QuietGdal quiet;
};

[[noreturn]] void fail(const std::filesystem::path& path) {
  const std::string why = gdal().CPLGetLastErrorMsg();
  throw InputError({path.string(), 0, ""}, why.empty() ? "a raster that cannot be written" : why,
                   "a place that can be written");
}

// North-up rows with the no-data value put in.
void image_rows(const geom::Raster& raster, std::vector<float>& rows) {
  const auto nx = static_cast<std::size_t>(raster.grid.nx);
  const auto ny = static_cast<std::size_t>(raster.grid.ny);
  rows.resize(raster.values.size());
  for (std::size_t j = 0; j < ny; ++j) {
    for (std::size_t i = 0; i < nx; ++i) {
      const float v = raster.values[j * nx + i];
      rows[(ny - 1 - j) * nx + i] = std::isfinite(v) ? v : static_cast<float>(kNoData);
    }
  }
}

// A pixel's centre is the grid's node, so the corner lies half a cell out.
std::array<double, 6> transform(const geom::Grid& g, Vec2 origin) {
  return {origin.x + g.x0 - g.cell / 2,      g.cell, 0.0,
          origin.y + g.y_max() + g.cell / 2, 0.0,    -g.cell};
}

void fill(const GdalDataset& set, const MadeBands& bands, Vec2 origin, const std::string& unit,
          bool words, const std::filesystem::path& path) {
  const geom::Grid& grid = bands.grid;
  auto gt = transform(grid, origin);
  gdal().GDALSetGeoTransform(set.get(), gt.data());
  std::vector<float> rows;
  for (std::size_t k = 0; k < bands.descriptions.size(); ++k) {
    const GDALRasterBandH band = gdal().GDALGetRasterBand(set.get(), static_cast<int>(k) + 1);
    gdal().GDALSetRasterNoDataValue(band, kNoData);
    if (words) {
      gdal().GDALSetDescription(band, bands.descriptions[k].c_str());
      if (!unit.empty()) gdal().GDALSetRasterUnitType(band, unit.c_str());
    }
    image_rows(bands.make(k), rows);
    if (gdal().GDALRasterIO(band, GF_Write, 0, 0, grid.nx, grid.ny, rows.data(), grid.nx, grid.ny,
                            GDT_Float32, 0, 0) != CE_None ||
        gdal().GDALFlushRasterCache(band) != CE_None) {
      fail(path);
    }
  }
}

GDALDriverH driver(const char* name, const std::filesystem::path& path) {
  const GDALDriverH d = gdal().GDALGetDriverByName(name);
  if (d == nullptr) fail(path);
  return d;
}

// Bands of which most samples are as their left neighbour (shares of the beam: mostly 0 or 1) are
// packed smaller and six times as fast as they stand; others as differences (predictor 3).
bool mostly_flat(const geom::Raster& raster) {
  std::size_t same = 0;
  for (std::size_t k = 1; k < raster.values.size(); ++k)
    same += raster.values[k] == raster.values[k - 1] ? 1 : 0;
  return same * 2 > raster.values.size();
}

// Whole bands after each other, 64 rows a block, the fastest packing: of a hundred bands of a
// day's beam a sixth of the size and a tenth of the work of GDAL's own choice.
void write_tiff(const std::filesystem::path& to, const MadeBands& bands, Vec2 origin,
                const std::string& unit) {
  std::array<char, 17> compress{"COMPRESS=DEFLATE"};
  const bool flat = mostly_flat(bands.make(bands.descriptions.size() / 2));
  std::array<char, 12> predictor{"PREDICTOR=3"};
  std::array<char, 12> as_it_stands{"PREDICTOR=1"};
  std::array<char, 17> big{"BIGTIFF=IF_SAFER"};
  std::array<char, 9> level{"ZLEVEL=1"};
  std::array<char, 16> interleave{"INTERLEAVE=BAND"};
  std::array<char, 14> rows{"BLOCKYSIZE=64"};
  std::array<char*, 7> options{compress.data(),
                               flat ? as_it_stands.data() : predictor.data(),
                               big.data(),
                               level.data(),
                               interleave.data(),
                               rows.data(),
                               nullptr};
  const geom::Grid& grid = bands.grid;
  const GdalDataset set(gdal().GDALCreate(driver("GTiff", to), to.c_str(), grid.nx, grid.ny,
                                          static_cast<int>(bands.descriptions.size()), GDT_Float32,
                                          options.data()));
  if (!set) fail(to);
  fill(set, bands, origin, unit, true, to);
  gdal().GDALFlushCache(set.get());
  if (gdal().CPLGetLastErrorType() >= CE_Failure) fail(to);
}

// The format can only be copied into; it holds neither unit nor description.
void write_ascii(const std::filesystem::path& to, const MadeBands& bands, Vec2 origin) {
  const geom::Grid& grid = bands.grid;
  const GdalDataset memory(
      gdal().GDALCreate(driver("MEM", to), "", grid.nx, grid.ny, 1, GDT_Float32, nullptr));
  if (!memory) fail(to);
  fill(memory, bands, origin, "", false, to);
  std::array<char, 21> digits{"SIGNIFICANT_DIGITS=7"};
  std::array<char, 19> square{"FORCE_CELLSIZE=YES"};
  std::array<char*, 3> options{digits.data(), square.data(), nullptr};
  const GdalDataset set(gdal().GDALCreateCopy(driver("AAIGrid", to), to.c_str(), memory.get(), 0,
                                              options.data(), nullptr, nullptr));
  if (!set) fail(to);
}

void check(const std::filesystem::path& path, const std::string& kind,
           const std::vector<Band>& bands) {
  const Where where{path.string(), 0, ""};
  if (kind != ".tif" && kind != ".tiff" && kind != ".asc") {
    throw InputError(where, "the ending \"" + kind + "\"", ".tif or .asc");
  }
  if (bands.empty()) throw InputError(where, "no layer", "at least one");
  if (kind == ".asc" && bands.size() > 1) {
    throw InputError(where, std::to_string(bands.size()) + " layers in an ASCII grid",
                     "one (use .tif)");
  }
  for (const Band& b : bands) {
    if (b.raster == nullptr || !(b.raster->grid == bands.front().raster->grid) ||
        b.raster->values.empty()) {
      throw InputError(where, "layers on different grids", "one grid for all");
    }
  }
}

std::string kind_of(const std::filesystem::path& path) {
  std::string kind = path.extension().string();
  std::transform(kind.begin(), kind.end(), kind.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return kind;
}

void write(const std::filesystem::path& path, const Model& model, const MadeBands& bands,
           const std::string& unit) {
  save_through(path, [&](const std::filesystem::path& to) {
    const Writing writing;
    kind_of(path) == ".asc" ? write_ascii(to, bands, model.origin)
                            : write_tiff(to, bands, model.origin, unit);
  });
}

}  // namespace

void write_raster(const std::filesystem::path& path, const Model& model,
                  const std::vector<Band>& bands, const std::string& unit) {
  check(path, kind_of(path), bands);
  MadeBands made{bands.front().raster->grid, {}, [&](std::size_t k) { return *bands[k].raster; }};
  for (const Band& b : bands) made.descriptions.push_back(b.description);
  write(path, model, made, unit);
}

void write_bands(const std::filesystem::path& path, const Model& model, const MadeBands& bands,
                 const std::string& unit) {
  write(path, model, bands, unit);
}

}  // namespace hummock::maps
