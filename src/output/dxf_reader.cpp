// Reads a DXF text that this program wrote, trusting nothing in it.
// Entry: read_dxf.

#include <charconv>
#include <map>
#include <optional>
#include <set>

#include "output/dxf.h"
#include "output/dxf_tags.h"

namespace fitup::output {
namespace {

struct Tag {
  int code = 0;
  std::string_view value;
};

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && (s.front() == ' ')) s.remove_prefix(1);
  while (!s.empty() && (s.back() == ' ' || s.back() == '\r')) s.remove_suffix(1);
  return s;
}

template <class T>
std::optional<T> parsed(std::string_view text) {
  const std::string_view s = trimmed(text);
  T value{};
  const auto [end, error] = std::from_chars(s.data(), s.data() + s.size(), value);
  if (error != std::errc{} || end != s.data() + s.size()) return std::nullopt;
  return value;
}

std::optional<std::vector<Tag>> tags_of(std::string_view text) {
  std::vector<Tag> tags;
  while (!text.empty()) {
    std::string_view lines[2];
    for (std::string_view& line : lines) {
      const std::size_t end = text.find('\n');
      if (end == std::string_view::npos) return std::nullopt;
      line = text.substr(0, end);
      text.remove_prefix(end + 1);
    }
    const auto code = parsed<int>(lines[0]);
    if (!code) return std::nullopt;
    tags.push_back({*code, lines[1]});
  }
  return tags;
}

/// An entity: its type, its tags in order.
struct Entity {
  std::string_view type;
  std::vector<Tag> tags;

  [[nodiscard]] std::string_view text(int code) const {
    for (const Tag& t : tags) {
      if (t.code == code) return t.value;
    }
    return {};
  }
  [[nodiscard]] std::optional<double> real(int code) const { return parsed<double>(text(code)); }
  [[nodiscard]] std::optional<Vec2> point(int code) const {
    const auto x = real(code);
    const auto y = real(code + 10);
    return x && y ? std::optional<Vec2>({*x, *y}) : std::nullopt;
  }
};

class Reader {
 public:
  Reader(std::vector<Tag> tags, UnitSystem units) : tags_(std::move(tags)) { drawing_.units = units; }

  std::variant<DxfDrawing, std::string> drawing() {
    if (auto flaw = header_flaw()) return *flaw;
    if (auto flaw = handle_flaw()) return *flaw;
    for (const Entity& e : entities()) {
      if (auto flaw = take(e)) return *flaw;
    }
    if (open_contour_) return "a contour does not end";
    drawing_ = scaled(std::move(drawing_), mm_in_unit(drawing_.units));
    if (auto flaw = twice()) return *flaw;
    for (const Loop& loop : drawing_.cut) {
      drawing_.bounds.add(loop.bounds().low);
      drawing_.bounds.add(loop.bounds().high);
    }
    return drawing_;
  }

 private:
  [[nodiscard]] std::string_view variable(std::string_view name) const {
    for (std::size_t i = 0; i + 1 < tags_.size(); ++i) {
      if (tags_[i].code == 9 && tags_[i].value == name) return trimmed(tags_[i + 1].value);
    }
    return {};
  }

  std::optional<std::string> header_flaw() {
    const std::string_view release = variable("$ACADVER");
    if (release != "AC1015" && release != "AC1009") return "the release is neither AC1015 nor AC1009";
    drawing_.release = release == "AC1009" ? DxfRelease::r12 : DxfRelease::r2000;
    if (auto flaw = unit_flaw()) return flaw;
    if (tags_.empty() || tags_.back().code != 0 || tags_.back().value != "EOF") return "it does not end with EOF";
    return std::nullopt;
  }

  std::optional<std::string> unit_flaw() {
    if (drawing_.release == DxfRelease::r12) return std::nullopt;
    const std::string_view unit = variable("$INSUNITS");
    if (unit != "4" && unit != "1") return "the unit is neither millimetres nor inches ($INSUNITS is not 4 or 1)";
    drawing_.units = unit == "1" ? UnitSystem::in_lb : UnitSystem::mm_kg;
    if (variable("$MEASUREMENT") != (unit == "1" ? "0" : "1"))
      return "$MEASUREMENT is of another system than $INSUNITS";
    return std::nullopt;
  }

  [[nodiscard]] std::optional<std::string> handle_flaw() const {
    std::set<std::string_view> seen;
    for (std::size_t i = 0; i < tags_.size(); ++i) {
      const bool handle = (tags_[i].code == 5 || tags_[i].code == 105) && (i == 0 || tags_[i - 1].code != 9);
      if (handle && !seen.insert(tags_[i].value).second) return fmt::format("handle {} is used twice", tags_[i].value);
    }
    return std::nullopt;
  }

  [[nodiscard]] std::vector<Entity> entities() const {
    std::vector<Entity> found;
    bool inside = false;
    for (std::size_t i = 0; i < tags_.size(); ++i) {
      const Tag& t = tags_[i];
      if (t.code == 2 && t.value == "ENTITIES" && i > 0 && tags_[i - 1].value == "SECTION") {
        inside = true;
      } else if (inside && t.code == 0 && t.value == "ENDSEC") {
        return found;
      } else if (inside && t.code == 0) {
        found.push_back({t.value, {}});
      } else if (inside && !found.empty()) {
        found.back().tags.push_back(t);
      }
    }
    return found;
  }

  std::optional<std::string> take(const Entity& e) {
    const std::string_view layer = e.text(8);
    if (layer == "CUT" && drawing_.release == DxfRelease::r12) {
      if (open_contour_ || e.type == "POLYLINE") return take_piece(e);
    }
    const bool new_form = drawing_.release == DxfRelease::r2000;
    const bool good = (layer == "CUT" && (e.type == "CIRCLE" || (e.type == "LWPOLYLINE" && new_form))) ||
                      ((layer == "MARK" || layer == "BEND") && e.type == "LINE") ||
                      (layer == "NOTE" && e.type == "TEXT");
    if (!good) return fmt::format("a {} on layer {} does not belong there", e.type, layer);
    const bool read = e.type == "CIRCLE" ? take_circle(e)
                      : e.type == "LINE" ? take_line(e)
                      : e.type == "TEXT" ? take_text(e)
                                         : true;
    if (!read) return fmt::format("a number of a {} cannot be read", e.type);
    return e.type == "LWPOLYLINE" ? take_polyline(e) : std::nullopt;
  }

  bool take_circle(const Entity& e) {
    const auto centre = e.point(10);
    const auto radius = e.real(40);
    if (!centre || !radius || *radius <= 0) return false;
    drawing_.cut.push_back(Loop::circle(*centre, *radius));
    return true;
  }

  bool take_line(const Entity& e) {
    const auto from = e.point(10);
    const auto to = e.point(11);
    if (!from || !to) return false;
    (e.text(8) == "BEND" ? drawing_.bend : drawing_.mark).push_back({*from, *to});
    return true;
  }

  bool take_text(const Entity& e) {
    const auto at = e.point(10);
    const auto height = e.real(40);
    if (!at || !height) return false;
    drawing_.notes.push_back({*at, *height, std::string(e.text(1))});
    return true;
  }

  std::optional<std::string> take_polyline(const Entity& e) {
    if (((parsed<int>(e.text(70)).value_or(0)) & 1) == 0) return "a contour is open";
    Loop loop;
    for (const Tag& t : e.tags) {
      if (t.code != 10 && t.code != 20 && t.code != 42) continue;
      const auto value = parsed<double>(t.value);
      if (!value || (t.code != 10 && loop.vertices.empty())) return "a number of a contour cannot be read";
      if (t.code == 10) loop.vertices.push_back({{*value, 0}, 0});
      if (t.code == 20) loop.vertices.back().at.y = *value;
      if (t.code == 42) loop.vertices.back().bulge = *value;
    }
    if (parsed<std::size_t>(e.text(90)) != loop.vertices.size()) return "a contour has fewer corners than it says";
    drawing_.cut.push_back(std::move(loop));
    return std::nullopt;
  }

  /// R12 has a contour as a POLYLINE, a VERTEX for each corner, and a SEQEND.
  std::optional<std::string> take_piece(const Entity& e) {
    if (e.type == "POLYLINE" && !open_contour_) {
      if (((parsed<int>(e.text(70)).value_or(0)) & 1) == 0) return "a contour is open";
      open_contour_ = Loop{};
    } else if (e.type == "VERTEX") {
      const auto at = e.point(10);
      const bool bent = !e.text(42).empty();
      const auto bulge = e.real(42);
      if (!at || (bent && !bulge)) return "a number of a contour cannot be read";
      open_contour_->vertices.push_back({*at, bulge.value_or(0)});
    } else if (e.type == "SEQEND") {
      drawing_.cut.push_back(*std::move(open_contour_));
      open_contour_.reset();
    } else {
      return fmt::format("a {} stands inside a contour", e.type);
    }
    return std::nullopt;
  }

  /// Two contours or two marks with the same numbers.
  [[nodiscard]] std::optional<std::string> twice() const {
    for (std::size_t i = 0; i < drawing_.cut.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k) {
        if (drawing_.cut[i] == drawing_.cut[k]) return "a contour is there twice";
      }
    }
    for (const auto* lines : {&drawing_.mark, &drawing_.bend}) {
      for (std::size_t i = 0; i < lines->size(); ++i) {
        for (std::size_t k = 0; k < i; ++k) {
          if ((*lines)[i] == (*lines)[k])
            return lines == &drawing_.mark ? "a mark is there twice" : "a bend is there twice";
        }
      }
    }
    return std::nullopt;
  }

  std::vector<Tag> tags_;
  DxfDrawing drawing_;
  std::optional<Loop> open_contour_;
};

}  // namespace

std::variant<DxfDrawing, std::string> read_dxf(std::string_view text, UnitSystem units) {
  auto tags = tags_of(text);
  if (!tags) return std::string("it is not made of pairs of a group code and a value");
  return Reader(std::move(*tags), units).drawing();
}

}  // namespace fitup::output
