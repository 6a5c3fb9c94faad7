import { expect, test } from 'vitest';
import { heardTogether } from '#talk/heard-together.ts';

const heard = (label: string, asked = '') => ({
  kind: 'say' as const,
  text: `${asked}From what you wrote: **${label}**. If that is wrong, say *back*.`,
});

test('what was heard for several questions running is said back in one breath', () => {
  expect(heardTogether([heard('A laptop'), heard('At home'), heard('Yes', 'Is it on? ')])).toEqual([
    {
      kind: 'say',
      text: 'From what you wrote: **A laptop**; **At home**; Is it on? **Yes**. If that is wrong, say *back*.',
    },
  ]);
});

test('other words stay where they are and apart', () => {
  const caution = { kind: 'caution' as const, id: 'c', text: 'Careful.' };
  const said = [heard('A laptop'), caution, heard('At home'), { kind: 'say' as const, text: 'Good.' }];
  expect(heardTogether(said)).toEqual(said);
});
