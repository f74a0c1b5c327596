// A figure as a file: PNG, SVG, PDF. The same figure gives the same bytes.
#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>
#include <png.h>

#include <cctype>
#include <cmath>
#include <cstring>
#include <map>
#include <memory>
#include <new>

#include "engine/base/atomic_file.h"
#include "engine/base/input_error.h"
#include "engine/base/printable.h"
#include "engine/draw/canvas.h"

namespace hummock::draw {
namespace {

constexpr double kPointsPerMm = 72.0 / 25.4;

struct FreeSurface {
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
};
struct FreeCairo {
  void operator()(cairo_t* c) const { cairo_destroy(c); }
};
using SurfacePtr = std::unique_ptr<cairo_surface_t, FreeSurface>;
using CairoPtr = std::unique_ptr<cairo_t, FreeCairo>;

void draw_on(cairo_surface_t* surface, const Figure& figure, double units_per_mm) {
  const CairoPtr cairo(cairo_create(surface));
  cairo_scale(cairo.get(), units_per_mm, units_per_mm);
  Canvas canvas(cairo.get(), figure.size);
  canvas.fill({{0, 0}, {figure.size.x, 0}, figure.size, {0, figure.size.y}}, kPaper);
  figure.draw(canvas);
}

void need(cairo_status_t status, const std::string& name) {
  if (status == CAIRO_STATUS_SUCCESS) return;
  if (status == CAIRO_STATUS_NO_MEMORY) throw std::bad_alloc();
  throw InputError(
      {name, 0, ""},
      std::string("a drawing that could not be saved (") + cairo_status_to_string(status) + ")",
      "a writable folder with room");
}

cairo_status_t append_bytes(void* closure, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

void on_scratch(const std::function<void(Canvas&)>& draw) {
  const SurfacePtr surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, 1, 1));
  const CairoPtr cairo(cairo_create(surface.get()));
  Canvas canvas(cairo.get(), {1.0, 1.0});
  draw(canvas);
}

namespace {

// Cairo's own writer seeks the best filter for each row: five times the time, and larger files for
// drawings with few colours.
std::string png_of(cairo_surface_t* surface, const std::string& name) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(cairo_image_surface_get_width(surface));
  image.height = static_cast<png_uint_32>(cairo_image_surface_get_height(surface));
  image.format = PNG_FORMAT_RGB;
  image.flags = PNG_IMAGE_FLAG_FAST;
  const unsigned char* rows = cairo_image_surface_get_data(surface);
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface));
  std::vector<std::uint8_t> rgb(PNG_IMAGE_SIZE(image));
  std::uint8_t* to = rgb.data();
  for (std::size_t y = 0; y < image.height; ++y) {
    const unsigned char* row = rows + y * stride;
    for (std::size_t x = 0; x < image.width; ++x, to += 3) {
      std::uint32_t dot = 0;
      std::memcpy(&dot, row + 4 * x, 4);
      to[0] = static_cast<std::uint8_t>(dot >> 16U);
      to[1] = static_cast<std::uint8_t>(dot >> 8U);
      to[2] = static_cast<std::uint8_t>(dot);
    }
  }
  png_alloc_size_t size = PNG_IMAGE_PNG_SIZE_MAX(image);
  std::string bytes(size, '\0');
  if (png_image_write_to_memory(&image, bytes.data(), &size, 0, rgb.data(), 0, nullptr) == 0)
    need(CAIRO_STATUS_WRITE_ERROR, name);
  bytes.resize(size);
  return bytes;
}

}  // namespace

std::string png_bytes(const Figure& figure, double dots_per_mm) {
  const SurfacePtr surface(cairo_image_surface_create(
      CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(figure.size.x * dots_per_mm)),
      static_cast<int>(std::lround(figure.size.y * dots_per_mm))));
  draw_on(surface.get(), figure, dots_per_mm);
  cairo_surface_flush(surface.get());
  need(cairo_surface_status(surface.get()), figure.name);
  return png_of(surface.get(), figure.name);
}

void save_png(const std::filesystem::path& path, const Figure& figure, double dots_per_mm) {
  save_bytes(path, png_bytes(figure, dots_per_mm));
}

namespace {

bool is_id_char(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '_';
}

// Cairo numbers an SVG's ids by a count that runs through the whole process. Renamed by figure and
// order they depend on the drawing alone, and figures set in one page do not clash.
std::string with_own_ids(const std::string& svg, const std::string& name) {
  std::map<std::string, std::string> renamed;
  std::string out;
  out.reserve(svg.size());
  std::size_t done = 0;
  // Ids stand as id="…", "#…" and (#…).
  for (std::size_t i = svg.find_first_of("\"("); i != std::string::npos;
       i = svg.find_first_of("\"(", i + 1)) {
    const bool named = svg[i] == '"' && i >= 4 && svg.compare(i - 4, 4, " id=") == 0;
    const bool used = i + 1 < svg.size() && svg[i + 1] == '#';
    if (!named && !used) continue;
    const std::size_t from = i + (named ? 1 : 2);
    std::size_t to = from;
    while (to < svg.size() && is_id_char(svg[to])) ++to;
    const auto [entry, fresh] = renamed.try_emplace(svg.substr(from, to - from));
    if (fresh) entry->second = name + "-" + std::to_string(renamed.size());
    out.append(svg, done, from - done);
    out += entry->second;
    done = to;
  }
  return out.append(svg, done, std::string::npos);
}

}  // namespace

std::string svg_text(const Figure& figure) {
  std::string bytes;
  const SurfacePtr surface(cairo_svg_surface_create_for_stream(
      append_bytes, &bytes, figure.size.x * kPointsPerMm, figure.size.y * kPointsPerMm));
  cairo_svg_surface_set_document_unit(surface.get(), CAIRO_SVG_UNIT_PT);
  draw_on(surface.get(), figure, kPointsPerMm);
  cairo_surface_finish(surface.get());
  need(cairo_surface_status(surface.get()), figure.name + ".svg");
  return with_own_ids(bytes, figure.name.empty() ? "figure" : figure.name);
}

void save_svg(const std::filesystem::path& path, const Figure& figure) {
  save_bytes(path, svg_text(figure));
}

void save_pdf(const std::filesystem::path& path, const std::vector<Figure>& pages,
              const std::string& title) {
  std::string bytes;
  const SurfacePtr surface(cairo_pdf_surface_create_for_stream(append_bytes, &bytes, 1.0, 1.0));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, drawable(title).c_str());
  // A fixed date: the same input gives the same bytes.
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE,
                                 "2000-01-01T00:00:00Z");
  for (const Figure& page : pages) {
    cairo_pdf_surface_set_size(surface.get(), page.size.x * kPointsPerMm,
                               page.size.y * kPointsPerMm);
    draw_on(surface.get(), page, kPointsPerMm);
    cairo_surface_show_page(surface.get());
  }
  cairo_surface_finish(surface.get());
  need(cairo_surface_status(surface.get()), path.string());
  save_bytes(path, bytes);
}

}  // namespace hummock::draw
