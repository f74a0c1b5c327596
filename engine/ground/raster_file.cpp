#include "engine/ground/raster_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <new>
#include <optional>

#include "engine/ground/memory_files.h"
#include "engine/ground/projection_scale.h"
#include "engine/ground/text_grid.h"
#include "engine/raster/gdal_library.h"

namespace hummock::ground {
namespace {

using geom::Vec2;

constexpr double kLowest = -500.0;   // m, below any dry land
constexpr double kHighest = 9000.0;  // m
constexpr double kMostPixels = 1e8;  // in doubles 0.8 GB; also of one block, which is held whole
constexpr int kRowsAtOnce = 64;
constexpr std::array<const char*, 8> kDrivers{"GTiff", "AAIGrid", "GRASSASCIIGrid", "XYZ",
                                              "GSAG",  "GSBG",    "GS7BG",          nullptr};

class Reader {
 public:
  Reader(const std::filesystem::path& file, const MemoryFiles& files, const Where& where,
         const Progress& progress)
      : where_(where), name_("'" + file.filename().string() + "'") {
    gdal().CPLErrorReset();
    data_.reset(gdal().GDALOpenEx(files.path().c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY,
                                  kDrivers.data(), nullptr, nullptr));
    if (!data_) {
      refuse(said("is not a raster that is read here"),
             "a GeoTIFF, an Arc/Info, GRASS or Surfer grid, or XYZ: gdal_translate makes one of "
             "another raster");
    }
    if (gdal().GDALGetRasterCount(data()) < 1 || gdal().GDALGetRasterXSize(data()) < 1) {
      refuse("holds no raster band", "a raster of heights in band 1");
    }
    band_ = gdal().GDALGetRasterBand(data(), 1);
    // This reader, too, takes what is no number for 0.
    if (driver() == "XYZ") {
      check_point_grid(files.bytes(), file.string(), progress);
    }
  }

  [[noreturn]] void refuse(const std::string& found, const std::string& allowed) const {
    throw InputError(where_, name_ + " " + found, allowed);
  }

  void check_reference_system() const {
    const OGRSpatialReferenceH srs = gdal().GDALGetSpatialRef(data());
    if (srs == nullptr) return;
    const char* name = gdal().OSRGetName(srs);
    const std::string called = name != nullptr ? name : "unnamed";
    if (gdal().OSRIsGeographic(srs) != 0) {
      refuse("in degrees (" + called + ")",
             "a raster projected in metres, for example: " + projection_command());
    }
    if (gdal().OSRIsProjected(srs) == 0) return;
    char* unit = nullptr;
    const double metres = gdal().OSRGetLinearUnits(srs, &unit);
    if (std::abs(metres - 1.0) > 1e-9) {
      refuse(fmt::format("in {} ({})", unit != nullptr ? unit : "another unit", called),
             "a raster projected in metres: gdalwarp -t_srs EPSG:… -r bilinear in.tif out.tif with "
             "a metric system of the region");
    }
  }

  void set_scale(Vec2 at, Pixels& pixels) const {
    const OGRSpatialReferenceH srs = gdal().GDALGetSpatialRef(data());
    if (srs == nullptr || gdal().OSRIsProjected(srs) == 0) return;
    const char* name = gdal().OSRGetName(srs);
    pixels.system = name != nullptr ? name : "unnamed";
    pixels.scale = projection_scale(srs, at).value_or(1.0);
    pixels.place = place_on_earth(srs, at);
  }

  std::array<double, 6> transform() const {
    std::array<double, 6> t{};
    if (gdal().GDALGetGeoTransform(data(), t.data()) != CE_None) {
      refuse("without a position on the ground", "a raster with a geotransform");
    }
    return t;
  }

  // Metres in one unit of the band's heights.
  double height_unit(std::vector<std::string>& notes) const {
    const std::string unit = gdal().GDALGetRasterUnitType(band_);
    if (unit.empty() || unit == "m" || unit == "metre" || unit == "meter" || unit == "metres" ||
        unit == "meters") {
      return 1.0;
    }
    double metres = 0.0;
    if (unit == "ft" || unit == "foot" || unit == "feet") metres = 0.3048;
    if (unit == "us-ft" || unit == "US survey foot" || unit == "ftUS") metres = 1200.0 / 3937.0;
    if (metres == 0.0) refuse("has heights in '" + unit + "'", "heights in metres (or feet)");
    notes.push_back("ground: heights of " + name_ + " turned from " + unit + " into metres");
    return metres;
  }

  GDALDatasetH data() const { return data_.get(); }
  GDALRasterBandH band() const { return band_; }
  std::string said(const std::string& otherwise) const {
    const std::string text = gdal().CPLGetLastErrorMsg();
    return text.empty() ? otherwise : otherwise + " (" + text.substr(0, 160) + ")";
  }

 private:
  std::string driver() const {
    return gdal().GDALGetDriverShortName(gdal().GDALGetDatasetDriver(data()));
  }

  std::string projection_command() const {
    std::array<double, 6> t{};
    gdal().GDALGetGeoTransform(data(), t.data());
    const double c = gdal().GDALGetRasterXSize(data()) / 2.0;
    const double r = gdal().GDALGetRasterYSize(data()) / 2.0;
    const double longitude = t[0] + c * t[1] + r * t[2];
    const double latitude = t[3] + c * t[4] + r * t[5];
    const int zone = std::clamp(static_cast<int>(std::floor((longitude + 180.0) / 6.0)) + 1, 1, 60);
    return fmt::format("gdalwarp -t_srs EPSG:{} -r bilinear in.tif out.tif",
                       (latitude < 0.0 ? 32700 : 32600) + zone);
  }

  Where where_;
  std::string name_;
  GdalDataset data_;
  GDALRasterBandH band_ = nullptr;
};

struct Span {
  double lo = 1e300, hi = -1e300;
  void add(double v) {
    lo = std::min(lo, v);
    hi = std::max(hi, v);
  }
};

// Fills to_col and to_row from GDAL's transform, whose pixel corners are at whole numbers.
void invert(const Reader& reader, const std::array<double, 6>& t, Pixels& pixels) {
  std::array<double, 6> inverse{};
  std::array<double, 6> forward = t;  // GDAL asks for what it will not change
  if (gdal().GDALInvGeoTransform(forward.data(), inverse.data()) == 0) {
    reader.refuse("whose pixels have no area", "a raster with a proper geotransform");
  }
  for (int k = 0; k < 3; ++k) {
    pixels.to_col[k] = inverse[static_cast<std::size_t>(k)] - (k == 0 ? 0.5 : 0.0);
    pixels.to_row[k] = inverse[static_cast<std::size_t>(k) + 3] - (k == 0 ? 0.5 : 0.0);
  }
  pixels.pixel_size = std::min(std::hypot(t[1], t[4]), std::hypot(t[2], t[5]));
}

geom::Box2 whole_box(const Reader& reader, const std::array<double, 6>& t) {
  geom::Box2 box;
  for (int k = 0; k < 4; ++k) {
    const double c = k % 2 == 0 ? 0.0 : gdal().GDALGetRasterXSize(reader.data());
    const double r = k / 2 == 0 ? 0.0 : gdal().GDALGetRasterYSize(reader.data());
    box.add({t[0] + c * t[1] + r * t[2], t[3] + c * t[4] + r * t[5]});
  }
  return box;
}

std::string extent_words(const geom::Box2& b) {
  return fmt::format("x {:.2f} to {:.2f}, y {:.2f} to {:.2f}", b.lo.x, b.hi.x, b.lo.y, b.hi.y);
}

void choose_window(const Reader& reader, const geom::Box2& area, Pixels& p) {
  Span col;
  Span row;
  for (int k = 0; k < 4; ++k) {
    const double x = k % 2 == 0 ? area.lo.x : area.hi.x;
    const double y = k / 2 == 0 ? area.lo.y : area.hi.y;
    col.add(p.to_col[0] + p.to_col[1] * x + p.to_col[2] * y);
    row.add(p.to_row[0] + p.to_row[1] * x + p.to_row[2] * y);
  }
  p.file_cols = gdal().GDALGetRasterXSize(reader.data());
  p.file_rows = gdal().GDALGetRasterYSize(reader.data());
  if (col.hi < -0.5 || row.hi < -0.5 || col.lo > p.file_cols - 0.5 || row.lo > p.file_rows - 0.5) {
    reader.refuse("covers " + extent_words(p.file_box),
                  "a raster that covers the site, " + extent_words(area));
  }
  const auto within = [](double v, int n) {
    return static_cast<int>(std::clamp(v, 0.0, static_cast<double>(n - 1)));
  };
  p.first_col = within(std::floor(col.lo) - 1.0, p.file_cols);
  p.first_row = within(std::floor(row.lo) - 1.0, p.file_rows);
  p.cols = within(std::ceil(col.hi) + 1.0, p.file_cols) - p.first_col + 1;
  p.rows = within(std::ceil(row.hi) + 1.0, p.file_rows) - p.first_row + 1;
  if (static_cast<double>(p.cols) * p.rows > kMostPixels) {
    reader.refuse(fmt::format("has {} × {} pixels over the site", p.cols, p.rows),
                  "at most 100 million: gdalwarp -tr with the site's cell makes it coarser");
  }
}

// A file of a few hundred bytes may say that it is one block of 20 000 × 20 000 pixels.
void check_block(const Reader& reader) {
  int cols = 0;
  int rows = 0;
  gdal().GDALGetBlockSize(reader.band(), &cols, &rows);
  if (static_cast<double>(cols) * rows <= kMostPixels) return;
  reader.refuse(fmt::format("is kept in blocks of {} × {} pixels", cols, rows),
                "blocks of at most 100 million pixels: gdal_translate -co TILED=YES cuts it");
}

// Marks what GDAL's mask (no-data value, mask band, alpha) says is missing. Row by row.
void apply_mask(const Reader& reader, Pixels& p) {
  if ((gdal().GDALGetMaskFlags(reader.band()) & GMF_ALL_VALID) != 0) return;
  const GDALRasterBandH mask = gdal().GDALGetMaskBand(reader.band());
  std::vector<unsigned char> row(static_cast<std::size_t>(p.cols));
  for (int r = 0; r < p.rows; ++r) {
    if (gdal().GDALRasterIO(mask, GF_Read, p.first_col, p.first_row + r, p.cols, 1, row.data(),
                            p.cols, 1, GDT_Byte, 0, 0) != CE_None) {
      reader.refuse(reader.said("cannot be read"), "a whole raster file");
    }
    for (int c = 0; c < p.cols; ++c) {
      if (row[static_cast<std::size_t>(c)] != 0) continue;
      p.z[static_cast<std::size_t>(r) * static_cast<std::size_t>(p.cols) +
          static_cast<std::size_t>(c)] = std::numeric_limits<double>::quiet_NaN();
    }
  }
}

// `rows` rows of the window from `first` on.
void read_rows(const Reader& reader, const Pixels& p, int first, int rows, double* to) {
  if (gdal().GDALRasterIO(reader.band(), GF_Read, p.first_col, p.first_row + first, p.cols, rows,
                          to, p.cols, rows, GDT_Float64, 0, 0) == CE_None) {
    return;
  }
  if (gdal().CPLGetLastErrorNo() == CPLE_OutOfMemory) throw std::bad_alloc();
  reader.refuse(reader.said("cannot be read"), "a whole raster file");
}

// One row is asked for at either end before memory is taken for all: most files that are cut short
// lack one of the two.
void check_ends(const Reader& reader, const Pixels& p) {
  std::vector<double> row(static_cast<std::size_t>(p.cols));
  for (const int r : {0, p.rows - 1}) read_rows(reader, p, r, 1, row.data());
}

void read_window(const Reader& reader, const Progress& progress, Pixels& p) {
  gdal().CPLErrorReset();
  check_block(reader);
  check_ends(reader, p);
  p.z.resize(static_cast<std::size_t>(p.cols) * static_cast<std::size_t>(p.rows));
  for (int r = 0; r < p.rows; r += kRowsAtOnce) {
    progress.step("ground: survey", static_cast<double>(r) / p.rows);
    double* to = p.z.data() + static_cast<std::size_t>(r) * static_cast<std::size_t>(p.cols);
    read_rows(reader, p, r, std::min(kRowsAtOnce, p.rows - r), to);
  }
  apply_mask(reader, p);
}

// Scale, offset and unit; heights no ground has become gaps.
void to_metres(const Reader& reader, double unit, Pixels& p) {
  const double scale = gdal().GDALGetRasterScale(reader.band(), nullptr);
  const double offset = gdal().GDALGetRasterOffset(reader.band(), nullptr);
  std::size_t known = 0;
  for (double& z : p.z) {
    if (std::isnan(z)) continue;
    z = (z * scale + offset) * unit;
    if (z >= kLowest && z <= kHighest) {
      ++known;
      continue;
    }
    if (p.unusable.empty()) p.unusable = fmt::format("{:g}", z);
    z = std::numeric_limits<double>::quiet_NaN();
  }
  if (known > 0) return;
  reader.refuse(p.unusable.empty() ? "has no heights over the site: all no-data"
                                   : "has no heights over the site, but " + p.unusable + " m",
                "a raster with heights from -500 to 9000 m");
}

}  // namespace

Pixels read_pixels(const std::filesystem::path& file, const geom::Box2& area, const Where& where,
                   std::vector<std::string>& notes, const Progress& progress) {
  std::error_code failed;
  if (!std::filesystem::is_regular_file(file, failed)) {
    throw InputError(where, "no file '" + file.string() + "'", "a raster file");
  }
  const MemoryFiles files(file, where);
  if (is_text_grid(files.bytes())) check_text_grid(files.bytes(), file.string(), progress);
  const QuietGdal quiet;
  const Reader reader(file, files, where, progress);
  reader.check_reference_system();
  const std::array<double, 6> t = reader.transform();
  Pixels pixels;
  reader.set_scale((area.lo + area.hi) * 0.5, pixels);
  invert(reader, t, pixels);
  pixels.file_box = whole_box(reader, t);
  choose_window(reader, area, pixels);
  const double unit = reader.height_unit(notes);
  read_window(reader, progress, pixels);
  to_metres(reader, unit, pixels);
  pixels.read = files.records();
  return pixels;
}

}  // namespace hummock::ground
