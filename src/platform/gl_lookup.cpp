// SDL asks for OpenGL functions by name; the app calls its own directly. Emscripten's lookup would
// bring every function of OpenGL ES into the page, so it finds none here.

extern "C" {

void* eglGetProcAddress(const char* name);

void* eglGetProcAddress(const char* /*name*/) {
  return nullptr;
}
}
