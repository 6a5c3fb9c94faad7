/** One happening to a conversation, and what follows from it. Synchronous and pure: everything it knows comes in as arguments. */
import { openStep } from '#engine/advance.ts';
import { isQuestion } from '#engine/messages.ts';
import { isDeskTopic } from '#engine/schema.ts';
import { asksBeside, asksLeave } from '#hearing/asking.ts';
import { redact } from '#hearing/redact.ts';
import { reference } from '#tickets/schema.ts';
import { alarming } from './alarming.ts';
import { attached, fetching } from './attached.ts';
import { cameBack, takeUpAgain } from './came-back.ts';
import { desk, deskAnswer, deskQuestion } from './desk.ts';
import { add, type Before, type Draft, draftOf, notice } from './draft.ts';
import { type Decision, finish } from './finish.ts';
import { tellOutages } from './hear-opening.ts';
import { answerStanding, chooseSymptom, hearText } from './hear-text.ts';
import type { Inbound } from './inbound.ts';
import { instead } from './instead.ts';
import type { Knowledge } from './knowledge.ts';
import { asksForNews, newsOf, outageOver, partOfOutage } from './news.ts';
import { pictureRead } from './photo.ts';
import { opening, questionOf } from './question.ts';
import { quote } from './quote.ts';
import { LONGEST_TEXT, toldWhereCut, withoutSecrets } from './secrets.ts';
import { again, back, leave, resumed } from './standing.ts';
import { begin } from './work.ts';

/** `id`: for a question of the desk or a file, should this be one. */
export function decide(
  knowledge: Knowledge,
  before: Before,
  inbound: Inbound,
  now: number,
  id: string,
): Decision {
  const draft = draftOf(knowledge, before, now);
  let refused: string | null = null;
  switch (inbound.kind) {
    case 'arrived':
      arrived(draft, inbound.words ?? '', inbound.at);
      break;
    case 'begin':
      begin(draft, inbound);
      break;
    case 'text':
      typed(draft, inbound.text, inbound.at);
      break;
    case 'files':
      for (const file of inbound.files) draft.relays.push(fetching(draft, inbound.identity, file));
      break;
    case 'file-refused':
      notice(draft, `${quote(redact(inbound.name).text, 60)}: ${inbound.why}`);
      draft.askAgain = true;
      break;
    case 'file':
      attached(draft, inbound, id);
      break;
    case 'press':
      pressed(draft, inbound.conversation, inbound.question, inbound.answer);
      break;
    case 'always':
      if (inbound.what === 'back') back(draft, inbound.to, inbound.finding);
      else if (inbound.what === 'again') again(draft);
      else leave(draft, inbound.what, inbound.what);
      break;
    case 'timer':
      timer(draft, inbound.what);
      break;
    case 'desk':
      refused = desk(draft, inbound.action, inbound.by, id);
      break;
    case 'desk-question':
      deskQuestion(draft, inbound);
      break;
    case 'desk-answer':
      deskAnswer(draft, inbound.ask, inbound.text);
      break;
    case 'outage':
      if (draft.state.outcome === null) tellOutages(draft);
      else partOfOutage(draft, inbound.outage, inbound.text);
      break;
    case 'outage-over':
      outageOver(draft, inbound);
      break;
    case 'read':
      pictureRead(draft, inbound);
      break;
    case 'script-withdrawn':
      if (draft.state.outcome === null) add(draft, { kind: 'script-withdrawn', at: now });
      break;
  }
  return { ...finish(draft, inbound), refused };
}

/** Words that were said elsewhere begin a matter, or stand beside the one that is open: which of the two, the person says. */
function arrived(draft: Draft, words: string, at: number): void {
  const { knowledge, state, before } = draft;
  const { organisation, desk: helpdesk, emergency } = knowledge.site;
  const { text } = redact(words);
  if (openMatter(draft)) return resumed(draft, text.trim());
  if (words.trim() !== '') return typed(draft, words, at);
  notice(
    draft,
    `Hello, this is Reseat, the storage help of ${organisation}: PCs that don't start, drives, USB sticks, network shares, lost files. I ask a few short questions, your data comes first, and ${helpdesk.name} takes over whenever it should. If something burns or smokes, get away from it and call ${emergency.number}.`,
  );
  if (before.openTicket !== null) {
    notice(
      draft,
      `Your ticket ${reference(before.openTicket.number)} is open with the desk. Add to it by writing here.`,
    );
  }
  if (state.outcome !== null) draft.after.push(opening(state));
  else draft.askAgain = true;
}

/** An answer after a long while may be about something else by now. Work at the bench takes its hours. */
const isAway = ({ before, now, knowledge, state }: Draft): boolean =>
  !isDeskTopic(state.symptom) && now - before.conversation.heardAt > knowledge.settings.nudgeAfter;

/** Has the person begun something here that has no outcome yet? */
const openMatter = ({ state }: Draft) => state.frames.length > 0 && state.outcome === null;

function typed(draft: Draft, given: string, at: number): void {
  toldWhereCut(draft, given);
  const text = withoutSecrets(draft, given.slice(0, LONGEST_TEXT));
  if (text.trim() === '') {
    notice(draft, 'That message had no words that I can read.');
    draft.askAgain = true;
    return;
  }
  const { state, now } = draft;
  if (cameBack(draft.knowledge, draft.before, text, now)) return takeUpAgain(draft, text);
  if (state.outcome !== null && state.outcome.how !== 'left' && state.standing.length === 0)
    return addNote(draft, text);
  const away = isAway(draft);
  const asked = state.standing.some(other => other.step === '@returned');
  if (
    state.frames.length > 0 &&
    !asked &&
    (state.outcome?.how === 'left' || (away && state.outcome === null))
  ) {
    // An answer to an old question is not an answer to a new situation.
    add(draft, { kind: 'returned', at: now, words: text });
    notice(draft, `I have kept ${quote(text)}.`);
    return;
  }
  hearText(draft, text.trim(), at);
}

/** After the outcome, words that begin nothing new belong to the ticket. route.ts has seen to the rest. */
function addNote(draft: Draft, text: string): void {
  const { before, now } = draft;
  if (isThanks(text)) return notice(draft, "You're welcome. Write any time.");
  if (before.openTicket === null)
    return notice(draft, 'If something else is wrong, describe it and we begin.');
  if (asksForNews(text) && before.ticket !== null) notice(draft, newsOf(before.ticket, draft.knowledge));
  // What is known to burn may burn more by now.
  for (const id of alarming(draft.knowledge, [], text)) {
    const words = draft.script?.cautions[id]?.text;
    if (words !== undefined) notice(draft, words);
  }
  if (asksLeave(text) || asksBeside(text)) notice(draft, instead(draft.script, draft.state, text));
  else if (draft.state.signs.includes('mechanical') && STARTED.test(text)) notice(draft, OFF_AGAIN);
  add(draft, { kind: 'note', at: now, words: text });
  notice(
    draft,
    `I have added that to ${reference(before.openTicket.number)}. If it is about something else, say *start again*.`,
  );
  const { person } = before.conversation.address;
  const by = person.name ?? person.id;
  if (before.openTicket.conversation === before.conversation.id) {
    draft.life.push({ kind: 'note', at: now, by, text });
    return;
  }
  const { conversation } = before.openTicket;
  const identity = `note:${before.conversation.id}:${draft.entries.length}`;
  draft.relays.push({
    kind: 'relay',
    lane: `relay:${conversation}`,
    conversation,
    dueAt: now,
    inbound: { kind: 'desk', identity, at: now, conversation, by, action: { do: 'note', text } },
  });
}

/** "I switched it on and now it works, copying files." */
const STARTED =
  /\b(?:switched|turned|plugged|started) (?:it |them )?(?:back |again )?(?:on|in)\b|\b(?:works?|runs?|running) (?:now|again)\b|\bcopying\b/i;
const OFF_AGAIN =
  '**Please switch it off again, however well it runs**: a drive that made such a noise or had such a fall can stop for good at any moment, and the desk needs what is left of it.';

export const isThanks = (text: string): boolean =>
  /^\W*(ok(ay)?|great|super|perfect)?\W*(many )?(thanks?( you)?( (so|very) much| a lot)?|cheers|thx|ty|danke( schön)?|merci( beaucoup)?|gracias|ok(ay)?|great|perfect)\W*$/i.test(
    text,
  );

function pressed(draft: Draft, conversation: string, question: number, answer: string): void {
  const { state, before, script, now, knowledge } = draft;
  const open = questionOf(knowledge, script, state);
  const fits = conversation === before.conversation.id && open !== null && open.number === question;
  const choice = fits && isQuestion(open) ? open.answers.find(each => each.id === answer) : undefined;
  if (open === null || choice === undefined) {
    const was =
      conversation === before.conversation.id
        ? // What was taken from the opening shares the number of the question asked next.
          state.answers.find(each => each.question === question && !each.fromOpening)
        : undefined;
    notice(
      draft,
      was
        ? `You answered that already: ${quote(was.shown, 60)}. To change it, say *back*.`
        : 'That question has passed.',
    );
    draft.askAgain = true;
    return;
  }
  if (open.step === '@symptom') return chooseSymptom(draft, answer);
  if (open.step.startsWith('@')) return answerStanding(draft, open.step, { id: answer }, choice.label);
  const step = script === null ? null : openStep(script, state);
  if (step === null) return;
  if (isAway(draft)) {
    add(draft, { kind: 'returned', at: now, words: choice.label });
    return;
  }
  add(draft, {
    kind: 'answer',
    at: now,
    question,
    step: step.id,
    value: { id: answer },
    words: choice.label,
  });
}

function timer(draft: Draft, what: 'nudge' | 'left'): void {
  const { conversation } = draft.before;
  const due = conversation.dueKind === what && conversation.dueAt !== null && conversation.dueAt <= draft.now;
  if (!due || draft.state.outcome !== null) return;
  if (what === 'nudge' && draft.state.frames.length > 0)
    notice(draft, 'Are you still there? Nothing is lost.');
  add(draft, { kind: 'timer', at: draft.now, what });
}
