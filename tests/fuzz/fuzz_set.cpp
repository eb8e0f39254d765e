// libFuzzer: any bytes as a set. What is taken must be written, read and written to the same bytes.
#include "round_trip.h"

#include "lesson/lesson_set.h"

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  driftbench::fuzz::read_and_write(data, size, driftbench::lesson::read_set,
                                   driftbench::lesson::write_set);
  return 0;
}
