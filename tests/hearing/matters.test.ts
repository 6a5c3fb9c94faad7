import { describe, expect, test } from 'vitest';
import { otherMatters } from '#hearing/matters.ts';
import { hearOpening } from '#hearing/opening.ts';
import { openings } from './load.ts';

const prepared = openings();

describe('two matters in one message: the dangerous one is first, the other is kept', () => {
  test.each([
    ['P: is gone and my external hard drive is clicking', 'drive-noise', 'share-missing', 'P: is gone'],
    ['C: is full, and the raid is degraded', 'raid-alarm', 'disk-full', 'C: is full'],
    [
      'My laptop is very slow. Also the NAS beeps and shows a red light',
      'raid-alarm',
      'drive-slow',
      'My laptop is very slow',
    ],
    [
      'I deleted a folder on the share, and my usb stick is not recognised',
      'files-lost',
      'drive-missing-usb',
      'my usb stick is not recognised',
    ],
    [
      'my laptop is very slow and also i cannot open the G drive',
      'drive-slow',
      'share-missing',
      'i cannot open the G drive',
    ],
  ])('%s', (text, first, second, words) => {
    expect(hearOpening(prepared, text).symptom).toBe(first);
    expect(otherMatters(prepared, text, first)).toEqual([{ symptom: second, words }]);
  });
});

test.each([
  'my disk is clicking',
  'it is NOT clicking, just slow',
  'the drive clicks and my laptop is slow',
  'my pc is slow and the disk is at 100%',
  'laptop will not boot, no boot device found. It says no operating system',
  'my usb stick is write protected and the printer does not print',
  'my c drive is full and now my laptop is very slow',
  'my external drive clicks and the pictures on it cannot be opened',
  'my laptop says no bootable device found, and I left a usb stick in it',
  'hello and thanks',
  '',
])('%j is one matter', text => {
  expect(otherMatters(prepared, text, hearOpening(prepared, text).symptom ?? '')).toEqual([]);
});
