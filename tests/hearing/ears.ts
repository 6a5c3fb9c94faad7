/** Everything that hears, for one text. */
import { hearAnswer } from '#hearing/answer.ts';
import { hearInterrupts } from '#hearing/interrupts.ts';
import { otherMatters } from '#hearing/matters.ts';
import { hearOpening } from '#hearing/opening.ts';
import { preparePhotos, seenOn } from '#hearing/photo.ts';
import { secretsIn } from '#hearing/photo-secrets.ts';
import { redact } from '#hearing/redact.ts';
import { hearStanding } from '#hearing/standing.ts';
import { hearWaiting } from '#hearing/waiting.ts';
import { catalogue, openings } from './load.ts';
import { script } from './script.ts';

const prepared = openings();
const photos = preparePhotos(catalogue.screenMessages);
const asked = script.main.flatMap(step => (step.kind === 'ask' ? [step] : []));

/** What a turn would hear of it, as an opening and as an answer. Never throws. */
export function hearAll(given: string): unknown {
  const { text, removed } = redact(given);
  const opening = hearOpening(prepared, text);
  return {
    removed,
    opening,
    matters: opening.symptom === null ? [] : otherMatters(prepared, text, opening.symptom),
    alarms: hearInterrupts(catalogue.interrupts, text, opening.symptom),
    standing: hearStanding(text),
    waiting: hearWaiting(script, text),
    answer: hearAnswer(asked[text.length % asked.length]!, text),
  };
}

/** What would be made of it had it been read off a picture, eight words a line. */
export function seeAll(text: string): unknown {
  const words = text.split(/\s/, 1000).map((word, at) => ({ text: word, line: at >> 3 }));
  return { seen: seenOn(photos, prepared.codes, text), secrets: secretsIn(words) };
}
