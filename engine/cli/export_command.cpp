// hummock export: the model as a mesh file.
#include <fmt/core.h>
#include <tbb/global_control.h>

#include <filesystem>
#include <memory>
#include <optional>

#include "engine/cli/build_flags.h"
#include "engine/cli/commands.h"
#include "engine/cli/terminal.h"
#include "engine/leap/search/leap_solver.h"
#include "engine/mesh_export/mesh_export.h"

namespace hummock::cli {
namespace {

struct ExportFlags {
  std::string site;
  std::string out;
  std::string values;
  mesh_export::Settings mesh;
  BuildFlags build;
};

// Leap demand at every vertex of ground and structures.
std::map<std::string, std::vector<float>> required_leap_values(const Model& model,
                                                               const Progress& progress) {
  const leap::LeapSolver solver(model, {}, progress);
  auto values = solver.surface_required_leap(model);
  values["ground"] = solver.ground_required_leap(model).values;
  return values;
}

void refuse_values(const ExportFlags& flags) {
  if (flags.values.empty() || flags.values == "demand") return;
  throw InputError({"", 0, "--values"}, "\"" + flags.values + "\"", "demand");
}

// CGAL's union breaks ties by where its boxes lie in memory. While only one thread asks for memory
// that is the same in every run, and so are the solid's triangles.
std::optional<tbb::global_control> alone_for_solids(const std::string& out) {
  const std::string ending = std::filesystem::path(out).extension().string();
  if (ending != ".stl" && ending != ".STL") return std::nullopt;
  return std::optional<tbb::global_control>(std::in_place,
                                            tbb::global_control::max_allowed_parallelism, 1);
}

int write_mesh(const ExportFlags& flags) {
  refuse_values(flags);
  foresight::Asked asked;
  const auto alone = alone_for_solids(flags.out);
  asked.work = alone ? foresight::Work::solid : foresight::Work::mesh;
  if (!flags.values.empty()) asked.only = {"demand"};
  if (flags.build.foresee) return tell_foreseen(flags.site, asked);
  const TerminalProgress terminal;
  const Model model = load(flags.site, flags.build, asked, terminal.progress());
  mesh_export::Settings settings = flags.mesh;
  if (!flags.values.empty())
    settings.vertex_values = required_leap_values(model, terminal.progress());
  const auto written = mesh_export::write(flags.out, model, settings, terminal.progress());
  fmt::print("{}: {} parts, {} vertices, {} triangles{}\n", flags.out, written.parts,
             written.vertices, written.triangles, written.closed ? ", one closed solid" : "");
  for (const std::string& note : written.notes) fmt::print("  {}\n", note);
  return kAllMet;
}

}  // namespace

void add_export(CommandLine& line) {
  auto flags = std::make_shared<ExportFlags>();
  Command command = line.command("export", "write the model as glb, obj, stl or ply");
  command.required("SITE", flags->site, "NAME.site.toml");
  command.required("-o,--out", flags->out, "file; its ending chooses the format");
  command.texts("--part", flags->mesh.parts, "only these names or kinds");
  command.number("--scale", flags->mesh.scale, {1e-6, 1e6},
                 "multiplies all lengths (0.02 prints 1:50)");
  command.text("--values", flags->values, "colour the surfaces by this: demand (glb, ply)");
  flags->build.add_to(command);
  command.runs([flags] { return write_mesh(*flags); });
}

}  // namespace hummock::cli
