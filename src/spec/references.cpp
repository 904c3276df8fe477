// Reads the names of things that stand elsewhere: items of the spec, sections, threads and materials of the tables.
// Entry: ScalarReader::read_reference.

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "fitup/tables.h"
#include "spec/scalar.h"

namespace fitup::spec {

namespace {

using diag::in_quotes;
using diag::say;

// Rubber is for seals, whose key has words of its own.
bool is_metal(const Material& material) {
  const auto& metals = tables::materials();
  return std::find(metals.begin(), metals.end(), material) != metals.end();
}

/// The spelling of the table, so that equal specs have equal text; empty if the table has no such row.
std::string row_of(Type type, std::string_view text) {
  if (type == Type::screw_thread) {
    const ButtonHead* head = tables::find_button_head(text);
    return head != nullptr && tables::find_thread(text) != nullptr ? head->size : std::string();
  }
  if (type == Type::gland_thread) {
    const Gland* gland = tables::find_gland(text);
    return gland != nullptr ? gland->size : std::string();
  }
  if (type == Type::eye_thread) {
    const Eye* eye = tables::find_eye(text);
    return eye != nullptr && tables::find_thread(text) != nullptr ? eye->size : std::string();
  }
  if (type == Type::material) {
    const Material* material = tables::find_material(text);
    return material != nullptr && is_metal(*material) ? material->name : std::string();
  }
  const Thread* thread = tables::find_thread(text);
  const bool nut_and_washer = tables::find_nut(text) != nullptr && tables::find_washer(text) != nullptr;
  return thread != nullptr && nut_and_washer ? thread->size : std::string();
}

std::vector<std::string> rows_of(Type type) {
  std::vector<std::string> names;
  if (type == Type::material) {
    for (const Material& material : tables::materials()) names.push_back(material.name);
    return names;
  }
  if (type == Type::gland_thread) {
    for (const Gland& gland : tables::glands()) names.push_back(gland.size);
    return names;
  }
  for (const Thread& thread : tables::threads()) {
    if (!row_of(type, thread.size).empty()) names.push_back(thread.size);
  }
  return names;
}

std::string_view role_of(Type type) {
  if (type == Type::gland_thread) return "cable gland with the thread";
  if (type == Type::eye_thread) return "lifting eye with the thread";
  if (type == Type::screw_thread) return "screw with the thread";
  return "rod with the thread";
}

std::vector<std::string> sections_of(SectionShape shape) {
  std::vector<std::string> names;
  for (const Section& section : tables::sections()) {
    if (section.shape == shape) names.push_back(section.designation);
  }
  return names;
}

// Of a bare size: the sections that have it, whatever their shape.
std::string sections_of_size(std::string_view size) {
  std::vector<std::string> names;
  for (const Section& section : tables::sections()) {
    if (section.designation.ends_with(" " + std::string(size))) names.push_back(in_quotes(section.designation));
  }
  return names.empty() ? std::string() : fmt::format("; did you mean {}?", fmt::join(names, " or "));
}

// Near in size where there is one of the right shape, else near in spelling.
std::string section_like(std::string_view text, SectionShape shape) {
  const Section* near = tables::nearest_section(text);
  if (near != nullptr && near->shape == shape) return "; the nearest in size is " + in_quotes(near->designation);
  return diag::suggestion(text, sections_of(shape));
}

constexpr std::string_view ring_words = "an angle or a tube";

// Of whatever shape was meant, where it may stand there.
std::string frame_section_like(std::string_view text, bool ring) {
  if (std::string sized = sections_of_size(text); !sized.empty()) return sized;
  const Section* near = tables::nearest_section(text);
  const bool tube = near != nullptr && near->shape == SectionShape::tube;
  return section_like(text, tube ? SectionShape::tube : ring ? SectionShape::angle : SectionShape::flat);
}

bool is_section(Type type) {
  return type == Type::angle || type == Type::flat || type == Type::ring || type == Type::upright;
}

}  // namespace

void ScalarReader::read_reference(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  if (rule.type == Type::ring || rule.type == Type::upright || rule.type == Type::stiffener) {
    if (const auto own = own_sections_.find(value.text); own != own_sections_.end())
      return read_own_section(rule, value, own->second, key, cell);
  }
  if (is_section(rule.type)) return read_section(rule, value, key, cell);
  if (rule.type == Type::bar || rule.type == Type::stiffener) return read_bar(rule, value, key, cell);
  if (rule.type == Type::box) {
    if (std::find(boxes_.begin(), boxes_.end(), value.text) != boxes_.end())
      cell.value = value.text;
    else
      diagnostics_.add(say<"unknown-box">(value.place, in_quotes(value.text), diag::suggestion(value.text, boxes_)));
    return;
  }
  if (rule.type == Type::group) return read_group(value, cell);
  if (rule.type == Type::item) {
    if (std::find(items_.begin(), items_.end(), value.text) != items_.end())
      cell.value = value.text;
    else
      diagnostics_.add(say<"unknown-item">(value.place, in_quotes(value.text), diag::suggestion(value.text, items_)));
    return;
  }
  const std::string found = row_of(rule.type, value.text);
  if (!found.empty()) {
    cell.value = found;
  } else if (rule.type == Type::material) {
    diagnostics_.add(
        say<"unknown-material">(value.place, in_quotes(value.text), diag::suggestion(value.text, rows_of(rule.type))));
  } else {
    // No near miss: M6 is not nearer to M7 than M8 is to anyone but a speller.
    diagnostics_.add(say<"unknown-thread">(value.place, role_of(rule.type), in_quotes(value.text),
                                           diag::listed(rows_of(rule.type))));
  }
}

void ScalarReader::read_group(const Value& value, Cell& cell) {
  std::vector<std::string> known = items_;
  known.insert(known.end(), part_groups.begin(), part_groups.end());
  if (std::find(known.begin(), known.end(), value.text) != known.end()) {
    cell.value = value.text;
  } else {
    diagnostics_.add(say<"unknown-group">(value.place, in_quotes(value.text), diag::suggestion(value.text, known)));
  }
}

// What kind it is of is told by its own table; a word that is none is reported there.
void ScalarReader::read_own_section(const Rule& rule, const Value& value, std::string_view kind, std::string_view key,
                                    Cell& cell) {
  if (rule.type == Type::ring && kind == "flat") {
    diagnostics_.add(say<"wrong-section">(value.place, key, "a flat bar", ring_words, "L 40x40x4"));
  } else {
    cell.value = value.text;
  }
}

void ScalarReader::read_bar(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  const Section* section = tables::find_section(value.text);
  const bool any = rule.type == Type::stiffener;
  const bool offered =
      section != nullptr && (any || section->shape == SectionShape::flat ||
                             (section->shape == SectionShape::angle && section->leg_a_mm == section->leg_b_mm));
  if (offered) {
    cell.value = section->designation;
  } else if (section == nullptr) {
    diagnostics_.add(
        say<"unknown-section">(value.place, in_quotes(value.text), section_like(value.text, SectionShape::flat)));
  } else {
    diagnostics_.add(say<"wrong-section">(value.place, key, "another section", "a flat bar or an equal angle", "40x8"));
  }
}

void ScalarReader::read_frame_section(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  const bool ring = rule.type == Type::ring;
  const Section* section = tables::find_section(value.text);
  if (section == nullptr) {
    diagnostics_.add(say<"unknown-section">(value.place, in_quotes(value.text), frame_section_like(value.text, ring)));
  } else if (ring && section->shape == SectionShape::flat) {
    diagnostics_.add(say<"wrong-section">(value.place, key, "a flat bar", ring_words, "L 40x40x4"));
  } else {
    cell.value = section->designation;
  }
}

void ScalarReader::read_section(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  if (rule.type == Type::ring || rule.type == Type::upright) return read_frame_section(rule, value, key, cell);
  const bool angle = rule.type == Type::angle;
  const SectionShape wanted = angle ? SectionShape::angle : SectionShape::flat;
  const Section* section = tables::find_section(value.text);
  if (section == nullptr) {
    diagnostics_.add(say<"unknown-section">(value.place, in_quotes(value.text), section_like(value.text, wanted)));
  } else if (section->shape != wanted) {
    diagnostics_.add(say<"wrong-section">(value.place, key, angle ? "a flat bar" : "an angle",
                                          angle ? "an angle" : "a flat bar", angle ? "L 40x40x4" : "40x4"));
  } else {
    cell.value = section->designation;
  }
}

}  // namespace fitup::spec
