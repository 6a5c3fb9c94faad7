import { describe, expect, test } from 'vitest';
import { SYMPTOMS } from '#engine/catalogue.ts';
import { hearOpening } from '#hearing/opening.ts';
import { accuracyOf } from './accuracy.ts';
import { catalogue, load, openings } from './load.ts';

const prepared = openings();
const tables = {
  tuned: load<Record<string, string[]>>('openings.yaml'),
  aside: load<Record<string, string[]>>('openings-aside.yaml'),
};

// Floors lie a little under what is measured, so that a worse ear is noticed and a rewording is not.
describe.each([
  { set: 'tuned on', file: 'openings.yaml', right: 0.97, offered: 0.99, sure: 0.65, sureRight: 0.995 },
  { set: 'set aside', file: 'openings-aside.yaml', right: 0.94, offered: 0.97, sure: 0.65, sureRight: 0.98 },
])('openings $set', ({ file, ...floor }) => {
  const heard = accuracyOf(prepared, file);

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
    expect(heard.away / heard.storage).toBeLessThanOrEqual(0.01);
  });
});

test('every symptom has its openings in both sets, and none stands in both', () => {
  for (const table of Object.values(tables)) {
    expect(Object.keys(table).toSorted()).toEqual([...SYMPTOMS].toSorted());
    for (const texts of Object.values(table)) expect(texts.length).toBeGreaterThanOrEqual(8);
  }
  const tuned = new Set(Object.values(tables.tuned).flat());
  expect(
    Object.values(tables.aside)
      .flat()
      .filter(text => tuned.has(text)),
  ).toEqual([]);
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
