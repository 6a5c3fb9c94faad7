import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { html, trusted } from '#channels/web/html.ts';
import { marked, markedLine } from '#channels/web/marked.ts';

describe('our own texts', () => {
  test.each([
    ['**bold** and *word* and `code`', '<strong>bold</strong> and <em>word</em> and <code>code</code>'],
    [
      '[the desk](https://desk.example/a?b=1&c=2)',
      '<a href="https://desk.example/a?b=1&amp;c=2" rel="noreferrer noopener">the desk</a>',
    ],
    ['[call](tel:5550100)', '<a href="tel:5550100" rel="noreferrer noopener">call</a>'],
    [
      'a link that runs something stays text: [x](javascript:alert(1))',
      'a link that runs something stays text: [x](javascript:alert(1))',
    ],
    ['2*3*4 is no emphasis, nor is ** alone **', '2*3*4 is no emphasis, nor is ** alone **'],
    ['`**not bold**`', '<code>**not bold**</code>'],
    ['**a `b` c**', '<strong>a <code>b</code> c</strong>'],
    ['<b>&"quoted"\'', '&lt;b&gt;&amp;&quot;quoted&quot;&#39;'],
  ])('%s', (text, drawn) => {
    expect(markedLine(text).html).toBe(drawn);
  });

  test('paragraphs, line breaks and lists', () => {
    expect(marked('One\ntwo\n\nThree:\n- a\n- **b**\nafter').html).toBe(
      '<p>One<br>two</p><p>Three:</p><ul><li>a</li><li><strong>b</strong></li></ul><p>after</p>',
    );
  });
});

describe('text from anybody', () => {
  test('never becomes markup, whatever it is', () => {
    const hostile = fc.string({
      unit: fc.constantFrom(
        '<',
        '>',
        '&',
        '"',
        "'",
        '`',
        '*',
        '[',
        ']',
        '(',
        ')',
        '-',
        ' ',
        '\n',
        'a',
        'script',
        'onerror=',
      ),
    });
    fc.assert(
      fc.property(hostile, text => {
        const bare = marked(text).html.replace(/<\/?(p|br|ul|li|strong|em|code)>/g, '');
        expect(bare).not.toMatch(/[<>"']/);
        expect(html`<p title="${text}">${text}</p>`.html.replace(/^<p title="|">|<\/p>$/g, '')).not.toMatch(
          /[<>"']/,
        );
      }),
      { numRuns: 2000 },
    );
  });

  test('lists are joined, nothing stands for nothing, markup of ours passes', () => {
    expect(html`${['a', '<']}${null}${false}${undefined}${0}${trusted('<hr>')}`.html).toBe('a&lt;0<hr>');
  });
});
