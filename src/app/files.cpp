// What comes from files and from storage, once the program is whole.
#include "app/app.h"
#include "platform/host.h"
#include "ui/strings.h"

#include <utility>

namespace driftbench::app {

// Files are told apart by their double ending; everything else is taken for an attempt.
void App::open_text(const std::string& name, const std::string& text) {
  if (text.empty()) {
    notify(ui::say(ui::Str::kEmptyFile, name), true);
  } else if (is_library_file(name)) {
    open_for_library(name, text);
  } else if (name.ends_with(".logbook.json")) {
    import_logbook(name, text);
  } else if (name.ends_with("class-summary.json")) {
    open_takeaway(name, text);
  } else {
    open_attempt(name, text, Rerun::Purpose::kOpenedFile);
  }
}

// It is known from now on, kept, and shown.
void App::open_for_library(const std::string& name, const std::string& text) {
  const auto added = add_file(name, text);
  if (added.has_value()) {
    platform::keep_file(*added, text);
    list_opened();
  }
  if (name.ends_with(".specimen.json")) {
    open_study(text, name);  // says what is wrong with it
  } else if (!added.has_value()) {
    notify(added.error().message, true);
  } else if (name.ends_with(".kit.json")) {
    notify(ui::say(ui::Str::kKitKnown, name), false);
  } else if (name.ends_with(".set.json")) {
    notify(ui::say(ui::Str::kSetKnown, name), false);
    launch_.set_id = added->substr(0, added->find('.'));  // it comes first on the shelf
    go_to_shelf();
  } else {
    refresh_shelf();
    if (const auto place = course_.find(added->substr(0, added->find('.')), {});
        place.has_value()) {
      open_lesson(*place);
    }
  }
}

void App::open_attempt(const std::string& name, const std::string& text, Rerun::Purpose purpose) {
  auto read = record::read_attempt(text, name);
  if (!read.value.has_value()) {
    notify(first_problem(read.problems, name), true);
    return;
  }
  if (!read.problems.empty()) {
    notify(first_problem(read.problems, name), false);
  }
  auto rerun = Rerun::start(std::move(*read.value), purpose);
  if (!rerun.has_value()) {
    notify(name + ": " + rerun.error().message, true);
    return;
  }
  go_to_shelf();
  opened_text_ = text;
  rerun_ = std::move(*rerun);
}

void App::request_load(const std::string& id, LoadPurpose purpose) {
  loading_[id] = purpose;
  platform::load_attempt(id);
}

void App::loaded(const std::string& id, const std::string& text) {
  const auto purpose = loading_.find(id);
  if (purpose == loading_.end()) {
    return;
  }
  const LoadPurpose wanted = purpose->second;
  loading_.erase(purpose);
  switch (wanted) {
    case LoadPurpose::kOpen:
      open_attempt(std::string(ui::tr(ui::Str::kSavedAttempt)), text, Rerun::Purpose::kStored);
      break;
    case LoadPurpose::kCompare: {
      const auto read = record::read_attempt(text, ui::tr(ui::Str::kSavedAttempt));
      if (!read.value.has_value()) {
        notify(first_problem(read.problems, ui::tr(ui::Str::kSavedAttempt)), true);
      } else if (debrief_ != nullptr) {
        if (auto compared = compared_of(read.value->attempt); compared.has_value()) {
          debrief_->add_compared(std::move(*compared));
        }
      }
      break;
    }
    case LoadPurpose::kExport: {
      platform::save_file("driftbench-" + id.substr(0, 8) + ".attempt.json", text);
      break;
    }
  }
}

void App::compare(const std::string& id, bool shown) {
  if (debrief_ == nullptr || id == about_.attempt_id) {
    return;
  }
  if (!shown) {
    debrief_->remove_compared(id);
  } else {
    request_load(id, LoadPurpose::kCompare);
  }
}

void App::export_attempt(const std::string& id) {
  if (!id.empty()) {
    request_load(id, LoadPurpose::kExport);
  } else if (session_ != nullptr) {
    platform::save_file(
        "driftbench-" + about_.attempt_id.substr(0, 8) + ".attempt.json",
        recorded_text_.empty() ? record::write_attempt(current_record()) : recorded_text_);
  }
}

void App::resume(const platform::JournalLoaded& journal) {
  auto read = record::read_attempt(journal.head, ui::tr(ui::Str::kUnfinishedAttempt));
  if (!read.value.has_value()) {
    notify(first_problem(read.problems, ui::tr(ui::Str::kUnfinishedAttempt)), true);
    return;
  }
  record::AttemptFile file = std::move(*read.value);
  file.attempt.trace = trace_of_rows(journal.rows);
  file.attempt.end_step = journal.step;
  auto rerun = Rerun::start(std::move(file), Rerun::Purpose::kResume);
  if (!rerun.has_value() || !(*rerun)->is_comparable()) {
    notify(ui::say(ui::Str::kCannotResume,
                   rerun.has_value()
                       ? session::other_engine_words((*rerun)->file().attempt.engine) + "."
                       : rerun.error().message),
           true);
    return;
  }
  rerun_ = std::move(*rerun);
}

void App::finish_rerun() {
  const std::unique_ptr<Rerun> rerun = std::move(rerun_);
  const record::Attempt about = rerun->file().attempt;
  find_place(about.setup);
  // Before the session is taken out of it.
  const std::string verdict =
      rerun->purpose() == Rerun::Purpose::kResume ? std::string() : rerun->verdict();
  adopt(rerun->take_session(), about);
  if (rerun->purpose() == Rerun::Purpose::kResume &&
      session_->view().phase == session::Phase::kDrilling) {
    journal_.resume(about.attempt_id, session_->trace().size(), session_->view().step);
    unfinished_.reset();
    model_.screen = ui::Screen::kBench;
    return;
  }
  bench_.reset();
  estimate_ = about.estimate;
  verification_ = verdict;
  std::optional<scoring::Results> recorded;
  if (!rerun->is_comparable()) {
    recorded = about.results.value_or(scoring::Results{});
    recorded_text_ = std::move(opened_text_);
  }
  opened_text_.clear();
  debrief_ = std::make_unique<Debrief>(*session_, recorded);
  if (rerun->purpose() == Rerun::Purpose::kResume) {
    // It broke off between its end and its saving.
    unfinished_.reset();
    store_current();
  }
  show_debrief();
}

}  // namespace driftbench::app
