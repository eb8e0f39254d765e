// Reads what is on the desk, beside the page, with the program that reads lessons in the app.
import createAuthor from '../author.mjs';
import {withTexts} from '../texts.js';

const ready = createAuthor();

onmessage = async ({data: {ask, files}}) => {
  try {
    const module = await ready;
    if (!files) {
      postMessage({ask, answer: JSON.parse(module.UTF8ToString(module._author_files()))});
      return;
    }
    module._author_clear();
    const answer = files.map(({name, text}) => withTexts(module, [name, text], ([file, body], [, size]) =>
      JSON.parse(module.UTF8ToString(module._author_take(file, body, size)))));
    postMessage({ask, answer});
  } catch (failure) {
    postMessage({ask, failure: String(failure?.message ?? failure)});
  }
};
