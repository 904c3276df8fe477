#pragma once
// The section that a box of plates is taken to stand for where its spec names none. Private to the spec.

#include "spec/value.h"

namespace fitup::spec {

/// Puts a usual angle of the shop, L 40x40x4 or L 1-1/2x1-1/2x3/16 in, into each box that is built from plates and
/// states no `frame.section`: what a border and a plate measure unless `plates` says otherwise.
void fill_sections_of_plates(Value& root);

}  // namespace fitup::spec
