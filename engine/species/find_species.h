// Where a species file named in a site is.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace hummock {

// `named` is a path (from `folder`) or the bare name of a species: "corsac" means
// corsac.species.toml beside the site, in its species/ folder, or shipped. Nothing when absent.
std::optional<std::filesystem::path> find_species(const std::string& named,
                                                  const std::filesystem::path& folder);

// Names of the shipped species, sorted; empty when there is no assets folder.
std::vector<std::string> shipped_species();
std::string shipped_species_in_words();  // "corsac, serval (shipped)"

}  // namespace hummock
