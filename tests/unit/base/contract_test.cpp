// A broken contract reaches the handler with its place; a kept one costs nothing.
#include "base/contract.h"

#include "support/contract_guard.h"

#include <gtest/gtest.h>

#include <string>

namespace driftbench::base {
namespace {

double checked_root_side(double area_mm2) {
  DRIFTBENCH_EXPECTS(area_mm2 >= 0.0);
  return area_mm2;
}

TEST(Contract, KeptConditionLetsTheProgramGoOn) {
  EXPECT_EQ(checked_root_side(4.0), 4.0);
}

TEST(Contract, BrokenConditionReachesTheHandlerWithItsText) {
  const support::ContractGuard guard;
  try {
    checked_root_side(-1.0);
    FAIL() << "the contract did not break";
  } catch (const support::BrokenContract& broken) {
    EXPECT_EQ(std::string(broken.violation.kind), "precondition");
    EXPECT_EQ(std::string(broken.violation.condition), "area_mm2 >= 0.0");
    EXPECT_NE(std::string(broken.violation.file).find("contract_test.cpp"), std::string::npos);
    EXPECT_GT(broken.violation.line, 0);
  }
}

TEST(Contract, HandlerIsPutBack) {
  const ContractHandler before = set_contract_handler(nullptr);
  set_contract_handler(before);
  { const support::ContractGuard guard; }
  EXPECT_EQ(set_contract_handler(before), before);
}

}  // namespace
}  // namespace driftbench::base
