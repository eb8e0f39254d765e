// Checks for mistakes of the programmer; failures that users can cause give a Result instead.
#pragma once

/// Own switch, not NDEBUG: RelWithDebInfo defines NDEBUG and still wants the checks.
#ifndef DRIFTBENCH_CONTRACTS
#define DRIFTBENCH_CONTRACTS 1
#endif

namespace driftbench::base {

/// What a broken contract reports.
struct ContractViolation {
  const char* kind = "";       ///< "precondition" or "postcondition"
  const char* condition = "";  ///< source text of the condition
  const char* file = "";
  int line = 0;
};

/// Called when a contract breaks; the program aborts if it returns.
using ContractHandler = void (*)(const ContractViolation& violation);

/// Replaces the handler and gives the one before it; nullptr restores the default (print, abort).
ContractHandler set_contract_handler(ContractHandler handler);

/// Reports a broken contract to the handler, then aborts.
[[noreturn]] void report_contract_violation(const ContractViolation& violation);

}  // namespace driftbench::base

#if DRIFTBENCH_CONTRACTS
#define DRIFTBENCH_CHECK_CONTRACT(kind, condition) \
  (static_cast<bool>(condition)                    \
       ? static_cast<void>(0)                      \
       : ::driftbench::base::report_contract_violation({kind, #condition, __FILE__, __LINE__}))
#else
#define DRIFTBENCH_CHECK_CONTRACT(kind, condition) \
  static_cast<void>(sizeof(static_cast<bool>(condition)))
#endif

/// States what must hold when a function is entered.
#define DRIFTBENCH_EXPECTS(condition) DRIFTBENCH_CHECK_CONTRACT("precondition", condition)
/// States what must hold when a function is left.
#define DRIFTBENCH_ENSURES(condition) DRIFTBENCH_CHECK_CONTRACT("postcondition", condition)
