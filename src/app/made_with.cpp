// Which values of the spec were given on the command line, in words for titles.
// Entry: made_with.
#include "app/made_with.h"

#include "diag/words.h"

namespace fitup::app {

std::string made_with(const std::vector<Override>& overrides) {
  std::string text;
  for (const Override& o : overrides) {
    text += (text.empty() ? ", made with " : ", ") + diag::printable(o.key + "=" + o.value);
  }
  return text;
}

}  // namespace fitup::app
