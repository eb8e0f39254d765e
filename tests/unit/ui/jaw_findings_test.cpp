// What the debrief says about a jaw.
#include "ui/jaw_findings.h"

#include "specimen/jaw_site.h"

#include <gtest/gtest.h>

namespace driftbench::ui {
namespace {

using specimen::Structure;

lesson::AttemptSetup lower_molar() {
  lesson::AttemptSetup setup;
  specimen::JawSite site;
  site.jaw.site_fdi = 46;
  setup.specimen = site;
  return setup;
}

scoring::Results measured() {
  scoring::Results results;
  results.jaw.emplace();
  results.jaw->clearances = {{Structure::kCanal, 3.4, 3.1, 2.0, false, math::Vec3(0.0)},
                             {Structure::kLingualPlate, 1.5, 0.6, 1.0, false, math::Vec3(0.0)}};
  return results;
}

TEST(JawFindings, SayNothingAboutABlock) {
  EXPECT_TRUE(jaw_findings({}, {}).empty());
}

TEST(JawFindings, NameTheStructureThatLacksMostAndTheNextLargerError) {
  scoring::Results results = measured();
  results.jaw->next = scoring::NextTouch{Structure::kLingualPlate, 1.84};
  const std::vector<std::string> lines = jaw_findings(lower_molar(), results);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0],
            "Nearest to its margin: Lingual plate. 0.6 mm left, 1.5 mm planned; 1.0 mm is a common "
            "teaching value.");
  EXPECT_EQ(lines[1], "1.8 times this error would have touched it: Lingual plate.");
}

TEST(JawFindings, TellAPerforationWithItsTimeItsDangerAndGoingOn) {
  scoring::Results results = measured();
  results.jaw->events = {{Structure::kLingualPlate, false, 46230, math::Vec3(0.0)},
                         {Structure::kLingualPlate, true, 47990, math::Vec3(0.0)}};
  const std::vector<std::string> lines = jaw_findings(lower_molar(), results);
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0],
            "At 46.2 s the drill left the bone: Lingual plate. Stop, withdraw, place nothing, "
            "refer.");
  EXPECT_EQ(lines[1], "At 48.0 s the work went on all the same: that is a second event.");
  EXPECT_NE(lines[2].find("airway"), std::string::npos);
  EXPECT_TRUE(is_jaw_event({"touched:lingual-plate", -0.5, 0.0, 0.0}));
  EXPECT_FALSE(is_jaw_event({"angle_deg", 7.0, 0.0, 6.0}));
}

}  // namespace
}  // namespace driftbench::ui
