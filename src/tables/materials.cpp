// Materials and their densities.
// Entry: materials(), seal_materials(), find_material().
#include "fitup/seal_materials.h"
#include "tables/names.h"

namespace fitup::tables {
namespace {

std::vector<Material> metals() {
  const std::string structural = "EN 10025-2; density 7850 kg/m3 as in the section standards";
  return {{"S235JR", 7850, structural},
          {"S275JR", 7850, structural},
          {"S355J2", 7850, structural},
          {"A36", 7850, "ASTM A36; density 7850 kg/m3 (490 lb/ft3 is the custom of the trade)"},
          {"1.4301", 7900, "EN 10088-1, density from memory (AISI 304 sheets often say 8000 kg/m3)"},
          {"1.4404", 8000, "EN 10088-1 (AISI 316L), density from memory"},
          {"5052-H32", 2680, "ASTM B209; density as published in data sheets", false},
          {"5083-H111", 2660, "EN 573-3, EN 485-2; density as published in data sheets", false},
          {"6061-T6", 2700, "ASTM B209; density as published in data sheets", false},
          {"6082-T6", 2700, "EN 755-2; density as published in data sheets", false},
          {"6060-T66", 2700, "EN 755-2; density from memory of the handbook", false}};
}

std::vector<Material> rubbers() {
  const std::string cellular = "cellular rubber for seals; density from memory, it varies with the maker";
  return {{"EPDM", 600, cellular, false}, {"NBR", 600, cellular, false}, {"silicone", 600, cellular, false}};
}

}  // namespace

const std::vector<Material>& materials() {
  static const std::vector<Material> table = metals();
  return table;
}

const std::vector<Material>& seal_materials() {
  static const std::vector<Material> table = rubbers();
  return table;
}

const Material* find_material(std::string_view name) {
  const Material* metal = find_by_name(materials(), &Material::name, name);
  return metal != nullptr ? metal : find_by_name(seal_materials(), &Material::name, name);
}

}  // namespace fitup::tables
