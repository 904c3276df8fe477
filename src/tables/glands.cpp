// Cable glands of metric thread: the hole in the sheet, and the room that gland and locknut take.
// Entry: glands(), find_gland().
#include "tables/names.h"

namespace fitup::tables {
namespace {

// Holes: the middle of what shops drill and punch for the thread of EN 60423 (common practice: nominal + 0.3 to + 0.5).
// The other sizes are the largest of common polyamide and brass glands, from memory: what clears them clears most
// that are bought.
std::vector<Gland> all_glands() {
  const std::string source = "EN 60423 thread, pitch 1.5; hole common practice; sizes outside and inside from memory";
  return {{"M12", 12.4, 18, 5, 9, 18, 24, source},  {"M16", 16.4, 22, 5, 10, 22, 26, source},
          {"M20", 20.4, 27, 6, 11, 27, 30, source}, {"M25", 25.4, 33, 6, 12, 33, 34, source},
          {"M32", 32.4, 42, 7, 14, 42, 42, source}, {"M40", 40.4, 53, 7, 16, 53, 48, source},
          {"M50", 50.4, 60, 8, 18, 60, 52, source}, {"M63", 63.4, 75, 8, 20, 75, 56, source}};
}

}  // namespace

const std::vector<Gland>& glands() {
  static const std::vector<Gland> table = all_glands();
  return table;
}

const Gland* find_gland(std::string_view size) { return find_by_name(glands(), &Gland::size, size); }

}  // namespace fitup::tables
