// A typical piece of jaw and a short attempt on it, for tests.
#pragma once

#include "support/sample_attempt.h"

#include "session/session.h"
#include "specimen/jaw_site.h"
#include "specimen/tooth_number.h"

#include <array>

namespace driftbench::support {

/// A typical molar site, coarse so that tests stay quick.
inline specimen::JawSite plain_site(int fdi) {
  specimen::JawSite site;
  site.id = "plain";
  site.sha256 = std::string(64, 'a');
  site.jaw =
      specimen::typical_jaw(specimen::is_upper(fdi) ? specimen::JawRegion::kPosteriorMaxilla
                                                    : specimen::JawRegion::kPosteriorMandible);
  site.jaw.site_fdi = fdi;
  site.jaw.teeth.clear();
  site.jaw.voxel_mm = 0.4;
  site.jaw.length_mm = 16.0;
  site.plan.entry_mm = {0.0, 0.4, -0.2};
  site.plan.lean_bl_deg = 4.0;
  site.margins = {{specimen::Structure::kFacialPlate, 2.0}};
  return site;
}

/// The shipped free-hand block's rules on that site.
inline lesson::AttemptSetup jaw_setup(int fdi) {
  lesson::AttemptSetup setup = sample_attempt().setup;
  const specimen::JawSite site = plain_site(fdi);
  setup.specimen = site;
  const specimen::SiteDirections directions = specimen::directions_of(setup.specimen);
  setup.plan.md_hint = directions.md;
  setup.plan.bl_hint = directions.bl;
  setup.plan.depth_mm = specimen::is_upper(fdi) ? 5.0 : 8.0;
  setup.site_name = std::to_string(fdi);
  return setup;
}

/// Pilot on, pressed for some seconds, lifted, done.
inline base::Result<session::Session> short_jaw_work(const lesson::AttemptSetup& setup,
                                                     std::int64_t steps = 6000) {
  base::Result<session::Session> session = session::Session::create(setup);
  if (!session) {
    return session;
  }
  const auto give = [&](record::Op op, std::array<std::int32_t, record::kMaxArguments> arguments) {
    static_cast<void>(session->submit({op, arguments}));
  };
  give(record::Op::kTakeDrill, {1, 0});
  give(record::Op::kMotor, {1200});
  session->advance(400);
  give(record::Op::kHand, {100, -50, 5000, 0, 32000});
  session->advance(steps);
  give(record::Op::kHand, {100, -50, 5000, 0, 0});
  give(record::Op::kLift, {1});
  for (int i = 0; i < 100 && !session->view().is_out; ++i) {
    session->advance(50);
  }
  give(record::Op::kFinish, {});
  return session;
}

}  // namespace driftbench::support
