// Sorts the pairs of a DXF file into sections and entities.
// Entry: content_of.
#include "inspect/dxf_entity.h"

namespace fitup::inspect {

namespace {

class Sorter {
 public:
  explicit Sorter(std::span<const DxfTag> tags) : tags_(tags) {}

  DxfContent content() {
    while (at_ < tags_.size()) {
      const bool section = tags_[at_].code == 0 && tags_[at_].value == "SECTION";
      ++at_;
      if (!section || at_ >= tags_.size() || tags_[at_].code != 2) continue;
      const std::string_view name = tags_[at_++].value;
      if (name == "HEADER") header();
      if (name == "TABLES") tables();
      if (name == "BLOCKS") blocks();
      if (name == "ENTITIES") {
        while (!at_end()) content_.entities.push_back(entity());
      }
    }
    return std::move(content_);
  }

 private:
  /// Of the section; a file cut short ends it too, and so does a section that begins within.
  [[nodiscard]] bool at_end() {
    while (at_ < tags_.size() && tags_[at_].code != 0) ++at_;
    return at_ >= tags_.size() || tags_[at_].value == "ENDSEC" || tags_[at_].value == "SECTION";
  }

  /// `at_` stands at its type.
  DxfEntity entity() {
    const std::string_view type = tags_[at_++].value;
    const std::size_t first = at_;
    while (at_ < tags_.size() && tags_[at_].code != 0) ++at_;
    return {type, tags_.subspan(first, at_ - first)};
  }

  void header() {
    for (; at_ + 1 < tags_.size() && tags_[at_].code != 0; ++at_) {
      if (tags_[at_].code == 9) content_.header.emplace(tags_[at_].value, tags_[at_ + 1]);
    }
  }

  void tables() {
    while (!at_end()) {
      const DxfEntity row = entity();
      if (row.type != "LAYER" || row.text(2).empty()) continue;
      const bool frozen = (row.whole(70, 0) & 1) != 0;
      content_.layers.push_back({row.text(2), frozen || row.whole(62, 7) < 0, row.text(6)});
    }
  }

  void blocks() {
    DxfBlock* block = nullptr;
    while (!at_end()) {
      const DxfEntity e = entity();
      if (e.type == "BLOCK") {
        block = &content_.blocks[upper(e.text(2))];
        const auto base = e.point(10);
        *block = {base ? Vec2{base->x, base->y} : Vec2{}, {}};
      } else if (e.type == "ENDBLK") {
        block = nullptr;
      } else if (block != nullptr) {
        block->entities.push_back(e);
      }
    }
  }

  std::span<const DxfTag> tags_;
  std::size_t at_ = 0;
  DxfContent content_;
};

}  // namespace

std::string upper(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return out;
}

std::string_view DxfEntity::text(int code) const {
  for (const DxfTag& tag : tags) {
    if (tag.code == code) return tag.value;
  }
  return {};
}

double DxfEntity::real(int code, double otherwise) const { return real(code).value_or(otherwise); }

int DxfEntity::whole(int code, int otherwise) const { return whole_of(text(code)).value_or(otherwise); }

std::optional<Vec3> DxfEntity::point(int code) const {
  const auto x = real(code);
  const auto y = real(code + 10);
  if (!x || !y) return std::nullopt;
  return Vec3{*x, *y, real(code + 20, 0)};
}

DxfContent content_of(std::span<const DxfTag> tags) { return Sorter(tags).content(); }

}  // namespace fitup::inspect
