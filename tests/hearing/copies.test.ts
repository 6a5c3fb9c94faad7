/** The answer that decides what a drive is worth: only what somebody has looked at counts as a copy. Held against the shipped flows. */
import { describe, expect, test } from 'vitest';
import type { AskStep } from '#engine/script.ts';
import { hearAnswer } from '#hearing/answer.ts';
import { knowledge } from '../support/knowledge.ts';

const step = knowledge.flows['drive-noise']!.script.main.find(
  (each): each is AskStep => each.id === 'data-first.files',
)!;
const heard = (text: string) => hearAnswer(step, text);

describe('where else the files are', () => {
  test.each([
    'copy on my laptop, i looked just now',
    'all my stuff is on the server, seen it',
    'copy on the NAS checked',
    'my thesis is on a usb also i looked yesterday',
    'everything is on the P drive, i checked',
    'copy on the server, checked',
  ])('%s: seen', text => expect(heard(text)).toEqual({ value: { id: 'seen' } }));
  test.each([
    'icloud has everything',
    'everything on network drive',
    'on the server but i have not looked',
    'the files are on the Mac, this is only the backup',
    'all in git and pushed',
    'should be on the server, never checked',
    'i think onedrive',
    'yes',
  ])('%s: only believed', text => expect(heard(text)).toEqual({ value: { id: 'believed' } }));
  test.each([
    'last backup was in spring I think',
    'copy from last Sunday on my stick',
    'half of them are also on the server, the other half only there',
    "this week isn't backed up yet, the rest is on tape",
  ])('%s: only older, or in part', text => expect(heard(text)).toEqual({ value: { id: 'older' } }));
  test.each(['no other copy', 'no', 'only there', 'not backed up', 'nulle part ailleurs'])(
    '%s: nowhere',
    text => expect(heard(text)).toEqual({ value: { id: 'nowhere' } }),
  );
  test.each(["i haven't checked", 'the message came twice', 'the blue one'])('%s: asked again', text =>
    expect(heard(text)).toBeNull(),
  );
});
