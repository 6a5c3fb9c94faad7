import { describe, expect, test } from 'vitest';
import { SYMPTOMS } from '#engine/catalogue.ts';
import { hearOpening } from '#hearing/opening.ts';
import { catalogue, openings } from './load.ts';

const prepared = openings();
const hear = (text: string) => hearOpening(prepared, text);

describe('the catalogue', () => {
  test('has phrases in four languages for every symptom', () => {
    for (const { also } of Object.values(catalogue.symptoms))
      expect(Object.keys(also ?? {}).sort()).toEqual(['de', 'es', 'fr']);
  });
  test('has at least sixty on-screen messages', () => {
    const messages = Object.values(catalogue.screenMessages);
    expect(messages.length).toBeGreaterThanOrEqual(60);
  });
  test('ranks danger over attack over mechanical, and leads each to its block and caution', () => {
    const said = Object.entries(catalogue.interrupts).map(([id, { rank, sign, block, caution }]) => [
      id,
      rank,
      sign,
      block,
      caution,
    ]);
    expect(said).toEqual([
      ['danger', 3, 'danger', 'danger', 'danger-first'],
      ['attack', 2, 'attack', 'attack', 'attack-first'],
      ['mechanical', 1, 'mechanical', 'mechanical', 'mechanical-first'],
    ]);
  });
});

describe('an opening', () => {
  test.each([
    ['not slow, but it clicks', 'drive-noise'],
    ['my pc is slow and the hard disk is clicking', 'drive-noise'],
    ['the disk is full and the raid is degraded', 'raid-alarm'],
    ['very slow, and windows says SMART failure predicted', 'health-warning'],
    ['MY USB STICK IS NOT RECOGNIZED', 'drive-missing-usb'],
    ['my usbstick isnt recogniezd', 'drive-missing-usb'],
    ['S: drive red x', 'share-missing'],
    ['the server is off, no team folder', 'share-missing'],
    ['mein Rechner ist sehr langsam', 'drive-slow'],
    ["ma clé usb n'est pas reconnue", 'drive-missing-usb'],
    ['acceso denegado a la carpeta', 'share-denied'],
    ['my printer is out of memory', 'not-storage'],
    ['I need to drive to the airport', 'not-storage'],
    ['how do I share my screen?', 'not-storage'],
    ['screen share is black', 'not-storage'],
    [
      'when I share my screen in the video call the others only see black, it worked last week',
      'not-storage',
    ],
    ["My mails since yesterday don't go out, they hang in the outbox. Receiving works.", 'not-storage'],
    ['my memory stick went through the washing machine', 'drive-missing-usb'],
    ['my external disk asks for a password', 'drive-missing-usb'],
    ['the external USB disk asks for a recovery key', 'drive-missing-usb'],
    [
      "I plugged in my backup disk (a 2 TB external USB drive) to my new laptop and it's asking me for a password or a recovery key",
      'drive-missing-usb',
    ],
    ['I formatted my memory card by mistake and want the pictures back', 'files-lost'],
    ['put the card back into the camera and pressed Format, can the photos be got back', 'files-lost'],
    ['the computer wants to format the card with the pictures on it', 'files-corrupt'],
    ['it says 0xc000000f', 'boot-no-os'],
    ['0x80070035', 'share-missing'],
  ])('%s: %s', (text, symptom) => expect(hear(text).symptom).toBe(symptom));

  test('that names nothing known is offered as something else, never surely', () => {
    expect(hear('the zebra crossing needs new stripes please')).toMatchObject({
      symptom: 'not-storage',
      sure: false,
    });
  });
  test('leaves it open whether the computer or the stick wants its key', () => {
    const { sure, candidates } = hear('laptop asks for the recovery key since I plugged in my usb stick');
    expect(sure).toBe(false);
    expect(candidates).toEqual(expect.arrayContaining(['boot-recovery-key', 'drive-missing-usb']));
  });
  test('of a stick that wants its key is about the stick', () => {
    const { ranked } = hear('my usb stick is encrypted and asks for the recovery key on the new pc');
    expect(ranked[0]?.symptom).toBe('drive-missing-usb');
  });
  test('with storage in it is not surely turned away', () => {
    expect(hear('my printer and my usb stick do not show up').sure).toBe(false);
  });
  test('ranks all symptoms, likeliest first, with scores that add up to one', () => {
    const { ranked, symptom } = hear('the d drive is gone');
    expect(ranked.map(one => one.symptom).sort()).toEqual([...SYMPTOMS].sort());
    expect(ranked.map(one => one.score)).toEqual(ranked.map(one => one.score).sort((a, b) => b - a));
    expect(ranked.reduce((sum, { score }) => sum + score, 0)).toBeCloseTo(1, 9);
    expect(ranked[0]!.symptom).toBe(symptom);
  });
  test('offers two or three when not sure, the first of them the likeliest', () => {
    const { sure, candidates, symptom } = hear('it does not work, the drive');
    expect(sure).toBe(false);
    expect([2, 3]).toContain(candidates.length);
    expect(candidates[0]).toBe(symptom);
  });
  test('offers none when sure', () => {
    expect(hear('my usb stick is not recognised')).toMatchObject({ sure: true, candidates: [] });
  });
  test('is heard the same way every time', () => {
    expect(hear('laptop clicks and is slow')).toEqual(hear('laptop clicks and is slow'));
    expect(hearOpening(openings(), 'laptop clicks')).toEqual(hear('laptop clicks'));
  });
});
