// Reflects a value tree along the key table.
// Entry: reflect.

#include "spec/opposite_hand.h"

#include <algorithm>
#include <utility>

#include "spec/keys.h"

namespace fitup::spec {

namespace {

class Reflection {
 public:
  explicit Reflection(Mirror mirror) : across_(mirror == Mirror::left_right) {}

  void table(const Node& node, Value& value) {
    if (value.kind != Value::Kind::table) return;
    for (Member& member : value.members) {
      member.key = other_key(node, member.key);
      const auto child = node.children.find(member.key);
      const Node* below = child != node.children.end() ? &child->second : node.named.get();
      if (below != nullptr) this->member(*below, member.value);
    }
  }

 private:
  /// Where a table has both left and right, they are one pair.
  [[nodiscard]] std::string other_key(const Node& node, const std::string& key) const {
    const std::string low = across_ ? "left" : "front";
    const std::string high = across_ ? "right" : "back";
    if (!node.children.contains(low) || !node.children.contains(high)) return key;
    return key == low ? high : key == high ? low : key;
  }

  void member(const Node& node, Value& value) {
    const Hand hand = node.rule->hand;
    if (hand == Hand::place || hand == Hand::row) (across_ ? value.from_right : value.from_back) ^= true;
    if (hand == Hand::row && across_) std::reverse(value.entries.begin(), value.entries.end());
    if (node.rule->type == Type::tables) {
      for (Value& entry : value.entries) table(node, entry);
    } else {
      table(node, value);
    }
  }

  bool across_;
};

}  // namespace

void reflect(Value& root, Mirror mirror) {
  std::optional<Member> items = take(root, "item");
  Reflection(mirror).table(schema(), root);
  if (items) root.members.push_back(std::move(*items));
}

}  // namespace fitup::spec
