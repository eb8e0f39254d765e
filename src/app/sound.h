// The few numbers that the drill's sound is made from.
#pragma once

#include "lesson/attempt_setup.h"
#include "platform/host.h"
#include "session/view.h"

namespace driftbench::app {

/// What the bench sounds like now; silence when nothing turns or the lesson has no sound.
[[nodiscard]] platform::Sound sound_of(const session::SessionView& view,
                                       const lesson::AttemptSetup& setup, bool muted);

}  // namespace driftbench::app
