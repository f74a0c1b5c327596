// Every colour and width of the drawn scene and of the panels around it, in one place.
//
// Our own: a model on warm paper. Materials are greyed so that what matters, a finding, a chosen
// thing, a map, is the only strong colour. Findings use rust and teal, which stay apart for every
// common colour blindness, and always a sign and a word beside the colour.
#pragma once

#include "viewer/scene/colour.h"

namespace hummock::viewer::tone {

Colour paper();       // panels
Colour paper_deep();  // fields, troughs
Colour ink();
Colour ink_soft();
Colour hair();    // lines between things
Colour accent();  // what can be used, what is chosen
Colour short_of();
Colour tight();
Colour met();
Colour unknown();
Colour sky_low();
Colour sky_high();

Colour ground_inside();
Colour ground_outside();
Colour soil();
Colour cut_through();

}  // namespace hummock::viewer::tone
