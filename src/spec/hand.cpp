// In which hand a spec is read, from the chain of files that it starts from.
// Entry: read_hand.

#include "spec/hand.h"

#include "spec/overrides.h"
#include "spec/start_from.h"
#include "spec/toml_reader.h"

namespace fitup::spec {

std::string read_hand(std::string file_name, std::string text, const std::vector<Override>& overrides,
                      const SpecFiles& files) {
  Diagnostics unsaid;  // said by read_spec already
  SourceTexts sources{{std::move(file_name), without_mark(std::move(text))}};
  if (!overrides.empty()) sources.push_back(text_of(overrides));
  const Reflected hand = read_merged(sources, files, hand_of(overrides, 1), unsaid).hand;
  if (hand.left_right && hand.front_back) return "turned round";
  return hand.left_right ? "left-right" : hand.front_back ? "front-back" : "";
}

}  // namespace fitup::spec
