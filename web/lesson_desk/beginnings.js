// What an optional part of a file begins with when somebody asks for it: small, sensible, and good as it stands. Pure.
import {say} from './words.js';

const group = (operator, title) => ({lesson}) => ({title: {en: title}, operator, block: lesson?.blocks?.[0]?.id ?? ''});
const ownSeed = lesson => (Number.isInteger(lesson?.seed) ? lesson.seed + 1 : 1);

const BEGINNINGS = {
  'block.guide': ({known, lesson}) => ({sleeve: known.kits.find(({id}) => id === lesson?.kit)?.sleeves?.[0]?.id ?? ''}),
  'block.feedback': () => ({when: 'fading'}),
  'block.show': () => ({}),
  'block.specimen.jaw': ({known}) => ({case: known.cases[0]?.id ?? ''}),
  'block.specimen.foam': () => ({id: 'foam', halves: {first: 'D2', second: 'D4'}}),
  'block.worked_example': ({lesson}) => ({operator: 'expert', seed: ownSeed(lesson)}),
  'entry.retention': () => ({after_days: 7}),
  'lesson.criterion': () => ({rule: 'all-of', standard: {method: 'own-choice', source: {en: say('newStandard')}}}),
  'lesson.prediction': about => ({
    ask: 'bias-or-spread', holes: 8, seed: ownSeed(about.lesson),
    groups: [group('novice', say('newGroup', 1))(about), group('expert', say('newGroup', 2))(about)], afterwards: {en: say('newAfterwards')},
  }),
  'lesson.prediction.groups': about => group('trained', say('newGroup', 3))(about),
  'lesson.order': () => ({kind: 'shuffled'}),
  'lesson.device': () => ({allow: ['mouse', 'pen', 'touch', 'pad'], one_per_lesson: true}),
};

/** The value for a place, or undefined: then the smallest that the schema takes will do. */
export const beginningOf = (place, about) => BEGINNINGS[place]?.(about);
