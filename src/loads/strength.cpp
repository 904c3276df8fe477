// Threads by their shear areas.
// Entry: thread_strength.
#include "loads/strength.h"

#include <algorithm>

namespace fitup::loads {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double shear_share = 0.6;
constexpr double tan_30 = 0.57735;

double minor_mm(const Thread& t) { return t.major_mm - 1.082532 * t.pitch_mm; }

double inner_per_mm(const Thread& t) {
  return pi / t.pitch_mm * t.major_mm * (t.pitch_mm / 2 + tan_30 * (t.major_mm - pitch_diameter_mm(t)));
}

double outer_per_mm(const Thread& t) {
  return pi / t.pitch_mm * minor_mm(t) * (t.pitch_mm / 2 + tan_30 * (pitch_diameter_mm(t) - minor_mm(t)));
}

}  // namespace

double pitch_diameter_mm(const Thread& t) { return t.major_mm - 0.649519 * t.pitch_mm; }

ThreadStrength thread_strength(const Thread& thread, double shared_mm, double bolt_tensile_mpa,
                               double tapped_tensile_mpa) {
  ThreadStrength s;
  s.inner_mm2 = shared_mm * inner_per_mm(thread);
  s.outer_mm2 = shared_mm * outer_per_mm(thread);
  s.inner_n = s.inner_mm2 * shear_share * tapped_tensile_mpa;
  s.outer_n = s.outer_mm2 * shear_share * bolt_tensile_mpa;
  s.tensile_n = thread.stress_area_mm2 * bolt_tensile_mpa;
  return s;
}

}  // namespace fitup::loads
