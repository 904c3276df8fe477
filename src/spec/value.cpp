// Looks up, takes out and merges members of the value tree.
// Entry: Value::find, merge.

#include "spec/value.h"

#include <algorithm>
#include <utility>

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

std::optional<Member> take(Value& table, std::string_view key) {
  const auto found =
      std::find_if(table.members.begin(), table.members.end(), [&](const Member& m) { return m.key == key; });
  if (found == table.members.end()) return std::nullopt;
  Member member = std::move(*found);
  table.members.erase(found);
  return member;
}

void set_units(Value& value, UnitSystem units) {
  value.units = units;
  for (Member& member : value.members) set_units(member.value, units);
  for (Value& entry : value.entries) set_units(entry, units);
}

void merge(Value& base, Value own) {
  if (base.kind != Value::Kind::table || own.kind != Value::Kind::table) {
    base = std::move(own);
    return;
  }
  base.place = own.place;
  for (Member& member : own.members) {
    const auto same = [&](const Member& m) { return m.key == member.key; };
    const auto found = std::find_if(base.members.begin(), base.members.end(), same);
    if (found == base.members.end()) {
      base.members.push_back(std::move(member));
    } else {
      found->place = member.place;
      merge(found->value, std::move(member.value));
    }
  }
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
