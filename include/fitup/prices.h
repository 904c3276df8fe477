#pragma once
// What things cost, where a spec says it; nothing is assumed of what it does not say. No part of a Spec, since nothing
// that is made depends on it.

#include <optional>
#include <string>
#include <vector>

#include "fitup/spec.h"

namespace fitup {

/// Of one piece of what is bought: by its mark or by the words that it is ordered with.
struct PriceOfPart {
  std::string part;
  double each = 0;
};

struct Prices {
  std::string currency;            // in words; may be empty
  std::optional<double> per_kg{};  // of what is cut and sawn, as it is built in
  std::optional<double> per_m_cut{};
  std::optional<double> per_piercing{};
  std::optional<double> per_m_seam{};  // laid, ground flush or not
  std::vector<PriceOfPart> bought{};
};

/// `[prices]` of a text that read_spec finds sound, for kilograms and metres whatever its units; nothing where it has
/// none. Arguments as those of read_spec.
[[nodiscard]] std::optional<Prices> read_prices(std::string file_name, std::string text,
                                                const std::vector<Override>& overrides = {},
                                                const SpecFiles& files = {});

}  // namespace fitup
