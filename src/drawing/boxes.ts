/** From a step of the file to the box that shows it. */
import { EFFECTS, type Effect, type FlowStep } from '#engine/schema.ts';
import { answersOf, OPEN_VALUES } from './answers.ts';
import type { Passage } from './arrows.ts';
import type { Box, BoxKind } from './box.ts';
import { inWords, spoken } from './conditions.ts';
import { groupsOf } from './groups.ts';
import { BADGE, PAD, Setting } from './setting.ts';
import { POINT } from './shapes.ts';
import { type Measure, plain } from './text.ts';
import type { Subject, Written } from './written.ts';

/** How much a box says: most lines of its own words, and of its condition. */
export interface Detail {
  words: number;
  condition: number;
}

const DOES: Record<Effect, string> = {
  none: 'no effect on the drive',
  start: 'starts the drive',
  read: 'reads the drive',
  write: 'writes to the drive',
};
const KEEP = {
  off: 'keep it off',
  on: 'keep it on',
  'as-it-is': 'leave it as it is',
  'as-usual': 'use it as usual',
};
const ENDS = { 'not-storage': 'Ends: not about storage', done: 'Ends: done' };

export function boxesOf(
  subject: Subject,
  passage: Passage,
  written: Written,
  width: number,
  detail: Detail,
  measure: Measure,
): Box[] {
  return subject.steps.map((step, index) => {
    const set = new Setting(width, measure, 'hand_over' in step ? POINT : 0);
    condition(set, step, index, passage, detail);
    set.space(5);
    const kind = body(set, step, index, passage, written, detail);
    set.space(6);
    const level = 'try' in step ? EFFECTS.indexOf(step.effect) : 0;
    return set.done(index, kind, fullOf(step, written), level, passage.unreached.has(index));
  });
}

function condition(set: Setting, step: FlowStep, index: number, passage: Passage, detail: Detail): void {
  const past = passage.arrows.find(arrow => arrow.from === index && arrow.exit === 'past');
  if (step.if === undefined && past === undefined) return;
  const words = step.if === undefined ? 'if not answered yet' : `if ${inWords(step.if)}`;
  set.strip(words, detail.condition, past !== undefined);
  if (past !== undefined) set.exit('past', past.to, set.at - 10);
}

function body(
  set: Setting,
  step: FlowStep,
  index: number,
  passage: Passage,
  written: Written,
  detail: Detail,
): BoxKind {
  const left = PAD + BADGE;
  const head = { left, most: detail.words };
  if ('ask' in step) {
    set.add(step.ask, 'question', head);
    set.name(`${step.id}${step.as === undefined ? '' : `, as ${step.as}`}`, left);
    cautions(set, step.cautions);
    groups(set, step, index, passage, written, detail);
    return 'ask';
  }
  if ('try' in step) {
    set.mark('effect', `${DOES[step.effect]} · ${step.minutes} min`, 'kind', {
      left,
      level: EFFECTS.indexOf(step.effect),
    });
    set.add(step.try, 'words', head);
    set.name(step.id, left);
    cautions(set, step.cautions);
    groups(set, step, index, passage, written, detail);
    return 'try';
  }
  if ('work_out' in step) {
    set.add(`Works out: ${spoken(step.work_out)}`, 'question', head);
    set.name(step.id, left);
    groups(set, step, index, passage, written, detail);
    return 'say';
  }
  const on = passage.arrows.find(arrow => arrow.from === index && arrow.exit === 'on');
  let kind: BoxKind;
  if ('visit' in step) {
    kind = 'visit';
    visit(set, step.visit, step.id, index, passage, written, detail);
  } else if ('hand_over' in step) {
    kind = 'hand-over';
    const { keep, because } = step.hand_over;
    set.add(`To the desk${keep === undefined ? '' : ` · ${KEEP[keep]}`}`, 'overKind', { left });
    if (because !== undefined) set.add(because, 'over', head);
  } else if ('caution' in step) {
    kind = 'caution';
    set.mark('care', `Caution: ${spoken(step.caution)}`, 'care', { left });
    set.add(written.cautions[step.caution] ?? '', 'words', { left, most: Math.max(1, detail.words - 1) });
  } else if ('end' in step) {
    kind = 'end';
    set.add(ENDS[step.end], 'question', { left });
    if (step.say !== undefined) set.add(step.say, 'words', head);
  } else {
    kind = 'say';
    set.add(step.say, 'words', head);
  }
  if (on !== undefined) set.exit('on', on.to, set.at);
  return kind;
}

function cautions(set: Setting, ids: readonly string[] | undefined): void {
  for (const id of ids ?? []) set.mark('care', `Caution: ${spoken(id)}`, 'care', { left: PAD + BADGE });
}

function visit(
  set: Setting,
  block: string,
  id: string | undefined,
  index: number,
  passage: Passage,
  written: Written,
  detail: Detail,
): void {
  const left = PAD + BADGE;
  const width = set.add(block, 'question', { left });
  if (id !== undefined && id !== block) set.beside(`as ${id}`, 'name', left + width + 6);
  const about = written.blocks[block]?.about;
  if (about !== undefined && detail.words > 1) set.add(about, 'words', { left, most: detail.words - 1 });
  const inside = passage.inside.get(index);
  if (inside === undefined) return;
  if (inside.raises.size > 0) {
    set.mark('sign', `may raise ${[...inside.raises].map(spoken).join(', ')}`, 'sign', { left, most: 2 });
  }
  const ends = [
    ...(inside.ends.has('fixed') ? ['fixed'] : []),
    ...(inside.ends.has('hand-over') ? ['with the desk'] : []),
    ...(inside.ends.has('end') ? ['as no storage matter'] : []),
  ];
  if (ends.length > 0)
    set.add(`${inside.returns ? 'may end' : 'ends'} there: ${ends.join(' or ')}`, 'kind', { left, most: 2 });
}

/** Answers by where they lead, each on its own line; the way out stands beside the last line. */
function groups(
  set: Setting,
  step: FlowStep,
  index: number,
  passage: Passage,
  written: Written,
  detail: Detail,
): void {
  const left = PAD + BADGE;
  const most = detail.words > 3 ? 2 : 1;
  const arrows = passage.arrows.filter(({ from }) => from === index);
  const nameless = 'ask' in step && step.answers_from !== undefined;
  for (const { to, parts } of groupsOf(step, answersOf(step, written), arrows)) {
    set.rule();
    const rest = parts.flatMap(({ answers, raises, clears }): ((tagged: boolean) => void)[] => [
      ...answers.map(({ id, label }) => (tagged: boolean) => {
        if (nameless || OPEN_VALUES.includes(id)) set.add(label, 'answer', { left, most, tagged });
        else set.answer(spoken(id), label, { left, most, tagged });
      }),
      ...(raises.length === 0 ? [] : [sign('sign', raises.map(spoken).join(', '))]),
      ...(clears.length === 0 ? [] : [sign('cleared', `${clears.map(spoken).join(', ')} cleared`)]),
    ]);
    rest.forEach((show, place) => {
      show(place === rest.length - 1);
    });
    if (to === 'fixed' && 'try' in step && step.fixed !== undefined) {
      set.mark('fixed', `fixed: ${written.faults[step.fixed] ?? step.fixed}`, 'fixed', { left });
    } else {
      set.exit('answers', to, set.at - 6);
    }
  }
  function sign(kind: 'sign' | 'cleared', words: string) {
    return (tagged: boolean) => set.mark(kind, words, 'sign', { left, most: 2, tagged });
  }
}

/** Everything the step says, for whoever points at it. */
function fullOf(step: FlowStep, written: Written): string {
  const parts: (string | undefined)[] = [];
  if (step.if !== undefined) parts.push(`If ${inWords(step.if)}.`);
  if ('ask' in step) parts.push(step.ask, step.help);
  if ('try' in step) parts.push(step.try, step.works, step.help);
  if ('say' in step) parts.push(step.say);
  if ('caution' in step) parts.push(written.cautions[step.caution]);
  if ('visit' in step) parts.push(`Block ${step.visit}.`, written.blocks[step.visit]?.about);
  if ('hand_over' in step) parts.push(step.hand_over.because);
  return parts.flatMap(part => (part === undefined ? [] : [plain(part)])).join('\n');
}
