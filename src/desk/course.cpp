// What the dialogs of both pages ask of the core (classroom/course_requests.h). Part of the
// worker's program, which a page loads on first use. Texts are UTF-8 and end with a zero byte; an
// answer is valid until the next one.
#include "classroom/course_requests.h"
#include "classroom/film.h"

#include <emscripten.h>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace {

driftbench::classroom::OwnAttempts g_own;
std::optional<driftbench::classroom::Film> g_film;
driftbench::classroom::FilmSection g_section;

const char* given(std::string answer) {
  static std::string text;
  text = std::move(answer);
  return text.c_str();
}

}  // namespace

namespace classroom = driftbench::classroom;

extern "C" {

const char* course_plan(const char* design);
const char* course_read_experiment(const char* text, const char* name);
const char* course_sheet(const char* text);
void course_attempt(const char* name, const char* bytes, int size);
void course_forget();
const char* course_list();
const char* course_turn_in(const char* ids);
const char* course_compare(const char* summary, const char* name, const char* hidden);
const char* course_participation(const char* fields);
const char* course_film_start(const char* name, const char* bytes, int size);
int course_film_advance(int steps);
double course_film_progress();
const char* course_film_json();
const void* course_film_section(int is_md, int part);
void course_film_end();

EMSCRIPTEN_KEEPALIVE const char* course_plan(const char* design) {
  return given(classroom::answer_plan(design));
}

EMSCRIPTEN_KEEPALIVE const char* course_read_experiment(const char* text, const char* name) {
  return given(classroom::answer_read_experiment(text, name));
}

EMSCRIPTEN_KEEPALIVE const char* course_sheet(const char* text) {
  return given(classroom::experiment_sheet_of(text));
}

EMSCRIPTEN_KEEPALIVE void course_attempt(const char* name, const char* bytes, int size) {
  g_own.add(std::string_view(bytes, static_cast<std::size_t>(size)), name);
}

EMSCRIPTEN_KEEPALIVE void course_forget() {
  g_own.clear();
}

EMSCRIPTEN_KEEPALIVE const char* course_list() {
  return given(g_own.answer_list());
}

EMSCRIPTEN_KEEPALIVE const char* course_turn_in(const char* ids) {
  return given(g_own.answer_turn_in(ids));
}

EMSCRIPTEN_KEEPALIVE const char* course_compare(const char* summary, const char* name,
                                                const char* hidden) {
  return given(g_own.answer_compare(summary, name, hidden));
}

EMSCRIPTEN_KEEPALIVE const char* course_participation(const char* fields) {
  return given(classroom::answer_participation(fields));
}

/// Why the attempt cannot be replayed; empty: it begins.
EMSCRIPTEN_KEEPALIVE const char* course_film_start(const char* name, const char* bytes, int size) {
  auto film = classroom::Film::start(std::string_view(bytes, static_cast<std::size_t>(size)), name);
  if (!film) {
    return given(film.error().message);
  }
  g_film.emplace(std::move(*film));
  return given({});
}

EMSCRIPTEN_KEEPALIVE int course_film_advance(int steps) {
  return g_film->advance(steps) ? 1 : 0;
}

EMSCRIPTEN_KEEPALIVE double course_film_progress() {
  return g_film->progress();
}

EMSCRIPTEN_KEEPALIVE const char* course_film_json() {
  return given(g_film->json());
}

/// Part 0 computes the section and gives its densities; 1 coverage before, 2 after, 3 ticks (u16).
EMSCRIPTEN_KEEPALIVE const void* course_film_section(int is_md, int part) {
  if (part == 0) {
    g_section = g_film->section(is_md != 0);
  }
  return part == 0   ? static_cast<const void*>(g_section.density.data())
         : part == 1 ? g_section.before.data()
         : part == 2 ? g_section.after.data()
                     : static_cast<const void*>(g_section.tick.data());
}

EMSCRIPTEN_KEEPALIVE void course_film_end() {
  g_film.reset();
  g_section = {};
}
}

int main() {
  return 0;
}
