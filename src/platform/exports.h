// Functions that the page calls. Texts are UTF-8 and end with a zero byte; `size` counts the bytes
// before it.
#pragma once

#include <cstdint>

extern "C" {

/// One turn of the program; 1 when another should follow in the next frame.
int app_tick();

/// `phase`, `device`: see platform/input.h.
void app_pointer(int phase, int device, int pointer_id, int button, double x, double y,
                 double pressure, double tilt_x_deg, double tilt_y_deg);
/// A gamepad: see PadSample in platform/input.h.
void app_pad(double move_right_s, double move_away_s, double lean_right_s, double lean_away_s,
             double trigger);
void app_text(const char* text);          ///< typed or composed characters
void app_paste(const char* text);         ///< text from the clipboard, then the paste key
void app_edit_key(int key, int is_down);  ///< 0 Backspace, 1 Enter

void app_file(const char* name, const char* bytes, int size);
void app_file_kept(const char* name, const char* bytes, int size, int is_new);
void app_storage_failed(const char* sentence);
void app_stored_index(const char* json);
void app_attempt_loaded(const char* id, const char* bytes, int size);
void app_journal_found(const char* id, const char* title, const char* when, double step);
void app_journal_loaded(const char* id, const char* head, double step, const std::int32_t* rows,
                        int row_integers);
void app_language();  ///< the page has the texts of another language
void app_visibility(int is_hidden);
void app_focus_lost();
void app_keep_now();
void app_graphics(int is_there);

/// What is on the screen, and the state, as JSON; valid until the next call of the same function.
const char* app_items();
const char* app_state();

/// From the page's mirror of the items; `item_id` as in app_items().
void app_activate(unsigned item_id);
void app_focus(unsigned item_id);
void app_adjust(unsigned item_id, int steps);
}
