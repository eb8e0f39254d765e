// Published sizes of jaws: the means that sections default to and the ranges they are drawn from.
#pragma once

#include "specimen/jaw.h"

#include <span>
#include <string_view>

namespace driftbench::specimen {

/// One size of a region with its source.
struct PublishedSize {
  JawRegion region;
  std::string_view name;  ///< field, as in files
  double mean;
  double sd;
  double low;  ///< drawn values stay inside low..high
  double high;
  std::string_view source;
  void (*set)(JawSpec& spec, double value);
};

/// All sizes, in the order in which they are set.
[[nodiscard]] std::span<const PublishedSize> published_sizes();

/// `base` with every published size of its region drawn anew by seed (normal, cut off at low and
/// high). A draw whose anatomy is impossible is drawn again, at most 20 times.
///
/// Errors: kInvalidArgument when no draw was possible
[[nodiscard]] base::Result<JawSpec> drawn_jaw(const JawSpec& base, std::uint64_t seed);

}  // namespace driftbench::specimen
