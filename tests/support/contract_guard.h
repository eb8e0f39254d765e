// Turns broken contracts into exceptions for as long as it lives, so that tests can expect them.
#pragma once

#include "base/contract.h"

namespace driftbench::support {

/// Thrown instead of aborting.
struct BrokenContract {
  base::ContractViolation violation;
};

/// Installs the throwing handler and puts the former one back.
class ContractGuard {
 public:
  ContractGuard() : previous_(base::set_contract_handler(&throw_violation)) {}

  ~ContractGuard() { base::set_contract_handler(previous_); }

  ContractGuard(const ContractGuard&) = delete;
  ContractGuard& operator=(const ContractGuard&) = delete;

 private:
  static void throw_violation(const base::ContractViolation& violation) {
    throw BrokenContract{violation};
  }

  base::ContractHandler previous_;
};

}  // namespace driftbench::support
