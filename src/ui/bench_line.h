// The line below the bench: what the hands do, the next step, and the buttons that belong to it.
#pragma once

#include "ui/bench_layout.h"
#include "ui/frame.h"

namespace driftbench::ui {

void bench_line(Frame& frame, const BenchLayout& layout);

}  // namespace driftbench::ui
