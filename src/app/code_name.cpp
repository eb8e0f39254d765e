#include "app/code_name.h"

#include "base/random.h"

#include <array>
#include <string_view>

namespace driftbench::app {
namespace {

constexpr std::array<std::string_view, 32> kFirstWords = {
    "amber", "brisk",  "calm",   "clear", "copper", "dusty", "early",  "even",
    "fair",  "gentle", "golden", "grey",  "keen",   "light", "lively", "mellow",
    "misty", "noble",  "olive",  "plain", "quick",  "quiet", "russet", "sandy",
    "sharp", "silver", "slate",  "still", "sunny",  "swift", "warm",   "windy"};

constexpr std::array<std::string_view, 32> kSecondWords = {
    "badger", "beech",  "birch",  "brook", "cedar",   "cliff",   "clover", "crane",
    "elm",    "falcon", "fern",   "field", "finch",   "harbour", "hazel",  "heron",
    "hill",   "ibis",   "island", "larch", "lark",    "maple",   "meadow", "otter",
    "pine",   "plover", "reed",   "river", "sparrow", "stone",   "valley", "willow"};

}  // namespace

std::string code_name(std::uint64_t random) {
  base::Rng rng(random);
  const std::size_t first = static_cast<std::size_t>(rng.below(kFirstWords.size()));
  const std::size_t second = static_cast<std::size_t>(rng.below(kSecondWords.size()));
  return std::string(kFirstWords[first]) + " " + std::string(kSecondWords[second]);
}

}  // namespace driftbench::app
