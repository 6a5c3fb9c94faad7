import { describe, expect, it } from 'vitest';
import { thingOf } from '#tickets/thing.ts';
import { site as small } from './sample.ts';

const site = {
  ...small,
  shares: [
    ...small.shares!,
    {
      id: 'lab',
      letter: 'M:',
      path: String.raw`\\lab\runs`,
      about: 'the running measurements',
      owner: 'the head of the laboratory',
      shared: true,
      time_critical: true,
    },
  ],
};
const of = (texts: string[], more?: Parameters<typeof thingOf>[3], symptom = 'share-missing') =>
  thingOf(site, symptom, texts, more);

describe('what a report is about, where site.yaml marks it', () => {
  it.each([
    'S: is gone',
    'the s drive',
    'drive S has a red cross',
    String.raw`\\FILES\accounts is not found`,
  ])('is heard from %s', text => expect(of([text])).toBe('the accounts folder'));

  it('is the share that was picked from the list, whatever else is mentioned', () => {
    expect(of(['S: is gone'], { chosen: 'attic' })).toBeNull();
    expect(of(['it is gone'], { chosen: 'accounts' })).toBe('the accounts folder');
    expect(of(['S: is gone'], { chosen: 'another' })).toBe('the accounts folder');
  });

  it('is nothing when a shared place works for others, and something that cannot wait all the same', () => {
    expect(of([], { chosen: 'accounts', others: 'fine' })).toBeNull();
    expect(of([], { chosen: 'accounts', others: 'hit' })).toBe('the accounts folder');
    expect(of([], { chosen: 'lab', others: 'fine' })).toBe('the running measurements');
  });

  it('is nothing when one person is refused, and the place when others are too', () => {
    expect(of([], { chosen: 'accounts' }, 'share-denied')).toBeNull();
    expect(of([], { chosen: 'accounts', others: 'hit' }, 'share-denied')).toBe('the accounts folder');
  });

  it('is nothing when a file on it is missed', () => {
    expect(of(['a file on S: is gone'], {}, 'files-lost')).toBeNull();
  });
});
