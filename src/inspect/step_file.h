#pragma once
// A STEP file as its text says: schema, units, products, solids and whether their shells are closed.

#include <string>
#include <string_view>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::inspect {

struct StepSolid {
  std::string name;
  std::size_t faces = 0;
  std::size_t open_edges = 0;     // used by one face only
  std::size_t crowded_edges = 0;  // by more than two
  std::size_t turned_edges = 0;   // twice in one direction: a face is turned
  Box3 corners;                   // in the file's unit, where the body was modelled
};

struct StepFile {
  std::string schema;
  std::string flaw;                   // why reading stopped; empty: it did not
  std::vector<std::string> units;     // of length, "millimetres"; distinct
  double mm_per_unit = 0;             // 0: not known
  std::vector<std::string> products;  // names
  std::vector<StepSolid> solids;
  std::size_t surface_models = 0;   // shells that are no solid
  std::size_t wire_models = 0;      // curves alone
  std::size_t meshes = 0;           // tessellated or faceted bodies
  std::size_t uses = 0;             // a product standing in another
  std::size_t lost_references = 0;  // to what is not there
  std::vector<std::string> limits;  // what was left out so that reading ends
};

/// Any bytes. Comments are left out.
[[nodiscard]] StepFile read_step_file(std::string_view bytes);

}  // namespace fitup::inspect
