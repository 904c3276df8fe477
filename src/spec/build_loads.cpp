// Slings, standards and accelerations.
// Entry: load_rules.
#include "spec/build_loads.h"

#include "fitup/spec.h"

namespace fitup::spec {

namespace {

void read_lifting(const Cell& cell, LoadRules& rules) {
  rules.sling_angle_deg = *cell["sling_angle"].get<double>();
  rules.dynamic = *cell["dynamic"].get<double>();
  const std::string standard = *cell["standard"].get<std::string>();
  for (const LiftFactors& f : lift_factors) {
    if (f.word == standard) rules.lift = f.standard;
  }
}

}  // namespace

LoadRules load_rules(const Cell& root) {
  LoadRules rules;
  if (const Cell* lifting = root.find("lifting")) read_lifting(*lifting, rules);
  const Cell& loads = root["loads"];
  if (const Cell* why = loads.find("why")) rules.thrown_why = *why->get<std::string>();
  const std::string bolts = *loads["bolts"].get<std::string>();
  for (const BoltClass& c : bolt_classes) {
    if (c.word == bolts) rules.bolts = c;
  }
  const std::string welds = *loads["welds"].get<std::string>();
  rules.welds = welds == weld_code_words[0] ? WeldCode::en_1993_1_8 : WeldCode::aws_d1_1;
  const std::string electrode = *loads["electrode"].get<std::string>();
  for (const Electrode& e : electrodes) {
    if (e.word == electrode) rules.electrode = e;
  }
  if (const Cell* kpa = loads.find("pressure")) rules.pressure_kpa = *kpa->get<double>();
  if (const Cell* kpa = loads.find("seal_pressure")) rules.seal_pressure_kpa = *kpa->get<double>();
  const Cell* thrown = loads.find("thrown");
  if (thrown == nullptr) return rules;
  for (const Face f : all_faces) {
    const Cell* g = thrown->find(to_text(f));
    if (g != nullptr) rules.thrown_g[static_cast<std::size_t>(f)] = *g->get<double>();
  }
  return rules;
}

}  // namespace fitup::spec
