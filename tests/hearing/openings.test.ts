import { describe, expect, test } from 'vitest';
import { SYMPTOMS } from '#engine/catalogue.ts';
import { hearOpening } from '#hearing/opening.ts';
import { accuracyOf } from './accuracy.ts';
import { catalogue, openings } from './load.ts';
import { aside, languages, languagesAside, tuned } from './methods/corpus.ts';

const prepared = openings();
const parts = {
  tuned: tuned(),
  aside: aside(),
  languages: languages(),
  languagesAside: languagesAside(),
};

// Floors lie a little under what is measured, so that a worse ear is noticed and a rewording is not.
describe.each([
  { part: 'tuned', right: 0.98, offered: 0.99, sure: 0.65, sureRight: 0.995, away: 0.005 },
  { part: 'aside', right: 0.96, offered: 0.985, sure: 0.68, sureRight: 0.985, away: 0.01 },
  { part: 'languages', right: 0.97, offered: 0.98, sure: 0.3, sureRight: 0.98, away: 0.04 },
  { part: 'languagesAside', right: 0.9, offered: 0.93, sure: 0.3, sureRight: 0.98, away: 0.04 },
] as const)('openings $part', ({ part, ...floor }) => {
  const heard = accuracyOf(prepared, parts[part]);

  test('most are named at once, nearly all are at least offered', () => {
    expect(heard.right / heard.cases).toBeGreaterThanOrEqual(floor.right);
    expect(heard.offered / heard.cases).toBeGreaterThanOrEqual(floor.offered);
  });
  test('sure is said often, and hardly ever wrongly', () => {
    expect(heard.sure / heard.cases).toBeGreaterThanOrEqual(floor.sure);
    expect(heard.sureRight / heard.sure).toBeGreaterThanOrEqual(floor.sureRight);
  });
  test('no matter of storage is surely turned away, and hardly one at all', () => {
    expect(heard.awaySure).toBe(0);
    expect(heard.away / heard.storage).toBeLessThanOrEqual(floor.away);
  });
});

test('there are two thousand openings and every symptom in each part, a third is set aside, and none stands in two parts', () => {
  const all = Object.values(parts).flat();
  expect(parts.tuned.length + parts.aside.length).toBeGreaterThanOrEqual(2000);
  expect(parts.aside.length).toBeGreaterThanOrEqual(2000 / 3);
  expect(parts.languages.length + parts.languagesAside.length).toBeGreaterThanOrEqual(300);
  for (const cases of Object.values(parts))
    expect(new Set(cases.map(({ symptom }) => symptom))).toEqual(new Set(SYMPTOMS));
  const plain = all.map(({ text }) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, ''));
  expect(plain.filter((text, at) => text !== '' && plain.indexOf(text) !== at)).toEqual([]);
});

test('the catalogue names every symptom and no other', () => {
  expect(Object.keys(catalogue.symptoms).toSorted()).toEqual([...SYMPTOMS].toSorted());
  for (const { symptom } of Object.values(catalogue.screenMessages)) expect(SYMPTOMS).toContain(symptom);
});

test.each([
  'hello',
  'Hi',
  'help',
  'help!',
  'I need help',
  'good morning',
  'Hallo',
  'bonjour',
  'hola',
  'hi there, can someone help me please',
  'test',
  '',
  '   ',
  '?',
  '...',
  'thanks',
])('%j names nothing, and nobody is told that it is not about storage', text => {
  expect(hearOpening(prepared, text)).toMatchObject({
    symptom: null,
    sure: false,
    candidates: [],
    greeting: true,
  });
});

test.each([
  ['my laptop is slow and now it makes a clicking noise', 'drive-noise'],
  ['disk full, and the raid controller beeps that a disk has failed', 'raid-alarm'],
  ['it is NOT clicking, just slow', 'drive-slow'],
  ['no noise at all but the usb stick is not recognised', 'drive-missing-usb'],
])('%s', (text, symptom) => {
  expect(hearOpening(prepared, text).symptom).toBe(symptom);
});
