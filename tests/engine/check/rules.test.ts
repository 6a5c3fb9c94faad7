import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { check } from '#engine/check/check.ts';
import { RULES } from '#engine/check/rules.ts';
import { fixtures } from './fixture.ts';

const FOLDER = new URL('../../../src/engine/check/rules/', import.meta.url);
const FILES = ['avoid.yaml', 'prefer.yaml', 'rule.ts', 'why.md'];
const folders = readdirSync(FOLDER).sort();
const read = (rule: string, file: string) => readFileSync(new URL(`${rule}/${file}`, FOLDER), 'utf8');

describe('the rules', () => {
  it('are the folders, each with the same files', () => {
    expect(RULES.map(({ name }) => name).sort()).toEqual(folders);
    for (const folder of folders)
      expect([folder, readdirSync(new URL(folder, FOLDER)).sort()]).toEqual([folder, FILES]);
  });
});

describe('flows with the same questions', () => {
  const one = (symptom: string) =>
    `{ symptom: ${symptom}, steps: [{ id: again, try: Look again., effect: none, minutes: 1, fixed: cable-loose }, { hand_over: {} }] }`;
  const rule = RULES.filter(({ name }) => name === 'fixed-when-seen');

  it.each([
    [['boot-no-os'], ['boot-no-os']],
    [['drive-slow', 'boot-no-os'], ['boot-no-os']],
    [['boot-no-os', 'drive-slow'], ['boot-no-os']],
    [['drive-slow'], []],
  ])('are each judged by what they are about: %j', (symptoms, wrong) => {
    const [{ compiled, catalogue }] = fixtures(`flows: [${symptoms.map(one).join(', ')}]`) as [
      ReturnType<typeof fixtures>[number],
    ];
    expect(check(compiled, catalogue, { rules: rule }).broken.map(({ flow }) => flow)).toEqual(wrong);
  });
});

describe.each(RULES)('$name', rule => {
  const { name } = rule;

  it.each(fixtures(read(name, 'avoid.yaml')).map((fixture, index) => [index + 1, fixture] as const))(
    'finds what is marked in flow %i to avoid, and nothing else there',
    (_, { compiled, catalogue, line, marked }) => {
      const { broken } = check(compiled, catalogue, { rules: [rule] });
      const lines = broken.map(found => line(found)).sort((a, b) => (a ?? 0) - (b ?? 0));
      expect(marked.length).toBeGreaterThan(0);
      expect([...new Set(lines)]).toEqual(marked);
    },
  );

  it.each(fixtures(read(name, 'prefer.yaml')).map((fixture, index) => [index + 1, fixture] as const))(
    'and every other rule lets flow %i to prefer pass',
    (_, { compiled, catalogue, line }) => {
      const { broken } = check(compiled, catalogue);
      expect(broken.map(found => [found.rule, line(found), found.message])).toEqual([]);
    },
  );

  it('says why', () => {
    expect(read(name, 'why.md')).toMatch(/^# .+\n\n.{80}/);
  });
});
