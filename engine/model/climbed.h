// Whether an animal climbs what a surface is made of.
#pragma once

#include "engine/model/model.h"

namespace hummock {

bool climbs(const Species& animal, Surface surface);

}  // namespace hummock
