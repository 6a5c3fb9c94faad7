import exifr from 'exifr';
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { clean, LARGEST_FILE } from '#reading/pictures/clean.ts';
import { kindOf } from '#reading/pictures/kind.ts';

/** As a phone writes it: where, when, with what, and turned on its side. */
const metadata = {
  IFD0: { Make: 'Maker', Model: 'Phone', DateTime: '2026:11:20 09:15:00' },
  IFD3: {
    GPSLatitudeRef: 'N',
    GPSLatitude: '51/1 30/1 0/1',
    GPSLongitudeRef: 'W',
    GPSLongitude: '0/1 7/1 0/1',
  },
};

async function photo(format: 'jpeg' | 'png' | 'webp', orientation = 6): Promise<Buffer> {
  const noise = Buffer.from(Array.from({ length: 40 * 30 * 3 }, (_, at) => (at * 37) % 256));
  return sharp(noise, { raw: { width: 40, height: 30, channels: 3 } })
    .withMetadata({ orientation })
    .withExifMerge(metadata)
    .withXmp(
      '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"/></x:xmpmeta>',
    )
    .toFormat(format, format === 'jpeg' ? { progressive: true } : { lossless: true })
    .toBuffer();
}

const pixels = (content: Uint8Array) => sharp(content).raw().toBuffer();
const here = (content: Uint8Array, words: string) => Buffer.from(content).includes(words);

describe.each(['jpeg', 'png', 'webp'] as const)('a %s picture from a phone', format => {
  test('loses place, time and device, and not a pixel', async () => {
    const given = await photo(format);
    expect((await sharp(given).metadata()).exif).toBeDefined();
    expect(here(given, 'Phone')).toBe(true);
    const kept = clean(given);
    if (!kept.ok) throw new Error(kept.why);
    const read = await sharp(kept.content).metadata();
    expect(read).toMatchObject({ format, width: 40, height: 30 });
    expect(read.xmp).toBeUndefined();
    expect(here(kept.content, 'Phone')).toBe(false);
    expect(here(kept.content, '2026')).toBe(false);
    expect(await pixels(kept.content)).toEqual(await pixels(given));
    expect(kept).toMatchObject({ type: `image/${format}`, width: 40, height: 30 });
  });

  test('once cleaned, cleaning changes nothing', async () => {
    const once = clean(await photo(format));
    if (!once.ok) throw new Error(once.why);
    expect(clean(once.content)).toMatchObject({ content: once.content });
  });
});

describe('a JPEG photo', () => {
  test('its place is read by an independent reader before, and by none after', async () => {
    const given = await photo('jpeg');
    expect(await exifr.gps(given)).toMatchObject({ latitude: 51.5 });
    const kept = clean(given);
    if (!kept.ok) throw new Error(kept.why);
    expect(await exifr.gps(kept.content)).toBeUndefined();
    const left = await exifr.parse(kept.content, { xmp: true, iptc: true, translateValues: false });
    expect(left).toEqual({ Orientation: 6 });
  });

  test('still stands the right way up', async () => {
    for (const orientation of [1, 3, 6, 8]) {
      const kept = clean(await photo('jpeg', orientation));
      if (!kept.ok) throw new Error(kept.why);
      expect((await sharp(kept.content).metadata()).orientation ?? 1).toBe(orientation);
    }
  });

  test('what stands behind its end, such as a second picture with a place, is left out', async () => {
    const given = Buffer.concat([await photo('jpeg'), await photo('jpeg')]);
    const kept = clean(given);
    if (!kept.ok) throw new Error(kept.why);
    expect(kept.content.length).toBeLessThan(given.length / 2);
  });
});

describe('what is no picture we can show', () => {
  const box = (brand: string) => Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from(`ftyp${brand}0000`)]);

  test.each([
    ['nothing', Buffer.alloc(0), 'empty'],
    ['a picture as some phones keep it', box('heic'), 'heic'],
    ['a page named .png', Buffer.from('<!doctype html><script>alert(1)</script>'), 'other'],
    ['a drawing with script', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" onload="x()"/>'), 'other'],
    ['a GIF', Buffer.from('GIF89a----------'), 'other'],
    [
      'the first bytes of a PNG alone',
      Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
      'broken',
    ],
    ['the first bytes of a JPEG alone', Buffer.from([0xff, 0xd8, 0xff]), 'broken'],
    ['more than 10 MB', Buffer.alloc(LARGEST_FILE + 1), 'too-large'],
  ])('%s', (_, content, why) => {
    expect(clean(content)).toEqual({ ok: false, why });
  });

  test('a picture cut off on its way is told to be broken', async () => {
    for (const format of ['jpeg', 'png', 'webp'] as const) {
      const whole = await photo(format);
      expect(clean(whole.subarray(0, whole.length - 20))).toEqual({ ok: false, why: 'broken' });
    }
  });

  test('any bytes at all get an answer, never an exception', async () => {
    const samples = await Promise.all((['jpeg', 'png', 'webp'] as const).map(format => photo(format)));
    fc.assert(
      fc.property(
        fc.constantFrom(...samples),
        fc.array(fc.tuple(fc.nat(), fc.nat(255)), { maxLength: 8 }),
        fc.nat(),
        (sample, changes, cut) => {
          const bytes = Uint8Array.from(sample.subarray(0, sample.length - (cut % sample.length)));
          for (const [at, byte] of changes) bytes[at % Math.max(1, bytes.length)] = byte;
          const result = clean(bytes);
          if (result.ok) expect(kindOf(result.content)).toBe(result.type);
        },
      ),
      { numRuns: 500 },
    );
  });
});
