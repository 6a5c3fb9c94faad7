import { describe, expect, test } from 'vitest';
import { otherMatters } from '#hearing/matters.ts';
import { hearOpening } from '#hearing/opening.ts';
import { catalogue, openings } from './load.ts';

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
      'My laptop is really slow since Monday. Besides, the H: drive is missing.',
      'drive-slow',
      'share-missing',
      'the H: drive is missing',
    ],
    ['the usb stick is write protected and C: is full', 'write-protected', 'disk-full', 'C: is full'],
    [
      'Two problems: 1) the raid is degraded. 2) my external drive is not recognised',
      'raid-alarm',
      'drive-missing-usb',
      'my external drive is not recognised',
    ],
    [
      "I can't get into the marketing share, access denied. Also my pc says C: is full.",
      'share-denied',
      'disk-full',
      'my pc says C: is full',
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
  'My usb stick is not recognised, and my laptop freezes when I plug it in.',
  'The Q: drive takes minutes, but my laptop is fast and the C: drive is fine.',
  'hello and thanks',
  '',
])('%j is one matter', text => {
  expect(otherMatters(prepared, text, hearOpening(prepared, text).symptom ?? '')).toEqual([]);
});

describe('a story is one matter, whichever of its parts it is taken for', () => {
  const symptoms = Object.keys(catalogue.symptoms);
  test.each([
    // Good news, with the word for something.
    'Since Monday my desktop PC shows "SMART failure predicted on hard disk 0, back up and replace". I press F1 and then Windows comes up normally, so I can still work. My scans (about 300 GB) are on drive D: and there is no other copy because they never fitted on the server.',
    'Opening any file from the Q: drive takes minutes since yesterday, the whole team has the same. Local files are fast.',
    // The cause, or what came of it.
    'The little network storage in our server cupboard sent me an email "Disk 2 temperature 61 C, system will shut down" at 13:10 and then it switched itself off. All the shared folders of accounts are on it, 12 people can\'t work. There is a nightly backup, last one ok tonight.',
    "I plugged in my backup disk (a 2 TB external USB drive) to my new laptop and it's asking me for a password or a recovery key. On the old laptop it just opened. The old laptop was handed back and I suppose it's been wiped. On the disk is the only copy of the series.",
    'I got a new docking station yesterday and since then my external drive (1 TB, spinning one) disconnects every few minutes, and this morning the folder "Grant 2026" is gone and the file manager says the "directory is corrupted and unreadable". Also the laptop has become dead slow when the drive is plugged in.',
    // The same thing in other words.
    'usb stick suddenly empty, 20GB files were there',
    'Since the move I can open all the files in our department folder (the P: drive, \\\\files\\procurement) but I can\'t save into it any more: it says "read-only" and wants me to save a copy elsewhere.',
    'The processor in my workstation is nearly used up apparently: the tool says "SSD life remaining 3%" in red. I do video editing so it gets written to a lot.',
    "This lunchtime I put the memory card back into the camera and pressed Format because I thought I had copied it already. I've taken the card out straight away, nothing has been written to it since.",
    "All my Word and Excel files on the shared drive have got a funny ending, .lockd or something, and when I click on them nothing opens. There's also a text file called READ_ME_TO_RESTORE in every folder.",
    "We keep the maps on an external hard disk (2 TB, about five years old) and since last week more and more of the pictures come up half grey or don't open at all. I haven't dropped it, though copying has got awfully slow. Some of the maps are on a second disk in the safe but that is from 2023.",
    'I built in more RAM myself this morning and now it says no boot disk. Put the old RAM back, same thing.',
  ])('%s', text => {
    for (const symptom of symptoms) expect(otherMatters(prepared, text, symptom), symptom).toEqual([]);
  });
});
