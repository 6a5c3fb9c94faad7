/** Words that one flow has said tell nothing apart in the next; what they read on the way is looked at all the same. */
import { expect, test } from 'vitest';
import { check } from '#engine/check/check.ts';
import { RULES } from '#engine/check/rules.ts';
import { fixtures } from './fixture.ts';

const flow = (symptom: string, second: string) => `
  - symptom: ${symptom}
    steps:
      - { id: a, ask: Which?, answers: { x: The one, y: The other } }
      - { id: b, ask: How?, answers: { p: So, q: Otherwise }${second} }
      - { id: c, ask: And?, answers: { m: This, n: That } }
      - visit: words
      - hand_over: {}`;

test.each([
  ['{ a: y, b: p }', 1],
  ['{ a: x, b: p }', 0],
  ['{ b: p }', 1],
  ['{ any: [{ a: x }, { b: p }] }', 1],
  ['{ all: [{ a: y }, { not: { b: p } }] }', 1],
])('said if %s by a flow that always asks, and then by one that asks b only of x', (when, unset) => {
  const document = `
blocks:
  words: { about: words, steps: [{ say: Some words., if: ${when} }] }
flows:${flow('drive-slow', '')}${flow('files-corrupt', ', if: { a: x }')}
`;
  const [{ compiled, catalogue }] = fixtures(document) as [ReturnType<typeof fixtures>[number]];
  const rules = RULES.filter(({ name }) => name === 'conditions-set');
  const [first, second] = compiled as [(typeof compiled)[0], (typeof compiled)[0]];
  for (const flows of [[second], [first, second], [second, first]]) {
    const { broken } = check(flows, catalogue, { rules });
    expect(broken.map(({ flow: at, message }) => `${at}: ${message}`)).toHaveLength(unset);
  }
});
