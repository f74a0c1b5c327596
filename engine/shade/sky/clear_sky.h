// Irradiance under a clear sky.
#pragma once

#include "engine/shade/shade.h"

namespace hummock::shade {

struct Irradiance {
  double global = 0;   // W/m² on the level
  double direct = 0;   // W/m² across the beam
  double diffuse = 0;  // W/m² on the level
};

// Haurwitz 1945: 1098 cos z exp(−0.059/cos z), W/m² on the level; elevation is apparent, rad.
double haurwitz(double elevation);

// Diffuse share of the global irradiance at clearness k (global ÷ extraterrestrial on the level):
// Erbs, Klein & Duffie 1982, eq. 1.
double erbs_diffuse_share(double k);

// Haurwitz split by Erbs. `distance_au` scales the solar constant, 1361 W/m² (Kopp & Lean 2011).
Irradiance haurwitz_sky(double elevation, double distance_au);

// Simplified Solis, Ineichen 2008: broadband clear sky for an aerosol optical depth at 700 nm
// (0.05..0.45), precipitable water (0.2..10 cm), pressure (Pa) and extraterrestrial normal
// irradiance (W/m²).
Irradiance solis_sky(double elevation, double aerosol, double water_cm, double pressure_pa,
                     double extraterrestrial);

// The one the settings ask for; Solis with aerosol 0.1, water 1 cm and the place's pressure.
Irradiance clear_sky(SkyModel model, const Place& place, const sun::Position& at);

}  // namespace hummock::shade
