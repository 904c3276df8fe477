#pragma once
// A spec's tree to that of the opposite hand.

#include "spec/value.h"

namespace fitup::spec {

enum class Mirror { left_right, front_back };

/// Exchanges faces and clearances, turns rows round and counts places of the frame from the other side: its size is
/// not known here. Items keep their own hand. Law: twice is nothing at all.
void reflect(Value& root, Mirror mirror);

}  // namespace fitup::spec
