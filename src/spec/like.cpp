// Merges each table under the one that it is like.
// Entry: resolve_likes.

#include "spec/like.h"

#include <algorithm>
#include <utility>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "spec/keys.h"

namespace fitup::spec {

namespace {

using diag::say;

/// Values that may be copied in all: far above any spec, far below what fills the memory.
constexpr std::size_t most_copied = 200'000;

std::size_t count(const Value& value) {
  std::size_t all = 1;
  for (const Member& member : value.members) all += count(member.value);
  for (const Value& entry : value.entries) all += count(entry);
  return all;
}

/// The tables under [item] or under [box].
class Likes {
 public:
  Likes(Value& named, std::string_view key, Diagnostics& diagnostics)
      : named_(named), key_(key), diagnostics_(diagnostics) {}

  void run() {
    if (named_.members.size() > most_entries(Type::named)) return;  // reported when the keys are read
    for (Member& member : named_.members) (void)resolve(member);
  }

  [[nodiscard]] std::vector<OwnSize> own_sizes() && { return std::move(own_sizes_); }

 private:
  /// False while it is being resolved already: a circle.
  bool resolve(Member& member) {
    if (std::find(done_.begin(), done_.end(), member.key) != done_.end()) return true;
    if (std::find(open_.begin(), open_.end(), member.key) != open_.end()) return false;
    open_.push_back(member.key);
    if (const Value* like = member.value.find("like")) follow(member, *like);
    open_.pop_back();
    done_.push_back(member.key);
    return true;
  }

  /// A name that is none is left for the reader of the keys to report.
  void follow(Member& member, const Value& like) {
    const auto other =
        std::find_if(named_.members.begin(), named_.members.end(), [&](const Member& m) { return m.key == like.text; });
    if (like.kind != Value::Kind::text || other == named_.members.end()) return;
    if (other->value.kind != Value::Kind::table) return;
    if (!resolve(*other)) return circle(other->key, like.place);
    if (other->value.find("like") != nullptr) return;  // incomplete itself
    copied_ += count(other->value);
    if (copied_ > most_copied) {
      diagnostics_.add(say<"too-many">(like.place, "what like brings in", copied_, most_copied));
      return;
    }
    take_over(member, other->value);
  }

  void take_over(Member& member, Value whole) {
    const std::string like = take(member.value, "like")->value.text;
    const Value* size = member.value.find("size");
    if (key_ == "item" && size != nullptr && member.value.find("mass") == nullptr)
      own_sizes_.push_back({member.key, like, size->place});
    merge(whole, std::move(member.value));
    member.value = std::move(whole);
  }

  void circle(const std::string& name, const Place& place) {
    std::string chain;
    for (auto it = std::find(open_.begin(), open_.end(), name); it != open_.end(); ++it) chain += *it + " -> ";
    diagnostics_.add(say<"like-cycle">(place, diag::printable(chain + name)));
  }

  Value& named_;
  std::string_view key_;
  Diagnostics& diagnostics_;
  std::vector<std::string> open_;
  std::vector<std::string> done_;
  std::vector<OwnSize> own_sizes_;
  std::size_t copied_ = 0;
};

}  // namespace

std::vector<OwnSize> resolve_likes(Value& root, Diagnostics& diagnostics) {
  std::vector<OwnSize> own_sizes;
  for (const std::string_view key : {"item", "box"}) {
    Value* named = root.find(key);
    if (named == nullptr || named->kind != Value::Kind::table) continue;
    Likes likes(*named, key, diagnostics);
    likes.run();
    for (OwnSize& own : std::move(likes).own_sizes()) own_sizes.push_back(std::move(own));
  }
  return own_sizes;
}

}  // namespace fitup::spec
