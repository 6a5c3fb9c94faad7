/** What was taken from the person's own words, said back in one breath. */
import type { Message } from '#engine/messages.ts';

const HEARD = /^((?:.+ )?)From what you wrote: (\*\*.+\*\*)\. If that is wrong, say \*back\*\.$/;

type Texted = Pick<Message, 'kind'> & { text?: string };

/** `over`: the questions have ended with this, and no word leads back to them. */
export function heardTogether<M extends Texted>(said: readonly M[], over = false): M[] {
  const all: M[] = [];
  for (const message of said) {
    const before = HEARD.exec(all.at(-1)?.text ?? '');
    const now = HEARD.exec(message.text ?? '');
    if (before === null || now === null || message.kind !== 'say') {
      all.push(message);
      continue;
    }
    const [, asked, label] = now;
    all[all.length - 1] = {
      ...message,
      text: `${before[1]}From what you wrote: ${before[2]}; ${asked}${label}. If that is wrong, say *back*.`,
    };
  }
  return over ? all.map(late) : all;
}

const late = <M extends Texted>(message: M): M =>
  HEARD.test(message.text ?? '')
    ? {
        ...message,
        text: message.text!.replace(
          /If that is wrong, say \*back\*\.$/,
          'If that is wrong, just write it here.',
        ),
      }
    : message;
