// The program: screens, the running attempt, files and storage, one frame after another.
#pragma once

#include "app/announcer.h"
#include "app/bench.h"
#include "app/course.h"
#include "app/debrief.h"
#include "app/journal.h"
#include "app/launch.h"
#include "app/library.h"
#include "app/picture_scale.h"
#include "app/pictures.h"
#include "app/prediction_run.h"
#include "app/rerun.h"
#include "app/saved.h"
#include "app/study.h"
#include "base/json_writer.h"
#include "platform/inbox.h"
#include "platform/input.h"
#include "platform/window.h"
#include "ui/ui.h"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::app {

/// Counters and times for tests and for the curious.
struct Meters {
  std::int64_t frames = 0;
  double fresh_specimen_ms = 0.0;  ///< from asking for an attempt to its specimen standing ready
  double frame_ms = 0.0;           ///< smoothed, work of the program itself
};

class App {
 public:
  /// `window` must outlive the app.
  App(platform::Window& window, Launch launch);

  /// One turn. Returns whether another is to follow at once.
  bool tick();

  /// Something reached the program from outside.
  void receive(platform::Message message);

  /// Screen items and state as JSON; read-only.
  [[nodiscard]] std::string items_json() const { return ui_.items_json(); }

  [[nodiscard]] std::string state_json() const;

  /// From the page's mirror of the items.
  void activate_item(std::uint32_t item_id);
  void focus_item(std::uint32_t item_id);
  void adjust_item(std::uint32_t item_id, int steps);

 private:
  enum class LoadPurpose { kOpen, kCompare, kExport };

  // app.cpp: the frame
  bool work(double elapsed_s);
  void frame(double elapsed_s);
  void build_model();
  void restyle();
  [[nodiscard]] bool has_look_back() const;
  [[nodiscard]] Subject subject() const;
  void keep_awake(int frames);
  void notify(const std::string& sentence, bool is_error);
  void tell_of_pictures();
  void stop_hands();
  void refresh_shelf();

  // actions.cpp; what needs the second part of the program (later.txt) waits until it has come
  void carry_out(const ui::Action& action);
  [[nodiscard]] bool must_wait(const ui::Action& action) const;
  void become_whole();
  void change_language();

  // attempts.cpp: the way of one attempt
  [[nodiscard]] base::Result<lesson::AttemptSetup> resolve_block(const lesson::Lesson& lesson,
                                                                 const specimen::Kit& kit,
                                                                 std::size_t block_index,
                                                                 std::uint64_t attempt_index,
                                                                 std::uint64_t seed) const;
  [[nodiscard]] std::optional<lesson::AttemptSetup> next_setup(std::optional<std::size_t> block);
  void open_lesson(ui::Place place);
  void open_lesson_of_address();
  void look_at_briefed();  ///< drawing, room and error budget of the briefed set-up
  void reckon_guide();     ///< its error budget
  void brief(std::optional<std::size_t> block);
  void start_attempt();
  void start(std::optional<std::size_t> block);
  void again();
  void go_on();
  void go_to_shelf();
  void end_showing();
  void submit(const record::Command& command);
  void end_attempt();
  void give_estimate(const scoring::SelfEstimate& estimate);
  void show_debrief();
  [[nodiscard]] record::Attempt current_record() const;
  void store_current();
  void adopt(session::Session session, const record::Attempt& about);
  void find_place(const lesson::AttemptSetup& setup);
  void compare_block(std::size_t saved_index);
  /// Null when the lesson or the block is not here.
  [[nodiscard]] const lesson::LocalText* find_block_title(const std::string& lesson_id,
                                                          const std::string& block_id) const;
  [[nodiscard]] lesson::LocalText block_title(const lesson::AttemptSetup& setup) const;
  [[nodiscard]] std::string full_title(const lesson::AttemptSetup& setup) const;

  // logbook.cpp: the own record
  void open_logbook(const std::string& lesson_id);
  /// The logbook's dialog; with the text of a class summary it begins with the comparison.
  void open_takeaway(const std::string& summary_name, const std::string& summary);
  void build_logbook();
  void fill_logbook(ui::LogbookView& view);
  void import_logbook(const std::string& name, const std::string& text);
  bool import_attempt(const std::string& text, const std::string& when, double finished_days);

  // opened.cpp: files that were opened and are kept. A name is "<id>.lesson.json" and so on
  [[nodiscard]] static bool is_library_file(std::string_view name);
  [[nodiscard]] base::Result<std::string> add_file(const std::string& name,
                                                   const std::string& text);
  void take_kept(const platform::FileKept& file);
  [[nodiscard]] bool is_in_opened_set(std::string_view lesson_id,
                                      std::string_view other_than) const;
  void list_opened();
  void forget_opened(const std::string& name);

  // files.cpp: what comes from files and storage
  void open_text(const std::string& name, const std::string& text);
  void open_for_library(const std::string& name, const std::string& text);
  void open_attempt(const std::string& name, const std::string& text, Rerun::Purpose purpose);
  void loaded(const std::string& id, const std::string& text);
  void request_load(const std::string& id, LoadPurpose purpose);
  void compare(const std::string& id, bool shown);
  void found_journal(const platform::JournalFound& found);
  void resume(const platform::JournalLoaded& journal);
  void finish_rerun();
  void export_attempt(const std::string& id);

  // devices.cpp: what the open lesson asks of the device in hand
  [[nodiscard]] ui::DeviceView device_view() const;
  [[nodiscard]] bool takes_device();

  // handpiece.cpp: what holds the drill
  void read_devices();
  void read_pad();
  [[nodiscard]] std::string device_name() const;
  [[nodiscard]] bool is_hand_kept() const;
  /// Not the device that an attempt was begun with, where the lesson keeps it.
  [[nodiscard]] bool is_foreign(platform::PointerDevice device) const;
  void toggle_left_hand();
  void toggle_steps();

  // showing.cpp: what virtual operators show before the first own attempt
  [[nodiscard]] const lesson::Lesson* clear_for_showing();
  void watch_example(std::size_t block);
  void finish_example();
  void open_prediction();
  [[nodiscard]] bool simulate();
  void judge(const ui::JudgeGroup& said);
  void reveal_prediction();

  // study_screen.cpp: a piece of jaw under study
  void list_cases();
  void open_study(std::string_view text, std::string_view file_name);
  template <class Edit>
  void edit_study(const Edit& edit);
  void reckon_study_guide();
  void step_study(bool forward);
  void save_study(bool as_lesson);
  void draw_study(double pixels_per_point);
  void write_study(base::JsonWriter& out) const;

  platform::Window& window_;
  Launch launch_;
  ui::Ui ui_;
  ui::Model model_;
  Pictures pictures_;
  std::string told_problem_;  ///< why there are no pictures, as last told
  PictureScale scale_;
  Library library_;
  Course course_;
  Announcer announcer_;
  Journal journal_;

  std::vector<SavedEntry> saved_;
  std::map<std::string, ui::OpenedFile> opened_;  ///< by the name under which it is kept
  std::map<std::string, LoadPurpose> loading_;
  std::optional<ui::Unfinished> unfinished_;

  // The attempt on the bench or under discussion.
  std::optional<lesson::AttemptSetup> briefed_;  ///< what the briefing is about
  std::unique_ptr<session::Session> session_;
  std::unique_ptr<Bench> bench_;
  std::unique_ptr<Debrief> debrief_;
  record::Attempt about_;  ///< names and numbers of the record; the rest comes from the session
  std::optional<scoring::SelfEstimate> estimate_;
  std::string verification_;
  std::string opened_text_;    ///< of the attempt file that is being repeated
  std::string recorded_text_;  ///< of the attempt shown as another engine recorded it; else empty
  std::optional<ui::Place> place_;  ///< of the lesson in hand on the shelf
  std::size_t block_index_ = 0;
  double reveal_at_s_ = 0.0;  ///< feedback waits until then
  std::string logbook_lesson_;
  std::optional<lesson::AttemptSetup> logbook_site_;
  std::unique_ptr<Rerun> rerun_;
  std::unique_ptr<session::Practice> practice_;  ///< a worked example that is being simulated
  std::unique_ptr<ui::ExampleView> example_;     ///< the one on the screen
  std::unique_ptr<PredictionRun> prediction_;
  std::unique_ptr<Study> study_;
  std::uint32_t study_serial_ = 0;

  bool is_whole_ = false;
  std::vector<ui::Action> waiting_actions_;
  std::vector<platform::Message> waiting_messages_;

  Meters meters_;
  platform::WindowSize styled_for_;
  double last_tick_s_ = 0.0;
  int frames_due_ = 3;
  bool is_press_chosen_ = false;
  bool was_busy_ = false;
  bool was_drawing_ = false;
  bool has_graphics_ = true;
  bool is_hidden_ = false;
  bool needs_style_ = true;
};

}  // namespace driftbench::app
