// Looks up members of the value tree.
// Entry: Value::find.

#include "spec/value.h"

namespace fitup::spec {

const Value* Value::find(std::string_view key) const {
  for (const Member& member : members) {
    if (member.key == key) return &member.value;
  }
  return nullptr;
}

Value* Value::find(std::string_view key) {
  for (Member& member : members) {
    if (member.key == key) return &member.value;
  }
  return nullptr;
}

std::string_view kind_in_words(Value::Kind kind) {
  switch (kind) {
    case Value::Kind::table: return "a table";
    case Value::Kind::list: return "a list";
    case Value::Kind::text: return "a text";
    case Value::Kind::number: return "a number";
    case Value::Kind::yes_no: return "true or false";
    case Value::Kind::date: return "a date or time";
  }
  return "";
}

}  // namespace fitup::spec
