/* Forced into every SDL source file: Emscripten before 3.1.35 has no EM_JS_DEPS. The runtime functions
   it would name are always present there, so an empty macro is enough. */
#include <emscripten/em_js.h>
#ifndef EM_JS_DEPS
#define EM_JS_DEPS(tag, deps)
#endif
