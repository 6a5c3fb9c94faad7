/** What was read off a picture of a screen: the person is asked once whether it is so, and then it counts as if they had typed it. */

import { asksAbout } from '#engine/fold.ts';
import { hearOpening } from '#hearing/opening.ts';
import { hearWaiting } from '#hearing/waiting.ts';
import type { NewOutgoing } from '#store/store.ts';
import { add, type Draft, notice } from './draft.ts';
import { open } from './hear-opening.ts';
import type { Inbound } from './inbound.ts';

/** In a lane of its own: looking at a picture takes seconds and holds nothing up. */
export const reading = ({ before, now }: Draft, file: string): NewOutgoing => {
  const { id } = before.conversation;
  return { kind: 'read', lane: `read:${id}`, conversation: id, file, dueAt: now };
};

export function pictureRead(draft: Draft, { file, seen, covered }: Extract<Inbound, { kind: 'read' }>): void {
  if (covered === null && !asksAbout(draft.state, seen)) return;
  add(draft, { kind: 'read', at: draft.now, id: file, seen, covered });
  if (covered === null) return;
  notice(
    draft,
    'I have covered what looked like a recovery key or a password in your picture, and kept only that. Please never send one here: nobody at the desk will ask for it.',
  );
  draft.askAgain = true;
}

/** Answers that the words on the screen give to the flow's questions. */
export function alsoOf({ script }: Draft, verbatim: string): ReturnType<typeof hearWaiting> {
  return script === null ? {} : hearWaiting(script, verbatim);
}

/** Confirmed before anything else was understood: the message is what the matter is about. */
export function openWith(draft: Draft, { id, verbatim }: { id: string; verbatim: string }): void {
  const { state, knowledge } = draft;
  if (state.frames.length > 0 || state.outcome !== null) return;
  const words = [state.opening, `On the screen: "${verbatim}"`].filter(each => each !== '').join('\n');
  const { screenMessages, osCodes } = knowledge.catalogue;
  const means = (screenMessages[id] ?? osCodes[id])?.symptom;
  open(draft, words, hearOpening(knowledge.openings, words).sure ? undefined : means);
}
