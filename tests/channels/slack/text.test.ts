import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cut, literal, mrkdwn, typed } from '#channels/slack/text.ts';

describe('our own texts', () => {
  test.each([
    ['**bold** and *word*', '*bold* and _word_'],
    ['run `a < b & *c*` now', 'run `a &lt; b &amp; *c*` now'],
    ['see [the page](https://a.example/?x=1&y=2)', 'see <https://a.example/?x=1&amp;y=2|the page>'],
    ['[mail](mailto:a@b.example)', '<mailto:a@b.example|mail>'],
    ['[no](javascript:alert(1))', '[no](javascript:alert(1))'],
    ['- one\n- two', '• one\n• two'],
    ['a*b and 3 * 4', 'a*b and 3 * 4'],
    ['5 > 3', '5 &gt; 3'],
    ['**bold**ly', 'boldly'],
  ])('%s', (text, drawn) => expect(mrkdwn(text)).toBe(drawn));

  test('in bold, what looks like a mark of Slack is none', () => {
    expect(mrkdwn('**R-1 ~gone~ <!here>**')).toBe('*R-1 ∼gone∼ &lt;!here&gt;*');
  });
});

/** Where Slack's own parser would begin a format, a mention, a link, a quote or a face. From Slack's page on formatting text. */
const MARKUP = /(?:^|[^\p{L}\p{N}])([*_~`])\S|<|>|^&gt;|:[a-z0-9_+-]*[a-z][a-z0-9_+-]*:/mu;

describe("people's words", () => {
  test.each([
    ['<!channel> <@U1>', '&lt;!channel&gt; &lt;@U1&gt;'],
    ['*bold* _it_ ~no~ `code`', '∗bold∗ ˍitˍ ∼no∼ ˋcodeˋ'],
    ['> quote', '› quote'],
    [':smile: at 12:30:45', '꞉smile: at 12:30:45'],
    ['C:\\my_file_name.txt', 'C:\\my_file_name.txt'],
    ['&lt;', '&amp;lt;'],
  ])('%s', (words, drawn) => expect(literal(words)).toBe(drawn));

  test('whatever they are, Slack finds no markup in them (S15)', () => {
    const marks = fc.constantFrom(
      '*',
      '_',
      '~',
      '`',
      '<',
      '>',
      '!',
      '@',
      '#',
      ':',
      '|',
      '&',
      'a',
      'B1',
      ' ',
      '\n',
      '.',
    );
    fc.assert(
      fc.property(fc.array(marks, { maxLength: 40 }), parts => {
        expect(literal(parts.join(''))).not.toMatch(MARKUP);
      }),
      { numRuns: 3000 },
    );
  });
});

describe('what somebody typed', () => {
  test.each([
    ['<@U0SELF> my pc &lt;clicks&gt; &amp; hums', 'my pc <clicks> & hums'],
    ['ask <@U2|bo> or <@U3> in <#C1|general>', 'ask @bo or @U3 in #general'],
    ['<!here> <!subteam^S1|@desk>', '@here @desk'],
    ['<https://a.example/x> and <http://b.example|b.example>', 'https://a.example/x and b.example'],
    ['<https://a.example/x|the page>', 'the page (https://a.example/x)'],
    ['<mailto:a@b.example|a@b.example>', 'a@b.example'],
    ['&amp;lt; stays', '&lt; stays'],
    ['a < b', 'a < b'],
  ])('%s', (text, words) => expect(typed(text, 'U0SELF')).toBe(words));

  test('any text comes back as it was typed, once Slack has escaped it', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), words => {
        const sent = words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
        expect(typed(sent, 'U0SELF')).toBe(words.trim());
      }),
    );
  });
});

test('a text that is cut never ends in half a character', () => {
  expect(cut('abcdef', 4)).toBe('abc…');
  expect(cut('ab💾cd', 4)).toBe('ab…');
  expect(cut('abcd', 4)).toBe('abcd');
});
