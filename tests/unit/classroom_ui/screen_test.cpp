// The Classroom's screens without a window: what they show, ask for and keep to themselves.
#include "classroom_ui/screen.h"

#include "classroom_ui/picture_style.h"

#include "base/json.h"
#include "classroom/compile.h"
#include "classroom/outputs.h"
#include "classroom/views.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <imgui.h>

#include <algorithm>

namespace driftbench::classroom_ui {
namespace {

std::string table_of(int learners) {
  std::string rows =
      "operator,approach,entry_md_mm,entry_bl_mm,depth_mm,hole_diameter_mm,period,source\n";
  for (int i = 0; i < learners; ++i) {
    for (int k = 0; k < 3; ++k) {
      rows += fmt::format("code-{},freehand,{},{},0.1,4.1,{},simulated\n", i, 1.0 + 0.1 * i,
                          0.3 * k + 0.1 * (i * i % 5), k + 1);
      rows += fmt::format("code-{},sleeve,{},{},0.2,4.0,{},simulated\n", i, 0.1 * k, 0.1 - 0.05 * i,
                          k + 4);
    }
  }
  return rows;
}

struct Shown {
  std::string role;
  std::string label;
  float x = 0, y = 0, w = 0, h = 0;
  bool is_checked = false;
};

/// A page with a class of so many learners; input goes through Dear ImGui's queues as in the app.
class Rig {
 public:
  explicit Rig(int learners, float width = 1440.0F, float height = 900.0F)
      : context_(ImGui::CreateContext()) {
    ImGui::SetCurrentContext(context_);
    ImGui::GetIO().DisplaySize = {width, height};
    ImGui::GetIO().DeltaTime = 1.0F / 60.0F;
    screen_.apply_style(ui::Theme::kDark, 1.0F, 1.0F);
    if (learners > 0) {
      classroom::Collector collector;
      collector.add(table_of(learners), "holes.csv");
      roster_ = collector.finish();
      compile(std::nullopt);
      model_.roster = &roster_;
      model_.devices = &devices_;
    }
  }

  ~Rig() { ImGui::DestroyContext(context_); }

  Rig(const Rig&) = delete;
  Rig& operator=(const Rig&) = delete;

  void compile(std::optional<std::uint64_t> disguise) {
    whole_ = classroom::compile(
        classroom::filtered(roster_, model_.filters),
        disguise.has_value() ? std::nullopt : std::optional(classroom::Names()), disguise);
    model_.whole = &whole_;
    model_.are_names_hidden = disguise.has_value();
    screen_.renew();
  }

  /// A plan that gave the first learners places in the order of its draw.
  void give_plan(std::size_t places) {
    classroom::ExperimentDesign design;
    design.units = places;
    classroom::Experiment experiment = classroom::allocate(design).value();
    for (std::size_t i = 0; i < places; ++i) {
      experiment.places[i].code = fmt::format("code-{}", i);
    }
    roster_.experiment = std::move(experiment);
    compile(std::nullopt);
  }

  Actions frame() {
    ImGui::NewFrame();
    Actions actions = screen_.draw(model_);
    ImGui::Render();
    return actions;
  }

  Actions key(ImGuiKey key) {
    ImGui::GetIO().AddKeyEvent(key, true);
    Actions actions = frame();
    ImGui::GetIO().AddKeyEvent(key, false);
    for (int i = 0; i < 2; ++i) {
      Actions more = frame();
      actions.insert(actions.end(), more.begin(), more.end());
    }
    return actions;
  }

  Actions click(std::string_view label) {
    const std::vector<Shown> all = items();
    const auto found = std::find_if(all.begin(), all.end(), [label](const Shown& item) {
      return item.label == label && item.role != "text" && item.role != "heading";
    });
    if (found == all.end()) {
      ADD_FAILURE() << "nothing is called " << label;
      return {};
    }
    ImGuiIO& io = ImGui::GetIO();
    io.AddMousePosEvent(found->x + 0.5F * found->w, found->y + 0.5F * found->h);
    Actions actions = frame();
    for (const bool is_down : {true, false}) {
      io.AddMouseButtonEvent(0, is_down);
      Actions more = frame();
      actions.insert(actions.end(), more.begin(), more.end());
    }
    return actions;
  }

  [[nodiscard]] std::vector<Shown> items() const {
    std::vector<Shown> items;
    const auto tree = base::parse_json(screen_.items_json(), "items");
    if (!tree.has_value()) {
      ADD_FAILURE() << "no items";
      return items;
    }
    for (const base::JsonValue& entry : tree->items()) {
      const auto number = [&entry](std::string_view name) {
        return static_cast<float>(entry.find(name)->as_double());
      };
      items.push_back({std::string(entry.find("role")->as_string()),
                       std::string(entry.find("label")->as_string()), number("x"), number("y"),
                       number("w"), number("h"), entry.find("checked")->as_bool()});
    }
    return items;
  }

  [[nodiscard]] std::string words() const {
    std::string all;
    for (const Shown& item : items()) {
      all += item.label + "\n";
    }
    return all;
  }

  classroom_ui::Model& model() { return model_; }

  classroom_ui::Screen& screen() { return screen_; }

 private:
  ImGuiContext* context_;
  Screen screen_;
  Model model_;
  classroom::Roster roster_;
  classroom::Class whole_;
  std::vector<std::string> devices_;
};

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

template <class T>
bool asks_for(const Actions& actions) {
  return std::any_of(actions.begin(), actions.end(),
                     [](const Action& action) { return std::holds_alternative<T>(action); });
}

TEST(Empty, SaysWhatThisIsAndOffersFilesFolderAndDemo) {
  Rig rig(0);
  rig.frame();
  rig.frame();
  EXPECT_EQ(rig.screen().page_name(), "empty");
  EXPECT_TRUE(has(rig.words(), "Nothing leaves this computer"));
  EXPECT_TRUE(has(rig.words(), "does not prove who drilled"));
  EXPECT_TRUE(asks_for<PickFiles>(rig.click("Choose files…")));
  EXPECT_TRUE(asks_for<PickFolder>(rig.click("Choose a folder…")));
  EXPECT_TRUE(asks_for<OpenDemo>(rig.key(ImGuiKey_D)));
  EXPECT_TRUE(asks_for<PickFiles>(rig.key(ImGuiKey_F)));
}

TEST(Empty, FitsWithoutCutTextOnEveryUsualScreen) {
  for (const auto& [width, height] : {std::pair(1440.0F, 900.0F), std::pair(1280.0F, 720.0F),
                                      std::pair(1024.0F, 768.0F), std::pair(390.0F, 844.0F)}) {
    Rig rig(0, width, height);
    rig.frame();
    rig.frame();
    for (const Shown& item : rig.items()) {
      EXPECT_GE(item.x, 0.0F) << item.label << " at " << width;
      EXPECT_LE(item.x + item.w, width + 0.5F) << item.label << " at " << width;
    }
  }
}

TEST(Pages, EveryPageHasAKeyAndShowsItsHeading) {
  Rig rig(7);
  rig.frame();
  for (int i = 0; i < 10; ++i) {
    rig.key(static_cast<ImGuiKey>(ImGuiKey_0 + i));
    const std::string title(rig.screen().page_name());
    EXPECT_TRUE(has(rig.words(), title)) << i;
    const std::vector<Shown> items = rig.items();
    EXPECT_TRUE(std::any_of(items.begin(), items.end(), [&](const Shown& item) {
      return item.role == "radio" && item.is_checked && item.label == title;
    })) << title;
  }
  rig.key(ImGuiKey_PageDown);
  EXPECT_EQ(rig.screen().page_name(), "Fair experiment");
  rig.key(ImGuiKey_PageDown);
  EXPECT_EQ(rig.screen().page_name(), "Replay side by side");
  EXPECT_TRUE(has(rig.words(), "tables or codes only"));
  rig.key(ImGuiKey_PageDown);
  EXPECT_EQ(rig.screen().page_name(), "Report files");
  rig.key(ImGuiKey_PageUp);
  rig.key(ImGuiKey_PageUp);
  rig.key(ImGuiKey_PageUp);
  EXPECT_EQ(rig.screen().page_name(), "Hole size");
}

TEST(Pages, SayTheSentenceWithItsIntervalBesideEveryChart) {
  Rig rig(7);
  rig.frame();
  for (int i = 1; i < 8; ++i) {
    rig.key(static_cast<ImGuiKey>(ImGuiKey_0 + i));
    EXPECT_TRUE(has(rig.words(), "In 7 learners the sleeve changed")) << i;
    EXPECT_TRUE(has(rig.words(), "95 % interval")) << i;
    EXPECT_TRUE(has(rig.words(), "practice and technique cannot be separated")) << i;
  }
  EXPECT_FALSE(has(rig.words(), "exact signed ranks"));
  rig.key(ImGuiKey_T);
  EXPECT_TRUE(has(rig.words(), "exact signed ranks"));
}

TEST(Experiment, IsPlannedFromAnEmptyClassroomAndFromAClass) {
  Rig empty(0);
  empty.frame();
  EXPECT_TRUE(asks_for<PlanExperiment>(empty.key(ImGuiKey_E)));
  EXPECT_TRUE(asks_for<PasteCode>(empty.key(ImGuiKey_V)));
  Rig rig(7);
  rig.frame();
  rig.click("Fair experiment");
  rig.frame();
  EXPECT_TRUE(has(rig.words(), "This class has no plan"));
  EXPECT_TRUE(asks_for<PlanExperiment>(rig.key(ImGuiKey_E)));
}

TEST(Experiment, SaysWhetherItWasFollowedAndHidesNames) {
  Rig rig(7);
  rig.give_plan(6);
  rig.frame();
  rig.click("Fair experiment");
  rig.frame();
  // Everyone of this class went free-hand first; half of the places were drawn the other way.
  EXPECT_TRUE(has(rig.words(), "3 of 6 planned people followed the drawn order to its end."));
  EXPECT_TRUE(has(rig.words(), "1 who drilled had no place in the plan."));
  EXPECT_TRUE(has(rig.words(), "another order from hole 1 on"));
  EXPECT_TRUE(has(rig.words(), "practice and technique cannot be separated"));
  EXPECT_TRUE(has(rig.words(), "code-0"));
  rig.compile(41);
  rig.frame();
  EXPECT_FALSE(has(rig.words(), "code-"));
  rig.model().filters.window = classroom::Window::kEarly;
  rig.compile(std::nullopt);
  rig.frame();
  EXPECT_TRUE(has(rig.words(), "Filters leave out attempts"));
}

TEST(Files, ARecordOfOneAttendeeIsOffered) {
  Rig rig(7);
  rig.frame();
  rig.click("Report files");
  rig.frame();
  EXPECT_TRUE(asks_for<MakeRecord>(rig.click("Participation record\u2026")));
}

TEST(Names, HiddenOnesLeaveNothingBehind) {
  Rig rig(7);
  rig.frame();
  rig.key(ImGuiKey_1);
  EXPECT_TRUE(has(rig.words(), "code-3"));
  EXPECT_TRUE(asks_for<ToggleNames>(rig.key(ImGuiKey_N)));
  rig.compile(41);
  for (int i = 0; i < 10; ++i) {
    rig.key(static_cast<ImGuiKey>(ImGuiKey_0 + i));
    EXPECT_FALSE(has(rig.words(), "code-")) << i;
  }
  rig.key(ImGuiKey_1);
  EXPECT_TRUE(has(rig.words(), "Learner 7"));
}

TEST(Names, SmallGroupsAreHiddenWithThem) {
  Rig rig(3);
  rig.frame();
  rig.key(ImGuiKey_1);
  EXPECT_TRUE(has(rig.words(), "code-1"));
  rig.compile(41);
  rig.key(ImGuiKey_1);
  EXPECT_TRUE(has(rig.words(), "fewer than 5 learners"));
  EXPECT_FALSE(has(rig.words(), "Learner 1"));
}

TEST(Filters, EachGoesThroughItsChoices) {
  Rig rig(7);
  rig.frame();
  rig.frame();
  const auto filters_of = [](const Actions& actions) {
    for (const Action& action : actions) {
      if (const auto* set = std::get_if<SetFilters>(&action)) {
        return set->filters;
      }
    }
    return classroom::Filters();
  };
  EXPECT_EQ(filters_of(rig.click("Approach: all")).approach, stats::Approach::kFreehand);
  EXPECT_EQ(filters_of(rig.click("Attempts: all")).window, classroom::Window::kEarly);
  EXPECT_EQ(filters_of(rig.click("Source: simulated")).source, classroom::Source::kBench);
  rig.model().filters.source = classroom::Source::kBench;
  rig.compile(std::nullopt);
  rig.key(ImGuiKey_2);
  EXPECT_TRUE(has(rig.words(), "Nothing is left with these filters"));
  EXPECT_EQ(filters_of(rig.click("Show everything")), classroom::Filters());
}

TEST(Files, EveryFileOfTheReportCanBeSaved) {
  Rig rig(7);
  rig.frame();
  rig.click("Report files");
  rig.frame();
  for (std::size_t i = 0; i < classroom::kOutputs.size(); ++i) {
    const Actions actions = rig.click("Save " + std::string(classroom::kOutputs[i].name));
    ASSERT_TRUE(asks_for<SaveOutput>(actions));
    for (const Action& action : actions) {
      if (const auto* save = std::get_if<SaveOutput>(&action)) {
        EXPECT_EQ(save->index, i);
      }
    }
  }
}

TEST(Checking, CanBeStoppedAndGoesOn) {
  Rig rig(7);
  rig.model().checking = {3, 12, true};
  rig.frame();
  rig.frame();
  EXPECT_TRUE(has(rig.words(), "Repeated 3 of 12 attempts"));
  EXPECT_TRUE(asks_for<StopChecking>(rig.click("Stop")));
  rig.model().checking.is_running = false;
  rig.frame();
  rig.frame();
  EXPECT_TRUE(has(rig.words(), "Stopped: 3 of 12"));
  EXPECT_TRUE(asks_for<GoOnChecking>(rig.click("Go on")));
}

TEST(StartOver, TakesTwoPresses) {
  Rig rig(7);
  rig.frame();
  rig.key(ImGuiKey_0);
  EXPECT_FALSE(asks_for<StartOver>(rig.click("Start over")));
  rig.frame();
  EXPECT_TRUE(asks_for<StartOver>(rig.click("Forget this class?")));
}

TEST(OnePerScreen, KeepsPictureAndSentenceOnly) {
  Rig rig(7, 1280.0F, 720.0F);
  rig.frame();
  rig.key(ImGuiKey_5);
  rig.key(ImGuiKey_P);
  EXPECT_TRUE(has(rig.words(), "In 7 learners the sleeve changed"));
  EXPECT_FALSE(has(rig.words(), "Source: simulated"));
}

// Every style that charts use is known here, in both themes: else a shape would not be seen.
TEST(PictureStyle, EveryShapeOfEveryChartIsSeen) {
  classroom::Collector collector;
  collector.add(table_of(12), "holes.csv");
  const classroom::Class whole = classroom::compile(collector.finish(), std::nullopt);
  for (const ui::Theme theme : {ui::Theme::kDark, ui::Theme::kLight}) {
    for (int id = 0; id < static_cast<int>(classroom::ViewId::kCount); ++id) {
      const auto pictures =
          classroom::view(static_cast<classroom::ViewId>(id)).draw(whole, whole.parts.front());
      for (const classroom::Picture& picture : pictures) {
        for (const classroom::Shape& shape : picture.shapes()) {
          if (shape.style.empty() || shape.kind == classroom::Shape::Kind::kText) {
            continue;
          }
          const Paint paint = paint_of(shape.style, ui::palette(theme));
          EXPECT_GT(paint.fill_alpha + paint.stroke_alpha, 0.0F) << shape.style;
        }
      }
    }
  }
}

}  // namespace
}  // namespace driftbench::classroom_ui
