// A value, or the reason why there is none.
#pragma once

#include <tl/expected.hpp>

#include <string>
#include <utility>

namespace driftbench::base {

/// Kinds of expected failure that a caller can react to.
enum class ErrorCode {
  kInvalidArgument,  ///< the input makes no sense together
  kOutOfRange,       ///< a number lies outside its stated range
  kParse,            ///< a text is not well formed
  kUnsupported,      ///< well formed, but a version or kind this build does not know
  kMismatch,         ///< two things that must agree do not
  kStorage,          ///< reading or keeping data failed
};

/// Reason of an expected failure, ready to be shown.
struct Error {
  ErrorCode code = ErrorCode::kInvalidArgument;
  std::string message;  ///< a whole sentence: what was found and what was expected
  std::string where;    ///< "file:line:column", a field path, or empty
};

/// The value, or an Error. Failures of the program itself are contracts (contract.h) instead.
template <class T>
using Result = tl::expected<T, Error>;

/// Short form for `return fail(...)` in a function that gives a Result.
[[nodiscard]] inline tl::unexpected<Error> fail(ErrorCode code, std::string message,
                                                std::string where = {}) {
  return tl::unexpected<Error>(Error{code, std::move(message), std::move(where)});
}

}  // namespace driftbench::base
