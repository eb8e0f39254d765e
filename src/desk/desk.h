// The Classroom as a program: files in, attempts repeated, the class compiled, one frame after
// another.
#pragma once

#include "classroom_ui/screen.h"

#include "classroom/roster.h"
#include "classroom/verification.h"
#include "platform/inbox.h"
#include "platform/window.h"
#include "ui/theme.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::desk {

class Desk {
 public:
  /// `window` must outlive the program. Arguments are "--name=value" from the page.
  Desk(platform::Window& window, std::span<const char* const> arguments);

  /// One turn. Returns whether another is to follow at once.
  bool tick();

  void receive(const platform::Message& message);

  // From the page (desk/exports.cpp): a batch of files, then the verdicts of its worker.
  void begin_reading(std::size_t count);
  void take_file(const std::string& name, std::string_view bytes);
  void refuse_file(std::string sentence);
  void end_reading();
  void take_verdict(const std::string& sha256, classroom::Verdict verdict);
  /// The text of a plan from its dialog; gives why it cannot be used, or nothing.
  [[nodiscard]] std::string take_experiment(std::string_view text);

  [[nodiscard]] std::string items_json() const { return screen_.items_json(); }

  [[nodiscard]] std::string state_json() const;

  /// Dialogs of the page follow.
  [[nodiscard]] bool is_light() const { return ui::is_light(model_.theme); }

  void activate_item(std::uint32_t item_id);
  void focus_item(std::uint32_t item_id);

 private:
  void carry_out(const classroom_ui::Action& action);
  void open_demo();
  void forget();
  void collect();
  void compile();
  void check_rest();
  void save(std::size_t output);
  void dialog(const char* name);
  [[nodiscard]] std::string dialog_json() const;
  void notify(const std::string& sentence, bool is_error);
  void keep_awake();
  void frame();

  platform::Window& window_;
  classroom_ui::Screen screen_;
  classroom_ui::Model model_;

  classroom::Collector collector_;
  std::vector<std::string> refused_;  ///< sentences of the page: files it could not give
  classroom::Verdicts verdicts_;
  std::optional<classroom::Names> names_;
  std::optional<classroom::Experiment> experiment_;  ///< goes before one that files brought
  std::optional<classroom::Roster> roster_;
  std::optional<classroom::Class> whole_;
  std::vector<std::string> devices_;
  std::optional<std::uint64_t> disguise_;
  bool are_verdicts_new_ = false;
  double compiled_s_ = 0.0;

  platform::WindowSize styled_for_;
  std::int64_t frames_ = 0;
  int frames_due_ = 3;
  bool is_whole_ = false;    ///< the second part of the program is there (later.txt)
  bool wants_demo_ = false;  ///< asked for before that
  bool has_graphics_ = true;
  bool is_hidden_ = false;
  bool needs_style_ = true;
};

/// Whether a table is read as it is: a list of names, or one with the columns of holes.csv.
[[nodiscard]] bool is_known_table(std::string_view bytes, const std::string& name);

/// The one that the page's calls reach (desk/exports.cpp).
void connect(Desk* desk);

}  // namespace driftbench::desk
