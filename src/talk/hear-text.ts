/** What a person typed, heard against what they were asked. */
import { openStep } from '#engine/advance.ts';
import type { Answered, AnswerValue, Entry } from '#engine/entries.ts';
import { answerKey, standing } from '#engine/fold.ts';
import { decides, mayInterrupt } from '#engine/interrupts.ts';
import { isQuestion } from '#engine/messages.ts';
import { isDeskTopic } from '#engine/schema.ts';
import type { Script, Question as Step } from '#engine/script.ts';
import { hearAnswer } from '#hearing/answer.ts';
import { asksBeside, asksForHelp, asksLeave, leavesOn } from '#hearing/asking.ts';
import { halvesOf } from '#hearing/halves.ts';
import { hearInterrupts, type Raised } from '#hearing/interrupts.ts';
import { hearStanding, wantsPerson } from '#hearing/standing.ts';
import { listen } from '#hearing/words.ts';
import { add, type Draft, notice, withdraw } from './draft.ts';
import { names, namesSurely, open, turnsTo } from './hear-opening.ts';
import { hearAlso, siteIn } from './hear-site.ts';
import { instead } from './instead.ts';
import { inTheirLanguage } from './languages.ts';
import { alsoOf, openWith } from './photo.ts';
import { questionOf, STANDING_HEARS } from './question.ts';
import { quote } from './quote.ts';
import { again, back, leave } from './standing.ts';
import { wanting, withEarlier } from './wanting.ts';

/** Hears `text` (already redacted) that was sent at `at` by the platform's clock. */
export function hearText(draft: Draft, text: string, at: number): void {
  const word = hearStanding(text);
  if (word === 'back') return back(draft);
  if (word === 'again') return again(draft);
  if (word !== null) return leave(draft, word, text);
  if (seenBefore(draft, at)) return hearAgainst(draft, text);
  const last = lastOf(draft);
  if (last?.entry.kind === 'desk-ask' || last?.entry.kind === 'outage') return hearStep(draft, text);
  // Nobody has seen yet what is asked about their picture.
  if (last?.entry.kind === 'read') return hearMatter(draft, text);
  if (last?.entry.kind === 'opened') return join(draft, 0, `${last.entry.words}\n${text}`);
  if (last?.entry.kind === 'answer') return join(draft, last.entry.question, `${last.entry.words}\n${text}`);
  hearAgainst(draft, text);
}

/** Had the open question been delivered when this was sent? */
function seenBefore(draft: Draft, at: number): boolean {
  const { askedNumber, askedAt } = draft.before.conversation;
  if (draft.state.number === 0) return true;
  return askedNumber >= draft.state.number && at >= askedAt;
}

function lastOf(draft: Draft): { entry: Entry; index: number } | undefined {
  return standing(draft.entries).findLast(({ index }) => index < draft.state.number);
}

/** Sent before the reply could be read: one message in two parts, heard again together. */
function join(draft: Draft, to: number, words: string): void {
  const kept = draft.entries.length;
  add(draft, { kind: 'back', at: draft.now, to, why: 'joined' });
  hearAgainst(draft, words);
  const understood = draft.entries.slice(kept + 1).some(entry => entry.kind !== 'missed');
  if (understood) return;
  // Together they make no sense: the first part stands, the second is kept as not understood.
  draft.entries.length = kept;
  add(draft, { kind: 'missed', at: draft.now, question: draft.state.number, words });
  draft.notices.length = 0;
  didNotUnderstand(draft, words.slice(words.lastIndexOf('\n') + 1));
}

function hearAgainst(draft: Draft, text: string): void {
  const first = draft.state.standing[0];
  if (first !== undefined) return hearStandingQuestion(draft, text, first.step);
  hearMatter(draft, text);
}

/** Whatever stands before it: the script's question, or what the matter is. */
function hearMatter(draft: Draft, text: string): void {
  const { script, state } = draft;
  if (state.outcome === null && script !== null && openStep(script, state) !== null)
    return hearStep(draft, text);
  if (state.candidates.length > 0) return hearWhich(draft, text);
  open(draft, state.opening === '' ? text : `${state.opening}\n${text}`);
  mayThey(draft, text);
  // A wish for somebody in the first words stands, unless there is an alarm to be settled first.
  const { state: now } = draft;
  const alarm = now.frames.length > 1 || now.standing.some(other => other.step === '@doubt');
  if (now.outcome === null && !alarm && wantsPerson(text)) leave(draft, 'person', text);
}

const OFF_NOW =
  '**Off now, please, not in a few minutes**: what is wet or swollen grows worse while it has power. Only if hands, floor and socket are dry and nothing smokes, smells or is hot: plug or charger out **at the socket**, power button held down until it is dark. Else keep away from it.';

/** Asked beside other words; the minute that it takes to be asked the next thing can be the one that counts. */
function mayThey(draft: Draft, text: string): void {
  const { state } = draft;
  if (state.outcome === null && asksBeside(text)) notice(draft, instead(draft.script, state, text));
  else if (state.signs.includes('danger') && leavesOn(text)) notice(draft, OFF_NOW);
}

/** The script's own question. */
function hearStep(draft: Draft, text: string): void {
  const { script, state } = draft;
  const step = script === null ? null : openStep(script, state);
  if (script === null || step === null) return missed(draft, text);
  const { interrupts } = draft.knowledge.catalogue;
  const words = hearInterrupts(interrupts, text, state.symptom);
  const breaking = words.filter(({ interrupt }) => mayInterrupt(script, state, interrupt));
  const alarming = breaking.length > 0;
  if (!alarming && wantsPerson(text)) return leave(draft, 'person', text);
  if (!alarming && (asksForHelp(text) || asksLeave(text))) return asked(draft, text, step.help);
  const { answers } = step;
  const heard = hearAnswer(asAsked(step), text);
  const value = heard !== null && 'value' in heard ? heard.value : null;
  const given = value === null ? null : answerKey(step, value);
  // "Yes, still clicking" solves nothing.
  const alarmed = () => hearInterrupts(interrupts, text, null).length > 0;
  const key = given === 'fixed' && (alarmed() || ONLY_HEARD.test(text)) ? null : given;
  const covered = key === null ? [] : (step.after[key]?.raises ?? []);
  const alarms = breaking.filter(
    ({ interrupt }) => !covered.includes(script.interrupts[interrupt]!.about.sign),
  );
  const more = value !== null && 'text' in value && alarms.length === 0 ? wanting(draft, step, text) : null;
  if (more !== null) {
    notice(draft, more);
    return missed(draft, text, true);
  }
  if (covered.length === 0 && alarms.length === 0 && turned(draft, step, text)) return;
  const began = draft.entries.length;
  if (value !== null && key !== null) answered(draft, script, step, value, text);
  // What would have ended it waits; an alarm does not. Technicians are asked for such things, and choose what is true of it.
  const told = value !== null && ('text' in value || !isDeskTopic(state.symptom));
  const ended = alarms.length > 0 && told && draft.state.outcome !== null;
  if (ended) withdraw(draft, began);
  breakIn(draft, alarms, ended && key !== null ? waitingFor(script, step, key, text) : undefined);
  const reply = step.answers.length === 0 || key === null ? beingAsked(draft, step, words) : null;
  if (reply !== null) notice(draft, reply);
  if (key !== null || alarms.length > 0) return mayThey(draft, text);
  if (reply !== null) return missed(draft, text, true);
  if (heard !== null && 'wrong' in heard) {
    notice(draft, heard.wrong);
    return missed(draft, text, true);
  }
  if (asksBeside(text)) return askedBack(draft, text, instead(script, state, text));
  if (text.includes('?') && step.help !== null) return askedBack(draft, text, step.help);
  const halves = halvesOf(answers, text).map(({ label }) => `**${label}**`);
  if (halves.length === 0) return missed(draft, text);
  notice(draft, `That fits more than one answer: ${halves.join(' or ')}. Which of them is it?`);
  missed(draft, text, true);
}

/** "Ok" says that it was read, "yes, but" that there is more to it; neither that it works. */
const ONLY_HEARD =
  /^\W*(?:ok(?:ay)?|k|alright|all right|sure|fine|got it|will do|understood)\W*$|^\W*yes\W+but\b/i;

/** What its answers may look like. */
const asAsked = (step: Step): Parameters<typeof hearAnswer>[0] =>
  step.kind === 'try'
    ? { form: 'choice', answers: step.answers, optional: false, unit: null, minimum: null, maximum: null }
    : step;

function answered(draft: Draft, script: Script, step: Step, value: AnswerValue, text: string): void {
  // A story told in answer to one question may answer the next ones too.
  const also = 'text' in value ? { ...hearAlso(script, text), ...siteIn(script, step, text) } : {};
  add(draft, {
    kind: 'answer',
    at: draft.now,
    question: draft.state.number,
    step: step.id,
    value: 'text' in value ? { text: withEarlier(draft, step, text) } : value,
    words: text,
    ...(Object.keys(also).length > 0 ? { also } : {}),
  });
}

/** Who turns to another matter has not answered, unless what they say of it is an answer here. */
function turned(draft: Draft, step: Step, text: string): boolean {
  const other = step.kind === 'ask' && step.form === 'text' ? null : turnsTo(draft, text);
  const heard = other === null ? null : hearAnswer(asAsked(step), other.rest);
  if (other === null || (heard !== null && 'value' in heard)) return false;
  notice(
    draft,
    `That sounds like another matter: **${other.title}**. To go on with that instead, say **start again** and tell me about it; what you wrote is kept. Else:`,
  );
  missed(draft, text, true);
  return true;
}

/** `also`: what the words said beside it, and would be asked again. */
function breakIn(draft: Draft, alarms: readonly Raised[], also: Answered['also']): void {
  const { now } = draft;
  const danger = alarms.find(({ interrupt }) => interrupt === 'danger');
  if (danger !== undefined) inTheirLanguage(draft, danger.words, { danger: true, first: false });
  for (const { interrupt, sure, words } of alarms) {
    const question = draft.state.number;
    add(draft, { kind: 'interrupt', at: now, question, interrupt, sure, words, ...(also && { also }) });
  }
}

/** The answer is kept for its question, should that come again. */
const waitingFor = (script: Script, step: Step, answer: string, words: string): Answered['also'] => ({
  ...hearAlso(script, words),
  ...siteIn(script, step, words),
  [step.finding]: { answer, words },
});

/**
 * Words of an alarm within its own block. At the question that decides they have not answered, what to do first is said once
 * more; at those behind it that is settled for one machine, and there may be another.
 */
function beingAsked(
  { script, state }: Draft,
  step: Step,
  words: ReturnType<typeof hearInterrupts>,
): string | null {
  const about = words
    .map(({ interrupt }) => script?.interrupts[interrupt]?.about)
    .find(
      each => each !== undefined && step.within?.includes(each.id) && state.findings[each.sign] !== 'yes',
    );
  if (script === null || about === undefined) return null;
  if (decides(script, about.id, step)) return script.cautions[about.caution]?.text ?? null;
  return about.sign === 'mechanical' ? ANOTHER : null;
}

const ANOTHER =
  'I have that, and the desk will read it. Is it about **another** machine or drive? Then that one is switched off, and left off.';

/** Asked back instead of answered: leave is given by nobody but the desk, and help explains the question. */
function asked(draft: Draft, text: string, help: string | null): void {
  askedBack(
    draft,
    text,
    asksLeave(text)
      ? instead(draft.script, draft.state, text)
      : (help ?? 'Answer in your own words, or choose one.'),
  );
  if (!asksLeave(text))
    notice(draft, 'If it fits nowhere, say **person**, and somebody from the desk takes over.');
}

/** A question back is answered, and stands in the history with the words of whoever asked. */
function askedBack(draft: Draft, words: string, reply: string): void {
  add(draft, { kind: 'missed', at: draft.now, question: draft.state.number, words, asked: true });
  notice(draft, reply);
  draft.askAgain = true;
}

const JUST_OVER =
  /\b(?:not (?:any ?more|now|at the moment)|no longer|(?:it )?(?:has )?stopped|nicht mehr|gerade nicht|plus maintenant|ya no)\b/i;

function hearStandingQuestion(draft: Draft, text: string, step: string): void {
  const asked = questionOf(draft.knowledge, draft.script, draft.state);
  if (asked === null || !isQuestion(asked)) return missed(draft, text);
  const hears = STANDING_HEARS[step] ?? {};
  const answers = asked.answers.map(answer => ({ ...answer, hears: hears[answer.id] ?? [] }));
  const form = asked.kind === 'ask' ? asked.form : 'choice';
  const heard = hearAnswer(
    { form, answers, optional: false, unit: null, minimum: null, maximum: null },
    text,
  );
  const alarmed = () => hearInterrupts(draft.knowledge.catalogue.interrupts, text, null).length > 0;
  const chosen = heard !== null && 'value' in heard;
  if (step === '@doubt' && !chosen && (asksLeave(text) || asksBeside(text)))
    return askedBack(draft, text, instead(draft.script, draft.state, text));
  // Just over is when it is asked about, not when it was nothing.
  if (step === '@doubt' && chosen && JUST_OVER.test(text))
    return answerStanding(draft, step, { id: 'yes' }, text);
  if (step === '@photo' && (heard === null || !('value' in heard) || alarmed())) {
    // What else somebody has to say goes before it.
    answerStanding(draft, step, { skipped: true }, '');
    return hearAgainst(draft, text);
  }
  if (heard !== null && 'value' in heard) return answerStanding(draft, step, heard.value, text);
  if (step === '@returned') {
    const named = namesSurely(draft, text);
    if (named !== null)
      return answerStanding(draft, step, { id: named === draft.state.symptom ? 'same' : 'new' }, text);
    // An answer to the question that was open before says that it is still that.
    const open = draft.script === null ? null : openStep(draft.script, draft.state);
    const answers = open?.kind === 'ask' && open.form !== 'text' && hearAnswer(open, text);
    if (answers && 'value' in answers) {
      answerStanding(draft, step, { id: 'same' }, text);
      return hearAgainst(draft, text);
    }
  }
  missed(draft, text);
}

/** Answers a standing question, heard or pressed. */
export function answerStanding(draft: Draft, step: string, value: AnswerValue, words: string): void {
  const { state, now } = draft;
  const asked = state.standing.find(other => other.step === step);
  const answer: Answered = { kind: 'answer', at: now, question: state.number, step, value, words };
  const shown = asked?.step === '@photo' && 'id' in value && value.id === 'yes' ? asked : null;
  add(draft, shown === null ? answer : { ...answer, also: alsoOf(draft, shown.verbatim) });
  if (shown !== null) openWith(draft, shown);
  if (asked?.step === '@desk' && 'text' in value) {
    draft.relays.push({
      kind: 'relay',
      lane: `relay:${asked.conversation}`,
      conversation: asked.conversation,
      dueAt: now,
      inbound: {
        kind: 'desk-answer',
        identity: `desk-answer:${asked.ask}`,
        at: now,
        conversation: asked.conversation,
        ask: asked.ask,
        text: value.text,
      },
    });
    notice(draft, 'Thank you, I have passed that on to the desk.');
  }
  // What was said at once to be safe may contradict what comes next.
  if (asked?.step === '@doubt' && 'id' in value && value.id === 'no')
    notice(draft, 'Good. Then the warning just now does not hold for you, and we go on.');
  if (asked?.step === '@returned' && 'id' in value && value.id === 'new') {
    const first = [asked.words, words].filter(each => names(draft, each) !== null).join('\n');
    again(draft);
    if (first !== '') open(draft, first);
  }
}

function hearWhich(draft: Draft, text: string): void {
  const { state, knowledge } = draft;
  const hears = STANDING_HEARS['@symptom'] ?? {};
  const asked = questionOf(knowledge, draft.script, state);
  const answers = (asked?.answers ?? []).map(answer => ({ ...answer, hears: hears[answer.id] ?? [] }));
  const limits = { optional: false, unit: null, minimum: null, maximum: null };
  const heard = hearAnswer({ form: 'choice', answers, ...limits }, text);
  const chosen = heard !== null && 'value' in heard && 'id' in heard.value ? heard.value.id : null;
  // "None of these, there is smoke": what comes with the choice is heard as the first words are.
  const alarming = hearInterrupts(knowledge.catalogue.interrupts, text, null).length > 0;
  const more = alarming || listen(text).length > BARE;
  if (chosen !== null && !more) return chooseSymptom(draft, chosen);
  const words = `${state.opening}\n${text}`;
  open(draft, words, chosen === null || chosen === 'other' ? undefined : chosen);
}

/** Words of a choice that says nothing else. */
const BARE = 6;

/** One of the symptoms that were offered, or `other`: then it is asked for in other words. */
export function chooseSymptom(draft: Draft, answer: string): void {
  if (answer !== 'other') return open(draft, draft.state.opening, answer);
  add(draft, {
    kind: 'opened',
    at: draft.now,
    words: draft.state.opening,
    symptom: null,
    script: null,
    candidates: [],
    waiting: {},
    screen: draft.state.screen,
  });
  notice(draft, 'Then tell me in other words, please: what do you see or hear, and on which device?');
}

/** Nothing typed is met with silence: it is said back with the question, and after two misses a person is offered. */
function missed(draft: Draft, text: string, told = false): void {
  add(draft, { kind: 'missed', at: draft.now, question: draft.state.number, words: text });
  didNotUnderstand(draft, text, told);
}

function didNotUnderstand(draft: Draft, text: string, told = false): void {
  if (!told)
    notice(
      draft,
      `I have kept ${quote(text)}, but I can't tell which answer that is. Choose one of them, please, or say it in other words.`,
    );
  if (draft.state.misses >= 2 && !isDeskTopic(draft.state.symptom))
    notice(draft, 'If none of it fits, say **person** and somebody from the desk takes over.');
  draft.askAgain = true;
}
