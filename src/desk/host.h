// What the Classroom asks of its page: files, folders, and attempts to be repeated by a worker.
#pragma once

#include "classroom/verification.h"

#include <string>
#include <vector>

namespace driftbench::desk {

/// Lets the person choose files, or a folder.
void pick_files();
void pick_folder();

/// Has these attempts repeated, one after the other; verdicts arrive one by one. Verdicts of
/// earlier visits are kept by the page.
void start_checking(const std::vector<classroom::FileToVerify>& files);

/// What is not repeated yet stays so.
void stop_checking();

/// The page forgets the files that it was given.
void forget_files();

/// Opens a dialog of the page, by name, with what it needs to know as JSON.
void open_dialog(const char* name, const std::string& json);

}  // namespace driftbench::desk
