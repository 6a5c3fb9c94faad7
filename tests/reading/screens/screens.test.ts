/** Photos of screens, rendered here: read, recognised, covered. The long run over every kind is `npm run reading`. */
import { readdirSync } from 'node:fs';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { preparePhotos, seenOn } from '#hearing/photo.ts';
import { secretsIn } from '#hearing/photo-secrets.ts';
import type { Picture } from '#reading/screens/read.ts';
import { type ScreenReader, screenReader } from '#reading/screens/reader.ts';
import { linesOf } from '#reading/screens/words.ts';
import { catalogue, openings } from '../../hearing/load.ts';
import { draw } from './draw.ts';
import { KINDS, picture } from './pictures.ts';
import { SHOWN } from './shown.ts';

const photos = preparePhotos(catalogue.screenMessages);
const { codes } = openings();
const logged: string[] = [];
let reader: ScreenReader;
beforeAll(() => {
  reader = screenReader({ log: event => logged.push(event) });
});
afterAll(() => reader.close());

const textOf = async (sent: Picture) => linesOf((await reader.read(sent)) ?? []);
const seen = async (sent: Picture) => seenOn(photos, codes, await textOf(sent))?.id ?? null;

describe('a screen is recognised in a picture that is', () => {
  // A different screen for every kind; what is left out is as easy as another.
  const kinds = KINDS.filter(kind => !['plain', 'small', 'blurred', 'far'].includes(kind));
  test.each(kinds.map((kind, at) => ({ kind, at: (at * 2 + 1) % SHOWN.length })))(
    '$kind',
    async ({ kind, at }) => {
      const { shown, picture: sent } = await picture(kind, at);
      expect(await seen(sent)).toBe(shown.id);
    },
  );
});

test('nothing is recognised where no message is', async () => {
  const { shown, picture: sent } = await picture('small', SHOWN.length);
  expect(shown.id).toBeNull();
  expect(await seen(sent)).toBeNull();
});

describe('a key on a picture', () => {
  const KEY = ['263956-418737-029381-564102-', '117458-330924-681723-904511'];
  const shown = {
    id: null,
    style: 'dialog',
    lines: ['Your recovery key:', ...KEY, 'Keep it in a safe place'],
  } as const;

  test.each(['image/png', 'image/jpeg', 'image/webp'] as const)(
    'is gone from the file that is kept: %s',
    async type => {
      const png = draw({ ...shown, lines: [...shown.lines] }, false);
      const content = await sharp(png)
        .toFormat(type === 'image/png' ? 'png' : type === 'image/jpeg' ? 'jpeg' : 'webp')
        .toBuffer();
      const words = (await reader.read({ type, content }))!;
      const secret = secretsIn(words);
      expect(secret.map(at => words[at]!.text).join('')).toBe(KEY.join(''));
      const covered = (await reader.cover(
        { type, content },
        secret.map(at => words[at]!.box),
      ))!;
      const left = await textOf(covered);
      expect(left).not.toMatch(/\d{3}/);
      expect(left).toContain('safe place');
      // Black is where the key was: the words' own places, found by somebody else's decoder.
      const { data, info } = await sharp(covered.content)
        .removeAlpha()
        .raw()
        .toBuffer({ resolveWithObject: true });
      expect([info.width, info.height]).toEqual([1280, 720]);
      for (const { x, y, width, height } of secret.map(at => words[at]!.box))
        expect(data[((y + (height >> 1)) * info.width + x + (width >> 1)) * 3]).toBeLessThan(12);
    },
  );
});

describe('the reader', () => {
  test('says nothing of what is no picture, and goes on', async () => {
    const content = new TextEncoder().encode('no picture at all');
    expect(await reader.read({ type: 'image/png', content })).toBeNull();
    const broken = draw(SHOWN[0]!, false).subarray(0, 4000);
    expect(await reader.read({ type: 'image/png', content: broken })).toBeNull();
  });

  test('opens no picture that would fill the memory', async () => {
    const black = sharp({ create: { width: 9000, height: 9000, channels: 3, background: '#000' } });
    const content = await black.png({ compressionLevel: 9 }).toBuffer();
    expect(await reader.read({ type: 'image/png', content })).toBeNull();
  });

  test('writes nothing beside the program', () => {
    expect(readdirSync('.').filter(name => name.includes('traineddata'))).toEqual([]);
    expect(logged).toEqual([]);
  });

  test('that hangs or dies is begun anew for the next picture', async () => {
    const told: unknown[] = [];
    const thread = new URL('./stubborn-thread.ts', import.meta.url);
    const stubborn = screenReader({ thread, patience: 700, log: (_, { why }) => told.push(why) });
    const content = new Uint8Array([1]);
    expect(await stubborn.read({ type: 'image/png', content })).toBeNull();
    expect(await stubborn.read({ type: 'image/jpeg', content })).toEqual([]);
    expect(await stubborn.read({ type: 'image/jpeg', content: new Uint8Array() })).toBeNull();
    expect(await stubborn.read({ type: 'image/jpeg', content })).toEqual([]);
    expect(told).toEqual(['it took too long', 'the thread ended']);
    await stubborn.close();
    await expect(stubborn.read({ type: 'image/jpeg', content })).rejects.toThrow('ended');
  });
});
