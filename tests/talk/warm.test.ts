import { expect, test } from 'vitest';
import { warm } from '#talk/warm.ts';
import { knowledge } from '../support/knowledge.ts';

test('every flow that people can come to is made ready, and nothing is changed by it', () => {
  const before = JSON.stringify(Object.keys(knowledge.flows));
  const warmed = [...warm(knowledge)];
  expect(warmed).toEqual(Object.keys(knowledge.flows).filter(flow => flow in knowledge.catalogue.symptoms));
  expect(warmed.length).toBeGreaterThan(15);
  expect(JSON.stringify(Object.keys(knowledge.flows))).toBe(before);
});
