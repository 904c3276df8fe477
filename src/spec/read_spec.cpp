// The whole way from text to Spec: read, merge, override, evaluate, check, build.
// Entry: read_spec.

#include <map>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "fitup/prices.h"
#include "fitup/spec.h"
#include "spec/build.h"
#include "spec/build_fixings.h"
#include "spec/build_prices.h"
#include "spec/build_sections.h"
#include "spec/cross_checks.h"
#include "spec/joined.h"
#include "spec/like.h"
#include "spec/openings.h"
#include "spec/overrides.h"
#include "spec/plate_section.h"
#include "spec/sizes.h"
#include "spec/slips.h"
#include "spec/start_from.h"
#include "spec/toml_reader.h"
#include "spec/true_up.h"
#include "spec/validate.h"

namespace fitup {

namespace {

/// A note to each diagnostic in a file that is read in the opposite hand: what it names stands there the other way.
Diagnostics with_hands(const Diagnostics& diagnostics, const std::map<int, Place>& reflected) {
  Diagnostics out;
  for (const Diagnostic& d : diagnostics.all()) {
    const auto hand = reflected.find(d.place.source);
    out.add(hand == reflected.end() ? d : diag::with_note(d, diag::say<"in-the-opposite-hand">(hand->second)));
  }
  return out;
}

}  // namespace

SpecResult read_spec(std::string file_name, std::string text, const std::vector<Override>& overrides,
                     const SpecFiles& files) {
  SpecResult result;
  Diagnostics& diagnostics = result.diagnostics;
  result.sources.push_back({std::move(file_name), spec::without_mark(std::move(text))});
  const int arguments = 1;  // the index of their text
  if (!overrides.empty()) result.sources.push_back(spec::text_of(overrides));
  spec::MergedText merged = spec::read_merged(result.sources, files, spec::hand_of(overrides, arguments), diagnostics);
  result.file_trouble = merged.file_trouble;
  if (!merged.root) return result;
  spec::Value& root = *merged.root;
  if (!overrides.empty()) spec::apply_overrides(overrides, arguments, root, diagnostics);
  const std::vector<spec::OwnSize> own_sizes = spec::resolve_likes(root, diagnostics);
  spec::Sizes sizes(root.find("sizes"), spec::units_of(root, UnitSystem::mm_kg),
                    overrides.empty() ? std::optional<int>() : arguments, diagnostics);
  sizes.evaluate_all();
  spec::fill_sections_of_plates(root);
  const spec::Cell cells = spec::validate(root, sizes, diagnostics);
  Spec spec = spec::build(cells, result.sources[0].name);
  spec::check_together(spec, cells, diagnostics);
  spec::check_own_sizes(spec, cells, own_sizes, diagnostics);
  spec::check_own_sections(spec, cells, diagnostics);
  spec::check_frame_tubes(spec, cells, diagnostics);
  spec::check_openings(spec, cells, diagnostics);
  spec::check_fixings(spec, cells, diagnostics);
  spec::check_joined(spec, cells, diagnostics);
  spec::check_true_up(spec, cells, diagnostics);
  spec::report_slips(spec, cells, diagnostics);
  diagnostics = with_hands(diagnostics, merged.reflected);
  diagnostics.sort();
  if (!diagnostics.has_errors()) result.spec = std::move(spec);
  return result;
}

std::optional<Prices> read_prices(std::string file_name, std::string text, const std::vector<Override>& overrides,
                                  const SpecFiles& files) {
  Diagnostics diagnostics;  // said by read_spec already
  SourceTexts sources{{std::move(file_name), spec::without_mark(std::move(text))}};
  const int arguments = 1;
  if (!overrides.empty()) sources.push_back(spec::text_of(overrides));
  spec::MergedText merged = spec::read_merged(sources, files, spec::hand_of(overrides, arguments), diagnostics);
  if (!merged.root) return std::nullopt;
  if (!overrides.empty()) spec::apply_overrides(overrides, arguments, *merged.root, diagnostics);
  const UnitSystem units = spec::units_of(*merged.root, UnitSystem::mm_kg);
  spec::Sizes sizes(merged.root->find("sizes"), units, overrides.empty() ? std::optional<int>() : arguments,
                    diagnostics);
  sizes.evaluate_all();
  spec::fill_sections_of_plates(*merged.root);
  const spec::Cell cells = spec::validate(*merged.root, sizes, diagnostics);
  return spec::build_prices(cells.find("prices"), units);
}

}  // namespace fitup
