import { expect, test } from 'vitest';
import { mrkdwn } from '#channels/slack/text.ts';
import { markdown } from '#channels/teams/markdown.ts';
import { quote } from '#talk/quote.ts';

test('a file is called what it is called', () => {
  expect(quote('READ_ME_TO_RESTORE in every folder')).toBe('“READ_ME_TO_RESTORE in every folder”');
  expect(mrkdwn(quote('a READ_ME_TO_RESTORE'))).toBe('“a READ_ME_TO_RESTORE”');
  expect(markdown(quote('a READ_ME'))).toBe('“a READ&#95;ME”');
});

test('nothing that a person wrote becomes a mark of ours', () => {
  expect(quote('**bold** `code` [link](https://a.example) <b>')).toBe(
    '“bold code link(https://a.example) b”',
  );
});
