import { describe, expect, test } from 'vitest';
import { fileName } from '#channels/file-name.ts';
import { alwaysOf, pressOf, textOf, writtenAt } from '#channels/web/inbound.ts';

const from = { chat: 'web:abcdefghij', now: 500, digest: (text: string) => String(text.length) };
const id = 'abcdefgh-1';

describe('a form as something said', () => {
  test('sent again under its id it is the same happening', () => {
    expect(textOf({ id, text: 'hi' }, from)?.identity).toBe(textOf({ id, text: 'hi' }, from)?.identity);
  });

  test('other words under an old id, from a page the browser kept, are something new', () => {
    expect(textOf({ id, text: 'hi' }, from)?.identity).not.toBe(
      textOf({ id, text: 'hello' }, from)?.identity,
    );
  });

  test('the same id from another chat is something else', () => {
    const other = { ...from, chat: 'web:other' };
    expect(textOf({ id, text: 'hi' }, from)?.identity).not.toBe(textOf({ id, text: 'hi' }, other)?.identity);
  });

  test('line ends are the same from every browser', () => {
    expect(textOf({ id, text: 'a\r\nb' }, from)).toMatchObject({ text: 'a\nb' });
  });

  test.each([
    ['no id', () => textOf({ text: 'hi' }, from)],
    ['an id that is none', () => textOf({ id: '../../x', text: 'hi' }, from)],
    ['no text', () => textOf({ id }, from)],
    ['two texts', () => textOf({ id, text: ['a', 'b'] }, from)],
    [
      'a question that is no number',
      () => pressOf({ id, conversation: 'c', question: 'x', answer: 'a' }, from),
    ],
    ['no answer', () => pressOf({ id, conversation: 'c', question: '1' }, from)],
    ['a standing word that is none', () => alwaysOf({ id, what: 'delete' }, from)],
    ['back to nowhere', () => alwaysOf({ id, what: 'back', to: '1e999' }, from)],
  ])('%s is no inbound', (_, made) => {
    expect(made()).toBeNull();
  });

  test('back to an earlier question carries its number', () => {
    expect(alwaysOf({ id, what: 'back', to: '4' }, from)).toMatchObject({
      kind: 'always',
      what: 'back',
      to: 4,
    });
    expect(alwaysOf({ id, what: 'back' }, from)).not.toHaveProperty('to');
  });
});

describe('when a text was written', () => {
  const current = { id: 'c1', askedNumber: 5, askedAt: 400 };
  test.each([
    ['the newest question was on the page', 'c1:5', 500],
    ['the page had not seen the newest question yet', 'c1:4', 399],
    ['the page showed an earlier matter', 'c0:9', 500],
    ['nothing was asked yet', '', 500],
    ['nonsense', 'c1:-1', 500],
  ])('%s', (_, seen, at) => {
    expect(writtenAt(seen, current, 500)).toBe(at);
  });
});

test.each([
  ['C:\\Users\\me\\IMG 1.jpg', 'IMG 1.jpg'],
  ['../../etc/passwd', 'passwd'],
  ['a\u202egnp.exe\u0000', 'agnp.exe'],
  ['', 'file'],
  ['\ud83d\udcf7'.repeat(100), '\ud83d\udcf7'.repeat(80)],
])('a file called %j is shown as %j', (given, shown) => {
  expect(fileName(given)).toBe(shown);
});
