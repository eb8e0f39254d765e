// The program behind the dialogs (src/desk/course.cpp), loaded on first use; it computes, the dialogs only show.
import createCourse from './course.mjs';
import {withFile, withTexts} from './texts.js';

let starting = null;

/** The program, started once: {ask(name, ...texts) -> object, text(name, ...texts) -> string, attempt(name, bytes)}. */
export function courseCore() {
  starting ??= createCourse().then(module => {
    const text = (name, ...texts) => withTexts(module, texts, addresses => module.UTF8ToString(module[`_course_${name}`](...addresses)));
    const given = (name, content, use) =>
      withFile(module, name, typeof content === 'string' ? new TextEncoder().encode(content) : content, use);
    return {
      text,
      ask: (name, ...texts) => JSON.parse(text(name, ...texts)),
      forget: () => module._course_forget(),
      attempt: (name, content) => given(name, content, (label, address, size) => module._course_attempt(label, address, size)),
      // An attempt repeated for a replay: started, advanced until it says 0, then taken whole.
      filmStart: (name, content) => given(name, content, (label, address, size) => module.UTF8ToString(module._course_film_start(label, address, size))),
      filmAdvance: steps => module._course_film_advance(steps),
      filmProgress: () => module._course_film_progress(),
      film: () => {
        const about = JSON.parse(module.UTF8ToString(module._course_film_json()));
        const count = about.columns * about.rows;
        const bytes = (plane, part) => module.HEAPU8.slice(module._course_film_section(plane, part), module._course_film_section(plane, part) + count);
        about.sections = [1, 0].map(plane => {
          const address = module._course_film_section(plane, 0);
          const density = module.HEAPU8.slice(address, address + count);
          const tick = module._course_film_section(plane, 3);
          return {density, before: bytes(plane, 1), after: bytes(plane, 2), tick: new Uint16Array(module.HEAPU8.slice(tick, tick + 2 * count).buffer)};
        });
        return about;
      },
      filmEnd: () => module._course_film_end(),
    };
  });
  return starting;
}
