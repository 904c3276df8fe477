// Strength class and finish of bought screws, nuts and washers.
// Entry: grade_words.
//
// Classes by ISO 898-1 (steel screws), ISO 898-2 (steel nuts) and ISO 3506 (stainless); button heads of ISO 7380-1 have
// 0 before theirs, for their heads bear less than a full thread; unified ones by SAE J429, SAE J995 and the ASTM
// standards named. Which of these a shop keeps is common practice; all from memory.

#include "output/grade.h"

#include <array>
#include <utility>

namespace fitup::output {
namespace {

bool is_stainless(Hardware hardware) { return hardware == Hardware::a2 || hardware == Hardware::a4; }

std::string finish_of(Hardware hardware) { return hardware == Hardware::zinc_plated ? ", zinc plated" : ", plain"; }

std::string steel_type(Hardware hardware, bool unified) {
  if (unified) return hardware == Hardware::a2 ? "stainless 304" : "stainless 316";
  return hardware == Hardware::a2 ? "A2" : "A4";
}

/// The grade of SAE J429 that comes next to it; 8 is 1 percent below 10.9.
std::string sae_grade(std::string_view bolt_class) {
  constexpr std::array<std::pair<std::string_view, const char*>, 4> grades{{{"4.6", "SAE J429 grade 2"},
                                                                            {"5.6", "SAE J429 grade 2"},
                                                                            {"8.8", "SAE J429 grade 5"},
                                                                            {"10.9", "SAE J429 grade 8"}}};
  for (const auto& [metric, grade] : grades) {
    if (metric == bolt_class) return grade;
  }
  return "stainless 304, cold worked, at least 700 MPa";
}

std::string bolt_words(std::string_view bolt_class, Hardware hardware, bool unified) {
  const bool stainless = bolt_class.starts_with("A");
  const std::string word = unified ? sae_grade(bolt_class) : "class " + std::string(bolt_class);
  return stainless ? word : word + finish_of(is_stainless(hardware) ? Hardware::zinc_plated : hardware);
}

/// What is alike for all that stand in rows and on rods: of a steel class, or of a stainless one.
std::string of(const std::string& steel, const std::string& stainless, Hardware hardware, bool unified) {
  if (!is_stainless(hardware)) return steel + finish_of(hardware);
  return steel_type(hardware, unified) + (unified ? "" : stainless);
}

}  // namespace

std::string grade_words(const Plan& plan, const Part& part, Hardware hardware) {
  if (part.source != Source::bought) return "";
  const auto is = [&](std::string_view prefix) { return part.mark.starts_with(prefix); };
  const std::size_t dash = part.mark.find('-');
  const bool unified = dash != std::string::npos && dash + 1 < part.mark.size() && part.mark[dash + 1] != 'M';
  const bool says_class = part.size.find(", class ") != std::string::npos;
  const std::string_view bolts = plan.load_rules.bolts.word;
  if (is("SCR-")) return of(unified ? "ASTM F835" : "class 010.9", "-070", hardware, unified);
  if (is("BLT-")) return bolt_words(bolts, hardware, unified);
  if (is("ROD-")) return says_class ? "" : bolt_words(bolts, hardware, unified);
  if (is("NUT-") && says_class) return is_stainless(hardware) ? "" : finish_of(hardware).substr(2);
  if (is("NUT-") || is("LKN-")) return of(unified ? "SAE J995 grade 5" : "class 8", "-70", hardware, unified);
  if (is("WSH-")) return of(unified ? "steel" : "200 HV", "", hardware, unified);
  if (is("WLN-")) return is_stainless(hardware) ? steel_type(hardware, unified) : "steel for welding, plain";
  if (is("RVN-")) return of("steel", "", hardware, unified);
  if (is("STD-"))
    return is_stainless(hardware) ? steel_type(hardware, unified) + (unified ? "" : "-50")
                                  : "class 4.8, plain or coppered";
  return "";
}

}  // namespace fitup::output
