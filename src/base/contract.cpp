// Default behaviour of a broken contract: say where, then abort.
#include "base/contract.h"

#include <cstdio>
#include <cstdlib>

namespace driftbench::base {
namespace {

void print_violation(const ContractViolation& violation) {
  std::fprintf(stderr, "%s:%d: broken %s: %s\n", violation.file, violation.line, violation.kind,
               violation.condition);
}

// One handler a program, set at its start or by tests.
ContractHandler current_handler = print_violation;

}  // namespace

ContractHandler set_contract_handler(ContractHandler handler) {
  const ContractHandler previous = current_handler;
  current_handler = handler != nullptr ? handler : print_violation;
  return previous;
}

void report_contract_violation(const ContractViolation& violation) {
  current_handler(violation);
  std::abort();
}

}  // namespace driftbench::base
