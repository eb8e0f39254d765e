// The form in the page: one control for each field. It is built anew only when its shape changes; else values are put in.
import {make} from '../dialog.js';
import {rangeOf, meaning, plainName, smallest, unitOf, usualValue} from './schema.js';
import {hasWord, say} from './words.js';

const kLongText = new Set(['lesson.question', 'lesson.not_taught', 'lesson.teacher_notes', 'set.introduction', 'set.teacher_notes',
  'lesson.criterion.standard.source']);

let count = 0;
const freshId = () => `f${++count}`;

const nameOf = ({place}) => (hasWord(`field.${place}`) ? say(`field.${place}`) : plainName(place.split('.').at(-1)));

function helpOf({place, node, kind}) {
  const words = hasWord(`help.${place}`) ? say(`help.${place}`) : meaning(node.description).replace(/^./, first => first.toUpperCase()).replace(/[^.]$/, '$&.');
  const range = kind === 'number' ? rangeOf(node, place.split('.').at(-1)) : '';
  const usual = usualValue(node.description);
  return [words, range && `${range}.`, usual && !hasWord(`word.${place}.${usual}`) && kind === 'number' ? `(${say('usual', usual)})` : '']
    .filter(Boolean).join(' ');
}

const wordFor = (place, value) => (hasWord(`word.${place}.${value}`) ? say(`word.${place}.${value}`) : value);

/** A number as typed; what is no number stays text, so that the reader can say what is wrong with it. */
export function numberOf(text) {
  const word = text.trim().replace(',', '.').replace('−', '-');
  return word !== '' && /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(word) ? Number(word) : text.trim();
}

const shownNumber = value => (value === undefined ? '' : String(value));

/** Text areas as high as their text. */
function grow(area) {
  area.style.height = 'auto';
  area.style.height = `${Math.max(area.scrollHeight + 2, 46)}px`;
}

function showIn(trouble, sentences) {
  trouble.hidden = sentences.length === 0;
  trouble.replaceChildren(...sentences.map(sentence => make('span', {text: sentence})));
}

/**
 * root: where it stands; edit(field, value, isStep, focusKey): another value, `isStep` when it is no typing. A field
 * carries read() and begin(), its value now and the value it begins with.
 */
export function makeForm({root, edit}) {
  let shape = '';
  let headKey = '';
  let controls = new Map();  // key -> {row, set(value), focus()}
  let view = {second: '', languageName: code => code};

  // --- Controls: each gives [element or elements, set, focusable] ---

  function input(field, attributes, toValue, toText) {
    const node = make('input', {type: 'text', autocomplete: 'off', spellcheck: 'false', ...attributes});
    // What is being typed stays as it is while it means the same.
    const set = value => {
      if (JSON.stringify(toValue(node.value)) !== JSON.stringify(value)) node.value = toText(value);
    };
    node.addEventListener('input', () => edit(field, toValue(node.value)));
    return [node, set, node];
  }

  const number = field => {
    const [node, set, focusable] = input(field, {inputmode: 'decimal', class: 'number', placeholder: usualValue(field.node.description)},
      text => (text.trim() === '' ? undefined : numberOf(text)), shownNumber);
    const unit = unitOf(field.place.split('.').at(-1));
    return [make('span', {class: 'with-unit'}, node, unit ? make('span', {class: 'unit', text: unit}) : null), set, focusable];
  };

  const list = (field, toItem) => input(field, {},
    text => (text.trim() === '' ? undefined : text.split(/[,;\s]+/).filter(Boolean).map(toItem)),
    value => (Array.isArray(value) ? value.join(', ') : shownNumber(value)));

  function oneText(field, language, isLong) {
    const node = make(isLong ? 'textarea' : 'input', {...(isLong ? {rows: '2'} : {type: 'text'}), autocomplete: 'off', lang: language, spellcheck: 'true'});
    const set = value => {
      const text = typeof value?.[language] === 'string' ? value[language] : '';
      if (node.value !== text) node.value = text;
      if (isLong) grow(node);
    };
    node.addEventListener('input', () => {
      if (isLong) grow(node);
      const before = field.read();
      const texts = before !== null && typeof before === 'object' ? {...before} : {};
      if (node.value === '' && language !== 'en') delete texts[language];
      else texts[language] = node.value;
      edit(field, texts);
    });
    return {node, set};
  }

  function text(field, isLong = kLongText.has(field.place)) {
    const languages = ['en', ...(view.second ? [view.second] : [])];
    const parts = languages.map(language => ({language, ...oneText(field, language, isLong)}));
    const box = make('div', {class: 'texts'}, parts.map(({language, node}) => {
      const id = freshId();
      node.id = id;
      return make('div', {class: 'in-language'},
        languages.length > 1 ? make('label', {class: 'language', for: id, text: view.languageName(language)}) : null, node);
    }));
    const name = field.label ?? nameOf(field);
    parts.forEach(({node, language}) => node.setAttribute('aria-label', languages.length > 1 ? `${name}, ${view.languageName(language)}` : name));
    const set = value => parts.forEach(part => part.set(value));
    return [box, set, parts[0].node];
  }

  function texts(field) {
    const lines = Array.isArray(field.value) ? field.value : [];
    const rows = lines.map((_, i) => {
      const line = {...field, label: `${nameOf(field)} ${i + 1}`, path: [...field.path, i], key: `${field.key}[${i}]`, read: () => field.read()?.[i]};
      const [box, set, first] = text(line, true);
      const away = make('button', {type: 'button', class: 'small', text: '✕', 'aria-label': say('removeLine', i + 1), title: say('removeLine', i + 1),
        on: {click: () => edit(field, field.read().filter((_line, other) => other !== i), true)}});
      const row = make('div', {class: 'line', 'data-key': line.key}, box, away);
      controls.set(line.key, {row, focus: () => first.focus()});
      return {row, set, first};
    });
    const add = make('button', {type: 'button', class: 'quiet', text: say('addLine'),
      on: {click: () => edit(field, [...(field.read() ?? []), {en: ''}], true, `${field.key}[${lines.length}]`)}});
    return [make('div', {class: 'lines'}, rows.map(({row}) => row), add),
      value => rows.forEach(({set}, i) => set(value?.[i])), rows[0]?.first ?? add];
  }

  function choice(field, options) {
    const node = make('select');
    const set = value => {
      const known = options.some(option => option.value === value);
      const usual = usualValue(field.node.description);
      const left = {value: '', label: usual ? say('usually', wordFor(field.place, usual)) : say('leftOut')};
      const extra = known ? [] : value === undefined ? [field.isRequired ? {value: '', label: say('chooseOne')} : left]
        : [{value, label: say('unknownWord', value)}];
      const none = known && !field.isRequired ? [left] : [];
      node.replaceChildren(...[...extra, ...none, ...options].map(option => make('option', {value: option.value, text: option.label})));
      node.value = value ?? '';
    };
    node.addEventListener('change', () => edit(field, node.value === '' ? undefined : node.value, true));
    set(field.value);
    return [node, set, node];
  }

  function several(field, options) {
    const boxes = options.map(({value, label}) => {
      const box = make('input', {type: 'checkbox', value});
      box.addEventListener('change', () => {
        const chosen = boxes.filter(one => one.box.checked).map(one => one.value);
        edit(field, chosen.length > 0 ? chosen : undefined);
      });
      return {value, box, label: make('label', {class: 'tick'}, box, label)};
    });
    const set = value => boxes.forEach(one => { one.box.checked = Array.isArray(value) && value.includes(one.value); });
    set(field.value);
    return [make('div', {class: 'ticks', role: 'group', 'aria-label': nameOf(field)}, boxes.map(({label}) => label)), set, boxes[0]?.box];
  }

  // Drills in the order in which they are used.
  function ordered(field) {
    const chosen = Array.isArray(field.value) ? field.value : [];
    const labelOf = value => field.names.find(option => option.value === value)?.label ?? say('unknownWord', value);
    const change = next => edit(field, next, true);
    const rows = chosen.map((value, i) => make('div', {class: 'line'},
      make('span', {class: 'grow', text: `${i + 1}. ${labelOf(value)}`}),
      [['↑', 'moveUpOf', i - 1], ['↓', 'moveDownOf', i + 1]].map(([sign, word, to]) => make('button', {
        type: 'button', class: 'small', text: sign, 'aria-label': say(word, labelOf(value)), title: say(word, labelOf(value)), disabled: to < 0 || to >= chosen.length,
        on: {click: () => { const next = chosen.filter((_, other) => other !== i); next.splice(to, 0, value); change(next); }}})),
      make('button', {type: 'button', class: 'small', text: '✕', 'aria-label': say('removeOf', labelOf(value)), title: say('removeOf', labelOf(value)),
        on: {click: () => change(chosen.filter((_, other) => other !== i))}})));
    const left = field.names.filter(({value}) => !chosen.includes(value));
    const add = make('select', {'aria-label': say('addDrill'), disabled: left.length === 0},
      make('option', {value: '', text: say('addDrill')}), left.map(({value, label}) => make('option', {value, text: label})));
    add.addEventListener('change', () => add.value && change([...chosen, add.value]));
    return [make('div', {class: 'lines'}, rows, add), () => {}, add];
  }

  const optionsOf = field => field.node.enum.map(value => ({value, label: wordFor(field.place, value)}));

  function control(field) {
    switch (field.kind) {
      case 'text': return text(field);
      case 'texts': return texts(field);
      case 'choice': return choice(field, optionsOf(field));
      case 'several': return several(field, (field.node.items.enum ?? []).map(value => ({value, label: wordFor(field.place, value)})));
      case 'number': return number(field);
      case 'numbers': return list(field, numberOf);
      case 'words': return field.refers === 'drills' ? ordered(field) : field.names ? several(field, field.names) : list(field, word => word);
      default: return field.names ? choice(field, field.names) : input(field, {}, value => (value === '' && !field.isRequired ? undefined : value), value => value ?? '');
    }
  }

  // --- Rows ---

  function flag(field, label, isOn, change) {
    const box = make('input', {type: 'checkbox'});
    box.checked = isOn(field.value);
    box.addEventListener('change', () => change(box.checked));
    return [make('label', {class: 'tick strong'}, box, label), value => { box.checked = isOn(value); }, box];
  }

  function rowOf(field) {
    const help = helpOf(field);
    const id = freshId();
    const row = make('div', {class: `field kind-${field.kind} depth-${Math.min(field.depth, 3)}`, 'data-key': field.key});
    const trouble = make('p', {class: 'trouble', id: `${id}-t`, hidden: true});
    const about = help ? make('p', {class: 'help', id: `${id}-h`, text: help}) : null;
    let parts;
    if (field.place === 'entry.sha256') {
      parts = flag(field, nameOf(field), value => value !== undefined, on => edit(field, on ? '0'.repeat(64) : undefined));
    } else if (field.kind === 'flag') {
      const usual = usualValue(field.node.description) === 'true';
      parts = flag(field, nameOf(field), value => value ?? usual, on => edit(field, on, true));
    } else if (field.kind === 'group' && !field.isRequired) {
      parts = flag(field, nameOf(field), value => value !== undefined, on => edit(field, on ? field.begin() : undefined, true));
    } else if (field.kind === 'group') {
      if (!field.isAlone) row.append(make('h4', {text: nameOf(field)}));
      parts = [null, () => {}, null];
    } else if (field.kind === 'either') {
      const name = freshId();
      const choices = [[true, say('jaw')], [false, say('foam')]].map(([isFirst, label]) => {
        const dot = make('input', {type: 'radio', name});
        dot.checked = field.isFirst === isFirst;
        dot.addEventListener('change', () => edit(field, field.begin(isFirst), true));
        return make('label', {class: 'tick strong'}, dot, label);
      });
      parts = [make('div', {class: 'ticks', role: 'radiogroup', 'aria-label': nameOf(field)}, choices), () => {}, choices[0].firstChild];
    } else if (field.kind === 'list') {
      row.append(make('h4', {text: nameOf(field)}));
      const add = make('button', {type: 'button', class: 'quiet', text: say('addLine'),
        on: {click: () => edit(field, [...(field.read() ?? []), field.begin()], true)}});
      parts = [add, () => {}, add];
    } else if (field.kind === 'listed') {
      const away = make('button', {type: 'button', class: 'quiet', text: say('removeLine', field.number + 1), on: {click: () => edit(field, undefined, true)}});
      parts = [away, () => {}, away];
    } else {
      parts = control(field);
      // Several controls under one name are no label's.
      const isOne = parts[2] && !['texts', 'several', 'words'].includes(field.kind);
      const label = make(isOne ? 'label' : 'span', {class: 'name', text: nameOf(field)});
      if (isOne) {
        parts[2].id ||= id;
        label.htmlFor = parts[2].id;
      }
      row.append(label);
    }
    const [body, set, focusable] = parts;
    row.append(...[body, about, trouble].filter(Boolean));
    if (focusable && about) focusable.setAttribute('aria-describedby', about.id);
    controls.set(field.key, {
      row, set, focus: () => (focusable ?? row).focus(),
      trouble: sentences => {
        showIn(trouble, sentences);
        row.classList.toggle('wrong', sentences.length > 0);
        if (!focusable) return;
        if (sentences.length > 0) focusable.setAttribute('aria-invalid', 'true');
        else focusable.removeAttribute('aria-invalid');
        focusable.setAttribute('aria-describedby', [about?.id, sentences.length > 0 ? trouble.id : ''].filter(Boolean).join(' '));
      },
    });
    return row;
  }

  const shapeOf = (groups, head) => JSON.stringify([head.key, view.second, head.shape, groups.map(({key, fields}) => [key, fields.map(field => [
    field.key, field.kind, field.isFirst, field.kind === 'group' && field.value === undefined, field.names,
    ['texts', 'list'].includes(field.kind) ? (Array.isArray(field.value) ? field.value.length : -1) : 0,
    field.refers === 'drills' ? field.value : 0])])]);

  return {
    /** Shows groups of fields under a head of the caller's, {key, nodes}. */
    show(groups, head, languages) {
      view = languages;
      const fields = groups.flatMap(group => group.fields);
      const next = shapeOf(groups, head);
      if (next === shape) {
        root.querySelector('h2').textContent = head.title;
        fields.forEach(field => controls.get(field.key)?.set?.(field.value));
        return;
      }
      const held = root.contains(document.activeElement) ? document.activeElement.closest('[data-key]')?.dataset.key : undefined;
      const top = root.scrollTop;
      const isSameHead = shape !== '' && JSON.parse(shape)[0] === head.key;
      shape = next;
      headKey = head.key;
      controls = new Map();
      if (head.trouble) controls.set(head.key, {row: head.trouble, trouble: sentences => showIn(head.trouble, sentences), focus: () => {}});
      root.replaceChildren(...head.nodes, ...groups.map(({title, fields: own}) => make('section', {class: 'group'},
        make('h3', {text: say(title)}), make('div', {class: 'fields'}, own.map(rowOf)))));
      fields.forEach(field => controls.get(field.key)?.set?.(field.value));
      root.scrollTop = isSameHead ? top : 0;
      if (held) controls.get(held)?.focus();
    },
    /** `problems`: [{key, sentence}]; each goes to its field or the nearest one around it. */
    trouble(problems) {
      const by = new Map();
      for (const {key, sentence} of problems) {
        let at = key;
        while (!controls.get(at)?.trouble && /[.[]/.test(at)) at = at.replace(/(\.[^.[\]]*|\[\d+\])$/, '');
        const place = controls.get(at)?.trouble ? at : headKey;
        by.set(place, [...(by.get(place) ?? []), sentence]);
      }
      for (const [key, one] of controls) one.trouble?.(by.get(key) ?? []);
    },
    /** Goes to a field, or the nearest one around it. */
    goTo(key) {
      let at = key;
      while (!controls.has(at) && /[.[]/.test(at)) at = at.replace(/(\.[^.[\]]*|\[\d+\])$/, '');
      const one = controls.get(at);
      if (!one) return false;
      one.row.scrollIntoView({block: 'center'});
      one.focus();
      return true;
    },
    forget() { shape = ''; },
  };
}

export {smallest};
