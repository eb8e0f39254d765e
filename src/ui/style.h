// Dear ImGui's own style and focus, as the screens want them.
#pragma once

#include "ui/model.h"

#include <cstdint>

namespace driftbench::ui {

/// Name of the one window that fills the page.
inline constexpr const char* kWindowName = "Driftbench";

/// Style of what Dear ImGui draws by itself (background, scrollbars), and its settings.
void set_style(Theme theme, float scale);

/// Begins the window that fills the page; ImGui::End() ends it.
void begin_page();

/// Gives the keyboard focus to the item.
void focus_item(std::uint32_t item_id);

/// Forgets the keyboard focus when its item was not drawn: from an item that has gone, Tab would
/// lead nowhere. Call after the last item.
void forget_gone_focus();

}  // namespace driftbench::ui
