// hummock map: one layer as GeoTIFF, ASCII grid or picture.
#include <fmt/core.h>

#include <memory>

#include "engine/cli/build_flags.h"
#include "engine/cli/commands.h"
#include "engine/cli/terminal.h"
#include "engine/draw/site_plan.h"
#include "engine/maps/map_layers.h"

namespace hummock::cli {
namespace {

struct MapFlags {
  std::string site;
  std::string layer;
  std::string out;
  std::string date;
  double hour = 12.0;
  double step = 10.0;
  BuildFlags build;
};

const LayerInfo& info_of(const std::string& name) {
  std::string allowed;
  for (const LayerInfo& info : maps::layers()) {
    if (info.name == name) return info;
    allowed += (allowed.empty() ? "" : ", ") + info.name;
  }
  throw InputError({"", 0, "LAYER"}, "\"" + name + "\"", allowed);
}

std::string ending_of(const std::string& out) {
  std::string ending = std::filesystem::path(out).extension().string();
  if (ending == ".tif" || ending == ".asc" || ending == ".png") return ending;
  throw InputError({"", 0, "-o"}, "\"" + out + "\"", "a name ending in .tif, .asc or .png");
}

int write_map(const MapFlags& flags) {
  const LayerInfo& info = info_of(flags.layer);
  const std::string ending = ending_of(flags.out);
  CheckOptions options;
  if (!flags.date.empty()) options.date = sun::parse_date(flags.date, {"", 0, "--date"});
  options.clock_hours = flags.hour;
  options.shade_step_minutes = flags.step;

  foresight::Asked asked;
  asked.work = foresight::Work::map;
  asked.only = {info.name};
  asked.step_minutes = flags.step;
  if (flags.build.foresee) return tell_foreseen(flags.site, asked);
  const TerminalProgress terminal;
  const Model model = load(flags.site, flags.build, asked, terminal.progress());
  const geom::Raster raster = maps::compute(model, info.name, options, terminal.progress());
  if (ending == ".png") {
    draw::LayerLook look;
    look.two_sided = info.two_sided;
    draw::save_png(flags.out,
                   draw::layer_figure(model, raster, info.name, info.title, info.unit, look));
  } else {
    maps::write_raster(flags.out, model, {{info.title, &raster}}, info.unit);
  }
  fmt::print("{}: {}, {}\n", flags.out, info.title, info.unit);
  for (const Assumption& a : maps::rests_on(model, info.name)) {
    fmt::print("  drawn with {} {}; its careful end is {}\n", a.key, a.used_value, a.careful_value);
  }
  return kAllMet;
}

}  // namespace

void add_map(CommandLine& line) {
  auto flags = std::make_shared<MapFlags>();
  std::string names;
  for (const LayerInfo& info : maps::layers()) {
    names += (names.empty() ? "" : ", ") + info.name;
  }
  Command command = line.command("map", "write one layer as tif, asc or png");
  command.required("SITE", flags->site, "NAME.site.toml");
  command.required("LAYER", flags->layer, names);
  command.required("-o,--out", flags->out, "file; its ending chooses the format");
  command.text("--date", flags->date, "day for the sun, YYYY-MM-DD");
  command.number("--hour", flags->hour, {0.0, 24.0},
                 "local clock for the shade layer, 13.5 = 13:30");
  command.number("--step", flags->step, {0.5, 120.0}, "minutes between sun positions");
  flags->build.add_to(command);
  command.runs([flags] { return write_map(*flags); });
}

}  // namespace hummock::cli
