import type { Step } from '#engine/script.ts';
import type { Rule, Trouble } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'secrets-unasked',
  proves:
    'Nobody is asked to write a password, a PIN or a key here: what is written stands in a chat and on a ticket.',
  flow: ({ script }) => segmentSteps(script).flatMap(asked),
};

const SECRET = '(?:password|passphrase|passcode|pin|(?:recovery |encryption )key|(?<=\\b(?:your|the) )key)';
const GIVE =
  "(?:what is|what's|what are|tell me|tell us|give me|give us|send|type|write|enter|paste|provide|share|read me|read out|could (?:we|i) have)";
/** "The key's identifier" and "which pin is bent" ask for none. */
const ASKS = [
  new RegExp(`\\b${GIVE} (?!which )(?:\\w+ ){0,2}${SECRET}\\b(?! (?:id|identifier|is on|box)\\b)(?!['’]s)`),
  /\bwhich (?:password|passphrase|passcode)\b|\band (?:the|your) (?:recovery key|password|pin)$|\bwhich 48 digits\b/,
  /\btype (?:it|them|either|both) here\b/,
];
/** Said elsewhere than in a question, it must be meant for the chat. */
const INTO_THE_CHAT = new RegExp(
  `\\b(?:send|type|write|enter|paste|share) (?:\\w+ ){0,2}${SECRET}\\b[^.;:?!]*\\b(?:here|chat|next message|to (?:me|us|the desk))\\b`,
);
const FORBIDS =
  /\b(?:not|never|no|don['’]t|without|(?:after|before|when|where|if) (?:you|they|it)|windows)\b/;

function textsOf(step: Step): { texts: Record<string, string | null>; ways: readonly RegExp[] } {
  if (step.kind === 'ask') return { texts: { ask: step.text, help: step.help }, ways: ASKS };
  if (step.kind === 'try') return { texts: { try: step.text, help: step.help }, ways: [INTO_THE_CHAT] };
  return { texts: step.kind === 'say' ? { say: step.text } : {}, ways: [INTO_THE_CHAT] };
}

function asked(step: Step): Trouble[] {
  const { texts, ways } = textsOf(step);
  return Object.entries(texts).flatMap(([part, given]) =>
    (given ?? '')
      .replace(/[*`_]/g, '')
      .toLowerCase()
      .split(/[.;!?()]/)
      .flatMap(sentence =>
        ways.flatMap(words => words.exec(sentence)?.[0] ?? []).map(found => ({ sentence, found })),
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
