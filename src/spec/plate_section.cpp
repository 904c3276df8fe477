// The section that a box of plates is taken to stand for where its spec names none.
// Entry: fill_sections_of_plates.
#include "spec/plate_section.h"

#include "spec/keys.h"
#include "spec/start_from.h"

namespace fitup::spec {

namespace {

constexpr Fallback usual_section{"L 40x40x4", "L 1-1/2x1-1/2x3/16 in"};

bool is_of_plates(const Value& box) {
  const Value* build = box.find("build");
  return build != nullptr && build->kind == Value::Kind::text && build->text == "plate";
}

Value* frame_in(Value& box) {
  if (box.find("frame") == nullptr) {
    Value frame;
    frame.place = box.place;
    box.members.push_back({"frame", box.place, std::move(frame)});
  }
  return box.find("frame");
}

}  // namespace

void fill_sections_of_plates(Value& root) {
  Value* boxes = root.find("box");
  if (boxes == nullptr || boxes->kind != Value::Kind::table) return;
  for (Member& box : boxes->members) {
    if (box.value.kind != Value::Kind::table || !is_of_plates(box.value)) continue;
    Value* frame = frame_in(box.value);
    if (frame->kind != Value::Kind::table || frame->find("section") != nullptr) continue;
    Value section;
    section.kind = Value::Kind::text;
    section.place = frame->place;
    section.text = usual_section.of(shop_of(root));
    frame->members.push_back({"section", frame->place, std::move(section)});
  }
}

}  // namespace fitup::spec
