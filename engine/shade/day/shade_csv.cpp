#include "engine/shade/day/shade_csv.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <iterator>

#include "engine/base/csv_field.h"
#include "engine/base/four_digits.h"

namespace hummock::shade {
namespace {

// A place's coordinate as text, one for each column or row of nodes.
template <class At>
std::vector<std::string> texts(int count, const At& at) {
  std::vector<std::string> out;
  out.reserve(static_cast<std::size_t>(count));
  for (int k = 0; k < count; ++k) out.push_back(fmt::format("{:.3f}", at(k)));
  return out;
}

class CellRows {
 public:
  CellRows(const Model& model, const std::vector<const geom::Raster*>& columns)
      : columns_(columns),
        grid_(columns.front()->grid),
        xs_(texts(grid_.nx, [&](int i) { return model.to_site(grid_.node(i, 0)).x; })),
        ys_(texts(grid_.ny, [&](int j) { return model.to_site(grid_.node(0, j)).y; })) {}

  // A few blocks of rows at a time, so that the threads share them and the table does not stand in
  // memory twice.
  void add_to(std::string& out) const {
    constexpr int kRowsAtOnce = 8;
    constexpr std::size_t kBlocks = 16;
    std::array<std::string, kBlocks> blocks;
    for (int from = 0; from < grid_.ny; from += kRowsAtOnce * static_cast<int>(kBlocks)) {
      // Alone: who waits for the last block takes up no other file meanwhile.
      tbb::this_task_arena::isolate([&] {
        tbb::parallel_for(std::size_t{0}, kBlocks, [&](std::size_t b) {
          blocks[b].clear();
          const int first = from + static_cast<int>(b) * kRowsAtOnce;
          for (int j = first; j < std::min(grid_.ny, first + kRowsAtOnce); ++j)
            add_row(j, blocks[b]);
        });
      });
      // All rows are about as long as the first ones.
      if (from == 0) out.reserve(out.size() + likely_size(blocks, kRowsAtOnce * kBlocks));
      for (const std::string& block : blocks) out += block;
    }
  }

 private:
  std::size_t likely_size(const auto& blocks, std::size_t rows) const {
    std::size_t size = 0;
    for (const std::string& block : blocks) size += block.size();
    return size * (static_cast<std::size_t>(grid_.ny) / rows + 1);
  }

  // A column's number as it stands in the table, with the comma before it; places beside each other
  // mostly have the same.
  struct Number {
    static constexpr std::size_t kRoom = 16;  // ",-1.234e-05" and less
    std::uint32_t bits = 0;
    std::size_t length = 0;
    std::array<char, kRoom> text{};

    void set(float value, std::string& scratch) {
      scratch = ',';
      append_four_digits(scratch, value);
      bits = std::bit_cast<std::uint32_t>(value);
      length = std::min(kRoom, scratch.size());
      std::copy_n(scratch.data(), length, text.data());
    }
  };

  void add_row(int j, std::string& to) const {
    const std::size_t start = grid_.index(0, j);
    const std::string& y = ys_[static_cast<std::size_t>(j)];
    std::vector<Number> numbers(columns_.size());
    std::vector<char> line;
    std::string scratch;
    for (std::size_t i = 0; i < static_cast<std::size_t>(grid_.nx); ++i) {
      if (std::isnan(columns_.front()->values[start + i])) continue;
      const std::string& x = xs_[i];
      line.resize(x.size() + y.size() + 2 + Number::kRoom * numbers.size());
      char* at = std::copy(x.begin(), x.end(), line.data());
      *at++ = ',';
      at = std::copy(y.begin(), y.end(), at);
      for (std::size_t c = 0; c < numbers.size(); ++c) {
        const float value = columns_[c]->values[start + i];
        Number& n = numbers[c];
        if (n.length == 0 || n.bits != std::bit_cast<std::uint32_t>(value)) n.set(value, scratch);
        std::memcpy(at, n.text.data(), Number::kRoom);
        at += n.length;
      }
      *at++ = '\n';
      to.append(line.data(), at);
    }
  }

  const std::vector<const geom::Raster*>& columns_;
  const geom::Grid& grid_;
  std::vector<std::string> xs_, ys_;
};

}  // namespace

std::string times_csv(const Day& day, const Model& model) {
  std::string out = "time,azimuth_deg,elevation_deg,hours,shaded_share,shaded_m2_per_animal\n";
  for (std::size_t k = 0; k < day.times.size(); ++k) {
    const sun::Position& p = day.times[k];
    fmt::format_to(std::back_inserter(out), "{},{:.3f},{:.3f},{:.5f},{:.5f},{:.4f}\n",
                   model.site.place ? sun::clock(*model.site.place, p.when) : day.time_labels[k],
                   p.azimuth / geom::kDegree, p.elevation / geom::kDegree, day.hours[k],
                   day.shaded_share[k], day.shaded_m2_per_animal[k]);
  }
  return out;
}

std::string cells_csv(const Day& day, const Model& model) {
  std::string out =
      "x_m,y_m,sun_hours,longest_shade_h,hot_shade_share,irradiation_kwh_m2,direct_kwh_m2,sky_view";
  std::vector<const geom::Raster*> columns{&day.sun_hours,          &day.longest_shade_h,
                                           &day.midday_shade_share, &day.irradiation_kwh_m2,
                                           &day.direct_kwh_m2,      &day.sky_view};
  for (std::size_t h = 0; h < day.hour_of_clock.size(); ++h) {
    fmt::format_to(std::back_inserter(out), ",shade_share_{:02}h", day.hour_of_clock[h]);
    columns.push_back(&day.hour_shade_share[h]);
  }
  out += '\n';
  CellRows(model, columns).add_to(out);
  return out;
}

std::string objects_csv(const Day& day, const Model& model) {
  std::string out = "name,x_m,y_m,z_m,sun_hours\n";
  for (const ObjectRow& o : day.objects) {
    const Vec3 p = model.to_site(o.at);
    fmt::format_to(std::back_inserter(out), "{},{:.3f},{:.3f},{:.3f},{:.3f}\n", csv_field(o.name),
                   p.x, p.y, p.z, o.sun_hours);
  }
  return out;
}

std::string year_csv(const Year& year, const Model& model) {
  std::string out = "x_m,y_m,sun_hours_year";
  std::vector<const geom::Raster*> columns{&year.sun_hours};
  for (std::size_t m = 0; m < year.month_sun_hours.size(); ++m) {
    fmt::format_to(std::back_inserter(out), ",hours_a_day_{:02}", m + 1);
    columns.push_back(&year.month_sun_hours[m]);
  }
  out += '\n';
  CellRows(model, columns).add_to(out);
  return out;
}

}  // namespace hummock::shade
