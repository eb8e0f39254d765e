// SDL window, OpenGL ES 3 context, Dear ImGui backends.
#include "platform/window.h"

#include "platform/host.h"
#include "platform/input.h"

#include <GLES3/gl3.h>
#include <SDL.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>
#include <imgui_impl_sdl2.h>
#include <imgui_internal.h>

#include <algorithm>
#include <string>

namespace driftbench::platform {
namespace {

constexpr int kFirstWidth_px = 1280;
constexpr int kFirstHeight_px = 720;

const char* clipboard_text(void* /*user*/) {
  return clipboard().c_str();
}

void set_clipboard_text(void* /*user*/, const char* text) {
  copy_to_clipboard(text);
}

void place_text_caret(ImGuiViewport* /*viewport*/, ImGuiPlatformImeData* data) {
  set_text_input(data->WantVisible, data->InputPos.x, data->InputPos.y, data->InputLineHeight);
}

void set_up_imgui() {
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
  io.ConfigMacOSXBehaviors = is_mac();
}

}  // namespace

struct Window::Impl {
  SDL_Window* window = nullptr;
  SDL_GLContext context = nullptr;
  bool wants_to_close = false;
};

Window::Window() : impl_(std::make_unique<Impl>()) {}

base::Result<std::unique_ptr<Window>> Window::open(const char* title) {
  SDL_SetHint(SDL_HINT_EMSCRIPTEN_KEYBOARD_ELEMENT, "#app");
  if (SDL_Init(SDL_INIT_VIDEO) != 0) {
    return base::fail(base::ErrorCode::kUnsupported, std::string("No window: ") + SDL_GetError());
  }
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 0);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_ES);
  SDL_GL_SetAttribute(SDL_GL_DEPTH_SIZE, 0);
  SDL_GL_SetAttribute(SDL_GL_STENCIL_SIZE, 0);

  std::unique_ptr<Window> result(new Window());
  Impl& impl = *result->impl_;
  impl.window = SDL_CreateWindow(
      title, SDL_WINDOWPOS_UNDEFINED, SDL_WINDOWPOS_UNDEFINED, kFirstWidth_px, kFirstHeight_px,
      SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
  if (impl.window != nullptr) {
    impl.context = SDL_GL_CreateContext(impl.window);
  }
  if (impl.context == nullptr) {
    return base::fail(base::ErrorCode::kUnsupported,
                      std::string("No OpenGL ES 3: ") + SDL_GetError());
  }
  set_up_imgui();
  ImGui_ImplSDL2_InitForOpenGL(impl.window, impl.context);
  ImGui_ImplOpenGL3_Init("#version 300 es");
  ImGuiIO& io = ImGui::GetIO();
  io.GetClipboardTextFn = clipboard_text;
  io.SetClipboardTextFn = set_clipboard_text;
  io.SetPlatformImeDataFn = place_text_caret;
  return result;
}

Window::~Window() {
  if (impl_->context != nullptr) {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplSDL2_Shutdown();
    ImGui::DestroyContext();
    SDL_GL_DeleteContext(impl_->context);
  }
  if (impl_->window != nullptr) {
    SDL_DestroyWindow(impl_->window);
  }
  SDL_Quit();
}

bool Window::pump() {
  bool changed = false;
  ImGuiIO& io = ImGui::GetIO();
  SDL_Event event;
  while (SDL_PollEvent(&event) != 0) {
    switch (event.type) {
      case SDL_QUIT:
        impl_->wants_to_close = true;
        break;
      case SDL_MOUSEMOTION:
      case SDL_MOUSEBUTTONDOWN:
      case SDL_MOUSEBUTTONUP:
      case SDL_FINGERDOWN:
      case SDL_FINGERUP:
      case SDL_FINGERMOTION:
        // SDL rounds to whole pixels and knows no pressure: pointers come through take_pointer().
        if (has_own_pointer_events()) {
          continue;
        }
        ImGui_ImplSDL2_ProcessEvent(&event);
        break;
      case SDL_MOUSEWHEEL:
        // Browsers disagree about amounts; one notch is one.
        io.AddMouseWheelEvent(std::clamp(-event.wheel.preciseX, -1.0F, 1.0F),
                              std::clamp(event.wheel.preciseY, -1.0F, 1.0F));
        break;
      case SDL_WINDOWEVENT:
        if (event.window.event != SDL_WINDOWEVENT_ENTER &&
            event.window.event != SDL_WINDOWEVENT_LEAVE) {
          ImGui_ImplSDL2_ProcessEvent(&event);
        }
        break;
      default:
        ImGui_ImplSDL2_ProcessEvent(&event);
        break;
    }
    changed = true;
  }
  return changed;
}

bool Window::has_queued_input() const {
  return ImGui::GetCurrentContext()->InputEventsQueue.Size > 0;
}

bool Window::wants_to_close() const {
  return impl_->wants_to_close;
}

WindowSize Window::size() const {
  int width = 0;
  int height = 0;
  int width_px = 0;
  int height_px = 0;
  SDL_GetWindowSize(impl_->window, &width, &height);
  SDL_GL_GetDrawableSize(impl_->window, &width_px, &height_px);
  WindowSize size;
  size.width = static_cast<float>(width);
  size.height = static_cast<float>(height);
  size.pixel_ratio = width > 0 ? static_cast<float>(width_px) / static_cast<float>(width) : 1.0F;
  return size;
}

void Window::begin_frame() {
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplSDL2_NewFrame();
  ImGui::NewFrame();
}

void Window::end_frame(float red, float green, float blue) {
  ImGui::Render();
  int width_px = 0;
  int height_px = 0;
  SDL_GL_GetDrawableSize(impl_->window, &width_px, &height_px);
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  glDisable(GL_SCISSOR_TEST);
  glViewport(0, 0, width_px, height_px);
  glClearColor(red, green, blue, 1.0F);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  SDL_GL_SwapWindow(impl_->window);
}

void Window::renew_fonts() {
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
}

void Window::restore_graphics() {
  ImGui_ImplOpenGL3_DestroyDeviceObjects();
  ImGui_ImplOpenGL3_CreateDeviceObjects();
}

}  // namespace driftbench::platform
