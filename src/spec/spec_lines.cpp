// Lines of the canonical text for what is held by screws and studs.
// Entry: decimal, mounts_lines, fixing_lines.

#include "spec/spec_lines.h"

#include <fmt/format.h>

#include <string_view>

#include "spec/spec_writer.h"

namespace fitup::spec {

std::string decimal(double value, int digits) {
  std::string out = fmt::format("{:.{}f}", value, digits);
  out.erase(out.find_last_not_of('0') + 1);
  if (out.back() == '.') out.pop_back();
  return out == "-0" ? "0" : out;
}

namespace {

class Lines {
 public:
  explicit Lines(std::string key) : key_(std::move(key)) {}
  void add(std::string_view name, std::string_view value) {
    lines_.push_back(fmt::format("{}.{} = {}", key_, name, value));
  }
  void add(std::string_view name, const std::optional<Sourced<Length>>& length) {
    if (length) add(name, words(**length));
  }
  void from(const std::string& name, const CountedFrom& from) {
    if (from.right) add(name + ".from_right", "true");
    if (from.back) add(name + ".from_back", "true");
  }
  [[nodiscard]] std::vector<std::string> take() { return std::move(lines_); }

 private:
  std::string key_;
  std::vector<std::string> lines_;
};

}  // namespace

std::vector<std::string> mounts_lines(const ItemSpec& item) {
  if (!item.mounts) return {};
  const ItemMountsSpec& mounts = *item.mounts;
  Lines out("item." + item.name + ".mounts");
  out.add("face", to_text(*mounts.face));
  for (std::size_t i = 0; i < mounts.at.size(); ++i) out.add(fmt::format("at.{:03}", i + 1), words(*mounts.at[i]));
  out.add("thread", fmt::format("\"{}\"", *mounts.thread));
  out.add("depth", mounts.depth);
  out.add("ear", mounts.ear);
  if (mounts.fixing.given) out.add("fixing", words(*mounts.fixing));
  if (mounts.on) out.add("on", **mounts.on == HeldBy::plate ? "plate" : "uprights");
  out.add("strip_width", mounts.strip_width);
  out.add("strip_thickness", mounts.strip_thickness);
  return out.take();
}

std::vector<std::string> fixing_lines(const std::string& key, const FaceSpec& face) {
  Lines out(key);
  out.add("screws.depth", face.screws.depth);
  out.add("screws.strip_width", face.screws.strip_width);
  out.add("screws.strip_thickness", face.screws.strip_thickness);
  for (const Face edge : all_faces) {
    const auto& at = face.screws.at[static_cast<std::size_t>(edge)];
    if (!at) continue;
    const std::string name = fmt::format("screws.at.{}", to_text(edge));
    out.add(name, words(*at->places));
    out.from(name, at->from);
  }
  for (std::size_t i = 0; i < face.earth.size(); ++i) {
    const EarthSpec& stud = face.earth[i];
    const std::string name = fmt::format("earth.{:03}", i + 1);
    out.add(name + ".thread", fmt::format("\"{}\"", *stud.thread));
    out.add(name + ".at", words(*stud.at));
    out.from(name + ".at", stud.at_from);
    out.add(name + ".length", stud.length);
    out.add(name + ".inside", *stud.inside ? "true" : "false");
  }
  return out.take();
}

}  // namespace fitup::spec
