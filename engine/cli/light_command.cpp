// hummock light: when the lamps of the houses go on and off through a year.
#include <fmt/core.h>

#include <memory>

#include "engine/cli/commands.h"
#include "engine/cli/terminal.h"
#include "engine/houses/light.h"
#include "engine/site/read_site.h"

namespace hummock::cli {
namespace {

struct LightFlags {
  std::string site;
  std::string out;
  double year = houses::kLightYear;
};

int write_light(const LightFlags& flags) {
  const int year = static_cast<int>(flags.year);
  if (year != flags.year) {
    throw InputError({"", 0, "--year"}, fmt::format("{}", flags.year), "a whole number");
  }
  save_or_print(flags.out, houses::light_csv(read_site(flags.site), year));
  return kAllMet;
}

}  // namespace

void add_light(CommandLine& line) {
  auto flags = std::make_shared<LightFlags>();
  Command command = line.command("light", "when the houses' lamps go on and off through a year");
  command.required("SITE", flags->site, "NAME.site.toml");
  command.required("-o,--out", flags->out, "file, comma-separated (- = print it)");
  command.number("--year", flags->year, {1901.0, 2099.0}, "whose sun is followed");
  command.runs([flags] { return write_light(*flags); });
}

}  // namespace hummock::cli
