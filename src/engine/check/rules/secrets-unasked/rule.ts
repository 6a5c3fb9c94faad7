import type { Step } from '#engine/script.ts';
import type { Rule, Trouble } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'secrets-unasked',
  proves:
    'No question asks for a password, a PIN or a key: what is answered stands in a chat and on a ticket.',
  flow: ({ script }) => segmentSteps(script).flatMap(asked),
};

const SECRET = '(?:password|passphrase|passcode|pin|(?:recovery |encryption )?key)';
/** "Which key is on file?" and "the key's identifier" ask for none. */
const ASKS = [
  new RegExp(
    `\\b(?:what is|what's|what are|tell me|give me|send|type|write|enter|paste)\\b[^.;:?!]*\\b${SECRET}\\b(?! (?:id|identifier|is on)\\b)(?!['’]s)`,
  ),
  /\btype (?:it|them|either|both) here\b/,
];
const FORBIDS = /\b(?:not|never|no|nobody|don['’]t|without)\b/;

function asked(step: Step): Trouble[] {
  if (step.kind !== 'ask') return [];
  return Object.entries({ ask: step.text, help: step.help ?? '' }).flatMap(([part, text]) =>
    text
      .replace(/[*`_]/g, '')
      .toLowerCase()
      .split(/[.;!?()]/)
      .flatMap(sentence =>
        ASKS.flatMap(words => words.exec(sentence) ?? []).map(found => ({ sentence, found })),
      )
      .filter(
        ({ sentence, found }) => !FORBIDS.test(sentence.slice(0, sentence.indexOf(found) + found.length)),
      )
      .map(({ found }) => ({
        step: step.id,
        path: [part],
        message: `"${found}" asks for a secret`,
        remedy: 'ask for its identifier, or whether it is at hand; keys are spoken, never written',
      })),
  );
}
