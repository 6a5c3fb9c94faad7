/** Messages, error numbers and secrets in what was read off a photo, however badly. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hearOpening } from '#hearing/opening.ts';
import { preparePhotos, seenOn } from '#hearing/photo.ts';
import { secretsIn } from '#hearing/photo-secrets.ts';
import { catalogue, load, openings } from './load.ts';

const photos = preparePhotos(catalogue.screenMessages);
const prepared = openings();
const { codes } = prepared;
const seen = (text: string) => seenOn(photos, codes, text);

describe('a message on a screen is recognised', () => {
  test.each([
    [
      'letters taken for figures',
      'N0 b00tab1e device -- 1nsert b0ot disk and press any kev',
      'no-boot-device',
    ],
    ['without its gaps', 'Rebootand Selectproper Bootdevice', 'select-boot-device'],
    ['broken into lines', 'A disk read\nerror occurred\nPress Ctrl+Alt+Del', 'disk-read-error'],
    ['rn for m', 'Missing operating systern', 'no-operating-system'],
    ['underscores lost', 'Stop code: INACCESSIBLE BOOT DEVICE', 'inaccessible-boot-device'],
    [
      'amid other text',
      'Wed 25 Nov 8 | ata2: EH cornplete\nBuffer l/O error on dev sdb1, logical block',
      'linux-io-error',
    ],
    [
      'a name in the middle',
      'You need to forrnat the disk in drive E: before you can use lt.',
      'needs-format',
    ],
  ])('%s', (_, text, id) => {
    expect(seen(text)?.id).toBe(id);
  });

  test('and said back as it is known', () => {
    const verbatim = 'No bootable device';
    expect(seen('System 2\nN0 bootable\ndevice --')).toEqual({ id: 'no-boot-device', verbatim });
  });

  test('and said back as it was read where a name stands in it', () => {
    expect(seen('You need to format the\ndisk in drive E: before you can use it.')).toEqual({
      id: 'needs-format',
      verbatim: 'You need to format the disk in drive E: before you can use it',
    });
  });
});

describe('an error number is recognised', () => {
  test.each([
    ['O for 0', 'Error code: Ox8OO70035', 'error-53', 'Error code: 0x80070035'],
    ['B for 8', 'Error code: 0xB0070035', 'error-53', 'Error code: 0x80070035'],
    ['S for 5', 'System error S3 has occurred.', 'error-53', 'System error 53'],
    ['l for 1, o for 0', 'Stop code 0xc00000oe', 'start-c000000e', '0xC000000E'],
  ])('%s', (_, text, id, verbatim) => {
    expect(seen(text)).toEqual({ id, verbatim });
  });

  test('only when it is one that is known', () => {
    expect(seen('Error code: 0x12345678')).toBeNull();
    expect(seen('lot 0xAB, error of 12 mm')).toBeNull();
  });
});

test('in what people write about other things nothing is recognised but what stands there', () => {
  const { 'not-storage': others } = load<Record<string, string[]>>('openings.yaml');
  const wrong = others!.filter(text => {
    const found = seen(text);
    // "Access denied on the supplier's web page" does have a message in it.
    return found !== null && hearOpening(prepared, text).screen?.id !== found.id;
  });
  expect(wrong).toEqual([]);
});

test('any text is taken, and what is said back stands in it or in the catalogue', () => {
  const pieces = fc.constantFrom(
    'boot',
    ' device',
    'rn',
    '0x8',
    '|',
    'is missing',
    '*',
    '\n',
    '🙂',
    'BOOTMGR',
    'ﬀ',
    'İ',
  );
  fc.assert(
    fc.property(fc.array(fc.oneof(pieces, fc.string()), { maxLength: 40 }), parts => {
      const text = parts.join('');
      const found = seen(text);
      const known = found === null ? undefined : catalogue.screenMessages[found.id];
      if (known && !known.texts.includes(found!.verbatim))
        expect(text.replace(/\s+/g, ' ')).toContain(found!.verbatim);
    }),
  );
});

const words = (text: string) =>
  text.split('\n').flatMap((line, at) => line.split(' ').map(word => ({ text: word, line: at })));
const covered = (text: string) => {
  const all = words(text);
  return secretsIn(all)
    .map(at => all[at]!.text)
    .join(' ');
};

describe('of a picture', () => {
  const KEY = '263956-418737-029381-564102 117458-330924-681723-904511';

  test('a recovery key is covered', () => {
    expect(covered(`Recovery key:\n${KEY}\nKeep it safe`)).toBe(KEY);
  });

  test('a recovery key is covered although some of it was read badly', () => {
    const bad = '26395b-4187E7- O29381-56~102\n117458-330924- 681l23-904511';
    expect(covered(`Your key\n${bad}`).replaceAll(' ', '')).toBe(bad.replaceAll(/\s/g, ''));
  });

  test('half a recovery key is covered, one on four lines too', () => {
    expect(covered('263956-418737-029381-564102')).toBe('263956-418737-029381-564102');
    expect(covered('key\n263956 418737\n029381 564102\n117458 330924')).toBe(
      '263956 418737 029381 564102 117458 330924',
    );
  });

  test('a password is covered, and what stands before it stays', () => {
    expect(covered('User: ada\nPassword: Tr0ub4dor&3\nDomain: office')).toBe('Tr0ub4dor&3');
  });

  test('the identifier of a key, numbers of parts and sectors stay', () => {
    expect(covered('Recovery key ID: 5B2C9F4E-77D1-4A60-9C3B-0E8812AF6D01')).toBe('');
    expect(covered('S/N 123456 dev sda, sector 976773\nerror at 976768')).toBe('');
  });
});
