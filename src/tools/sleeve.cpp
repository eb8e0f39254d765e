#include "base/json_writer.h"
#include "base/text.h"
#include "specimen/drill_length.h"
#include "tools/commands.h"
#include "tools/output.h"

#include <array>

namespace driftbench::tools {
namespace {

constexpr std::string_view kHelp =
    R"(driftbench sleeve: the largest tilt and error that a sleeve allows, and the drill length it asks for.

usage: driftbench sleeve --bore MM --drill MM --height MM --gap MM --implant MM [--key MM] [--json]

  --bore     inner diameter of the sleeve or key, mm
  --drill    diameter that runs in the bore (collar, key or flutes; not the cutting diameter), mm;
             bore - drill is the play across the diameter
  --height   engaged length, mm
  --gap      planned platform to the lower edge of the sleeve, mm
  --implant  length of the implant, mm
  --key      collar of a key on the sleeve, mm (adds length only; default 0)

Gives tilt_deg (exact), tilt_first_order_deg, entry_mm and apex_mm (lateral, at platform and apex),
drill_length_mm = implant + gap + height + key, from the stop to the full-diameter shoulder.

example: driftbench sleeve --bore 5.2 --drill 5.1 --height 4.5 --gap 3.5 --implant 10 --key 1.5
)";

struct Length {
  std::string_view flag;
  double specimen::SleeveFit::*member;
};

constexpr std::array<Length, 5> kRequired{{{"--bore", &specimen::SleeveFit::bore_mm},
                                           {"--drill", &specimen::SleeveFit::drill_mm},
                                           {"--height", &specimen::SleeveFit::height_mm},
                                           {"--gap", &specimen::SleeveFit::gap_mm},
                                           {"--implant", &specimen::SleeveFit::implant_mm}}};

base::Result<specimen::SleeveFit> read_fit(const Arguments& arguments) {
  if (!arguments.plain().empty()) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "found \"" + arguments.plain()[0] + "\", expected flags only");
  }
  specimen::SleeveFit fit;
  for (const Length& length : kRequired) {
    const base::Result<double> value = arguments.number(length.flag);
    if (!value) {
      return tl::unexpected<base::Error>(value.error());
    }
    fit.*length.member = *value;
  }
  const base::Result<double> key = arguments.number("--key", 0.0);
  if (!key) {
    return tl::unexpected<base::Error>(key.error());
  }
  fit.key_mm = *key;
  return fit;
}

void print_geometry(const specimen::SleeveGeometry& geometry, bool as_json) {
  const double tilt_deg = math::to_degrees(geometry.tilt).value;
  const double first_order_deg = math::to_degrees(geometry.tilt_first_order).value;
  if (as_json) {
    base::JsonWriter writer;
    writer.begin_object().field("tilt_deg", tilt_deg);
    writer.field("tilt_first_order_deg", first_order_deg);
    writer.field("entry_mm", geometry.entry_mm).field("apex_mm", geometry.apex_mm);
    writer.field("drill_length_mm", geometry.drill_length_mm).end_object();
    print(writer.take());
    return;
  }
  constexpr int kDecimals = 3;
  print(table({{"largest tilt", base::fixed(tilt_deg, kDecimals), "deg"},
               {"  first order", base::fixed(first_order_deg, kDecimals), "deg"},
               {"error at the platform", base::fixed(geometry.entry_mm, kDecimals), "mm"},
               {"error at the apex", base::fixed(geometry.apex_mm, kDecimals), "mm"},
               {"drill length, stop to shoulder", base::fixed(geometry.drill_length_mm, kDecimals),
                "mm"}}));
}

int run(const Arguments& arguments) {
  const base::Result<specimen::SleeveFit> fit = read_fit(arguments);
  if (!fit) {
    return refuse("sleeve", fit.error());
  }
  const base::Result<specimen::SleeveGeometry> geometry = specimen::sleeve_geometry(*fit);
  if (!geometry) {
    return refuse("sleeve", geometry.error());
  }
  print_geometry(*geometry, arguments.has("--json"));
  return kGood;
}

}  // namespace

Command sleeve_command() {
  return {"sleeve",
          "tilt and error that a sleeve allows, and the drill length",
          kHelp,
          {{"--bore"}, {"--drill"}, {"--height"}, {"--gap"}, {"--implant"}, {"--key"}},
          run};
}

}  // namespace driftbench::tools
