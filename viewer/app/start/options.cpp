#include "viewer/app/start/options.h"

#include <CLI/CLI.hpp>

#include "engine/base/input_error.h"

namespace hummock::viewer {
namespace {

void read_size(const std::string& text, Options& o) {
  const auto x = text.find('x');
  try {
    std::size_t used = 0;
    if (x == std::string::npos) throw std::invalid_argument("");
    o.width = std::stoi(text.substr(0, x), &used);
    o.height = std::stoi(text.substr(x + 1));
  } catch (const std::exception&) {
    o.width = 0;
  }
  if (o.width < 16 || o.height < 16 || o.width > 8192 || o.height > 8192)
    throw InputError({"", 0, "--size"}, "\"" + text + "\"", "WIDTHxHEIGHT, 16 to 8192 pixels");
}

}  // namespace

Options read_options(int argc, char** argv) {
  Options o;
  std::string size = "1280x800";
  std::string shot;
  CLI::App app{"Shows a site in three dimensions, with every result of the check on it",
               "hummock view"};
  app.add_option("SITE", o.site, "NAME.site.toml")->required();
  app.add_option("--shot", shot, "write a PNG picture and open no window");
  app.add_option("--size", size, "of the picture, WIDTHxHEIGHT in pixels");
  app.add_option(
      "--camera", o.camera,
      "whole, plan, south, east, north, west, guest, animal, or x,y,z,heading,tilt,distance "
      "(the point looked at in m, angles in degrees)");
  app.add_option("--layer", o.layer, "map on the ground, as in `hummock map`");
  app.add_option("--date", o.date, "YYYY-MM-DD, for the sun");
  app.add_option("--hour", o.hour, "clock of the place, for the sun")->check(CLI::Range(0.0, 24.0));
  app.add_option("--choose", o.choose, "object or fence section to choose");
  app.add_option("--finding", o.finding, "show finding N of the list")->check(CLI::Range(1, 1000));
  app.add_option("--samples", o.samples, "smooth edges of a picture: 1, 2, 4, 8")
      ->check(CLI::IsMember({1, 2, 4, 8}));
  app.add_option("--scale", o.scale, "size of text and panels")->check(CLI::Range(0.5, 4.0));
  app.add_flag("--panels", o.panels, "the whole window in the picture, not the scene alone");
  app.add_flag("--plain", o.plain, "no legend, labels, north or scale bar in the picture");
  app.add_option("--state", o.state, "write the viewer's state as JSON here (for tests)");
  app.add_flag("--gl-errors", o.count_gl_errors,
               "ask for a debug context and leave with status 3 if OpenGL complained (for tests)");
  app.add_option("--quit-after", o.quit_after, "leave after so many seconds (for tests)");
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp& help) {
    std::exit(app.exit(help));
  } catch (const CLI::ParseError& error) {
    throw InputError({"", 0, "hummock view"}, error.what(), "see hummock view --help");
  }
  if (!shot.empty()) o.shot = shot;
  read_size(size, o);
  return o;
}

}  // namespace hummock::viewer
