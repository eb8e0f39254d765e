// SHA-256 of exact bytes: the id of lesson files and the digest chain of attempt files.
#pragma once

#include <string>
#include <string_view>

namespace driftbench::base {

/// SHA-256 of the bytes as 64 lower-case hexadecimal digits.
///
/// Source: FIPS PUB 180-4, Secure Hash Standard, sections 5.1.1, 5.3.3, 6.2
[[nodiscard]] std::string sha256_hex(std::string_view bytes);

}  // namespace driftbench::base
