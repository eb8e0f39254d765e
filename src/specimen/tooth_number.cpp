#include "specimen/tooth_number.h"

#include "base/contract.h"

#include <algorithm>
#include <array>

namespace driftbench::specimen {
namespace {

constexpr int kTeethOfQuadrant = 8;

// Crown height, root length, crown md, neck md, crown bl, neck bl.
constexpr std::array<ToothSize, 7> kUpper{{{10.5, 13.0, 8.5, 7.0, 7.0, 6.0},
                                           {9.0, 13.0, 6.5, 5.0, 6.0, 5.0},
                                           {10.0, 17.0, 7.5, 5.5, 8.0, 7.0},
                                           {8.5, 14.0, 7.0, 5.0, 9.0, 8.0},
                                           {8.5, 14.0, 7.0, 5.0, 9.0, 8.0},
                                           {7.5, 12.0, 10.0, 8.0, 11.0, 10.0},
                                           {7.0, 11.0, 9.0, 7.0, 11.0, 10.0}}};
constexpr std::array<ToothSize, 7> kLower{{{9.0, 12.5, 5.0, 3.5, 6.0, 5.3},
                                           {9.5, 14.0, 5.5, 4.0, 6.5, 5.8},
                                           {11.0, 16.0, 7.0, 5.5, 7.5, 7.0},
                                           {8.5, 14.0, 7.0, 5.0, 7.5, 6.5},
                                           {8.0, 14.5, 7.0, 5.0, 8.0, 7.0},
                                           {7.5, 14.0, 11.0, 9.0, 10.5, 9.0},
                                           {7.0, 13.0, 10.5, 8.0, 10.0, 9.0}}};

}  // namespace

bool is_fdi(int fdi) {
  const int quadrant = fdi / 10;
  const int position = fdi % 10;
  return quadrant >= 1 && quadrant <= 4 && position >= 1 && position <= kTeethOfQuadrant;
}

int quadrant_of(int fdi) {
  DRIFTBENCH_EXPECTS(is_fdi(fdi));
  return fdi / 10;
}

int position_of(int fdi) {
  DRIFTBENCH_EXPECTS(is_fdi(fdi));
  return fdi % 10;
}

int us_tooth_number(int fdi) {
  const int position = position_of(fdi);
  switch (quadrant_of(fdi)) {
    case 1:
      return kTeethOfQuadrant + 1 - position;
    case 2:
      return kTeethOfQuadrant + position;
    case 3:
      return 3 * kTeethOfQuadrant + 1 - position;
    default:
      return 3 * kTeethOfQuadrant + position;
  }
}

bool is_upper(int fdi) {
  return quadrant_of(fdi) <= 2;
}

bool is_mirrored(int fdi) {
  return quadrant_of(fdi) % 2 == 0;
}

const ToothSize& average_tooth(int fdi) {
  const auto row = static_cast<std::size_t>(std::min(position_of(fdi), 7) - 1);
  return is_upper(fdi) ? kUpper[row] : kLower[row];
}

}  // namespace driftbench::specimen
