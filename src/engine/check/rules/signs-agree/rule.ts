import { isQuestionStep } from '#engine/advance.ts';
import { readsOf } from '#engine/condition.ts';
import type { Question, Script } from '#engine/script.ts';

type Answer = Question['answers'][number];

import {
  CALMING,
  COPY,
  COPY_SEEN,
  FAILING,
  MISSED,
  NOTHING_MISSED,
  SPINNING_DRIVE,
  SPINS,
  STRONG_BITS,
} from '../../names.ts';
import type { Rule, Trouble } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'signs-agree',
  proves:
    'Signs agree with what was answered: nothing that speaks for harm goes by without raising one, and unsure counts as the worse.',

  ended({ view, desk, by, step }) {
    if (desk || by !== 'flow' || step.kind !== 'hand-over' || view.sign('danger') || view.sign('attack'))
      return null;
    const calm = speaksOfNone(step.because ?? '');
    if (calm !== null && (view.sign('suspect') || view.sign('hardware-failure'))) {
      return {
        path: ['hand_over', 'because'],
        message: `the person reads "${calm}", and a sign says that the drive may be failing`,
        remedy: 'hand over with other words where a sign is raised, before this',
      };
    }
    if (view.sign('hardware-failure')) return null;
    if (view.sign('mechanical')) {
      return {
        message:
          'a drive that clicks, grinds, was dropped or got wet is handed over without hardware-failure',
        remedy: 'raise hardware-failure as well with the answer that makes it sure',
      };
    }
    const words = speaksOfHarm(step.because ?? '');
    if (words === null || view.sign('suspect')) return null;
    return {
      path: ['hand_over', 'because'],
      message: `the person reads "${words}", and no sign is raised: the ticket is ranked as if the drive were well`,
      remedy: 'raise suspect with the answer that leads here, or say it otherwise',
    };
  },

  flow({ script, desk }) {
    const questions = segmentSteps(script).filter(isQuestionStep);
    const lists = listsOf(script);
    return [
      ...(desk ? [] : questions.flatMap(answered)),
      ...questions.flatMap(weighed),
      ...questions.flatMap(each => [...treatedAlike(each, lists), ...saidElsewhere(each, questions)]),
      ...questions.flatMap(each => labelled(each, desk ? DESK_HARM_LABEL : HARM_LABEL)),
      ...questions.flatMap(each => hurt(each, desk)),
      ...Object.values(script.interrupts).flatMap(alarm),
    ];
  },
};

/** Words by which a reason tells that a drive may be failing. Common practice, no source. */
const HARM =
  /\b(?:failing|near its end|gets? no worse|may not (?:the next|start again|come back)|giv(?:es up|ing out)|stop within|a restart could be its last)\b/;
const NOT = /\b(?:not|nothing|no|never|nobody|whether|(?<!as )if)\b/;

/** Words by which a reason tells that the drive is well. "Then the drive is well" is one case of several. */
const WELL =
  /\b(?<!then the )(?:(?:drive|files?) (?:is|are) (?:most likely )?well|most likely well|nothing (?:\w+ ){0,4}(?:points to|speaks against)|not sound like a drive)\b/;

const speaksOfNone = (reason: string): string | null => WELL.exec(reason.toLowerCase())?.[0] ?? null;

function speaksOfHarm(reason: string): string | null {
  for (const sentence of reason.toLowerCase().split(/[.;:!?]+/)) {
    const found = HARM.exec(sentence);
    if (found !== null && !NOT.test(sentence.slice(0, found.index))) return found[0];
  }
  return null;
}

/** What one answer establishes and what it raises must go together. */
function answered({ kind, id, finding, after }: Question): Trouble[] {
  const raisedHere = new Set(Object.values(after).flatMap(({ raises }) => raises));
  return Object.entries(after).flatMap(([answer, { sets, raises, clears }]) => {
    const now = { [finding]: answer, ...sets };
    const at = (message: string, remedy: string): Trouble => ({
      step: id,
      path: ['answers', answer],
      message,
      remedy,
    });
    const decides = Object.values(after).some(other => other.raises.includes('only-copy'));
    const only =
      decides && now[COPY] !== undefined && now[COPY] !== COPY_SEEN && now[MISSED] !== NOTHING_MISSED;
    // What was suspected before is not tested by it.
    const cleared = clears.find(sign => kind === 'ask' && raisedHere.has(sign));
    return [
      ...(cleared === undefined
        ? []
        : [
            at(
              `"${answer}" clears ${cleared}, which other answers here raise: it may have been raised before, by something else`,
              'clear it by a test that was seen to work, or by a question that is asked for it',
            ),
          ]),
      ...(now[SPINS] === SPINNING_DRIVE && !raises.includes('mechanical')
        ? [
            at(
              `"${answer}" says that a spinning drive is hurt, and mechanical is not raised`,
              'raise it with this answer',
            ),
          ]
        : []),
      ...(only && !raises.includes('only-copy')
        ? [at(`"${answer}" counts as no copy, and only-copy is not raised`, 'raise it with this answer')]
        : []),
      ...(now[COPY] === COPY_SEEN && raises.includes('only-copy')
        ? [
            at(
              `"${answer}" is a copy that was seen, and only-copy is raised`,
              'leave it out with this answer',
            ),
          ]
        : []),
    ];
  });
}

/** Where a question decides on signs, strong evidence for a failing drive and "not sure" raise one too. */
function weighed({ id, after }: Question): Trouble[] {
  const answers = Object.entries(after);
  const raised = new Set(answers.flatMap(([, { raises }]) => raises));
  const failing = answers.filter(([, { raises }]) => raises.includes('hardware-failure'));
  const grave =
    raised.has('mechanical') || raised.has('danger') || raised.has('attack') || failing.length > 1;
  const mild = raised.size === 1 && raised.has('suspect');
  const at = (answer: string, message: string): Trouble => ({
    ...{ step: id, path: ['raises'], message, remedy: `let "${answer}" raise at least suspect` },
  });
  return answers
    .filter(([, { raises }]) => raises.length === 0)
    .flatMap(([answer, { evidence }]) => {
      if (grave && answer === 'not-sure') return [at(answer, 'who is not sure is taken to be safe')];
      if (!mild || (evidence.for[FAILING] ?? 0) < STRONG_BITS) return [];
      return [
        at(answer, `"${answer}" speaks strongly for ${FAILING} and raises no sign, where other answers do`),
      ];
    });
}

type Lists = ReadonlyMap<string, (readonly string[])[]>;

/** By finding: the values that conditions compare it with, each list once. */
function listsOf(script: Script): Lists {
  const lists = new Map<string, (readonly string[])[]>();
  const said = new Set<string>();
  for (const { finding, values } of segmentSteps(script).flatMap(step => readsOf(step.if))) {
    const key = `${finding}: ${values.join(' ')}`;
    if (said.has(key)) continue;
    said.add(key);
    lists.set(finding, [...(lists.get(finding) ?? []), values]);
  }
  return lists;
}

/** Answers that every condition names together, and that set the same, raise signs together too. */
function treatedAlike({ kind, id, finding, after }: Question, compared: Lists): Trouble[] {
  if (kind !== 'ask') return [];
  const lists = compared.get(finding) ?? [];
  const groups = new Map<string, string[]>();
  for (const [answer, { sets, goes }] of Object.entries(after)) {
    const named = lists.map(list => list.includes(sets[finding] ?? answer));
    if (!named.includes(true)) continue;
    const key = JSON.stringify([named, { ...sets, [finding]: '' }, goes]);
    groups.set(key, [...(groups.get(key) ?? []), answer]);
  }
  return [...groups.values()].flatMap(group => {
    const raising = group.find(answer => after[answer]!.raises.length > 0);
    if (raising === undefined) return [];
    return group
      .filter(answer => after[answer]!.raises.length === 0)
      .map(answer => ({
        step: id,
        path: ['raises'],
        message: `"${answer}" is treated like "${raising}" everywhere, and raises no sign`,
        remedy: `raise with "${answer}" what "${raising}" raises, or go on differently from it`,
      }));
  });
}

/** A question that is put in several ways, and raises signs in each, raises the same with the same answer. */
function saidElsewhere(question: Question, all: readonly Question[]): Trouble[] {
  const raises = ({ id, label }: Answer, { answers, after }: Question): boolean | null => {
    const same = answers.some(other => other.id === id && other.label === label);
    return same ? after[id]!.raises.length > 0 : null;
  };
  return all
    .filter(other => other !== question && other.finding === question.finding)
    .flatMap(other => {
      const agreed = question.answers.some(each => raises(each, question) && raises(each, other));
      if (!agreed) return [];
      return question.answers
        .filter(each => each.id !== 'not-sure' && !raises(each, question) && raises(each, other))
        .map(({ id, label }) => ({
          step: question.id,
          path: ['raises'],
          message: `"${label}" raises no sign, and at another question about "${question.finding}" it does`,
          remedy: `raise with "${id}" the same at both`,
        }));
    });
}

/** Labels by which a drive may be failing, whatever the flow makes of them. Common practice, no source. */
const HARM_LABEL =
  /\b(?:drive|disk)\b.*\b(?:is gone|disappears?)\b|\bcomes and goes\b|\bgot very hot\b|\b1117\b/;
/** A technician reads off more than that, and goes on by it; this much is a sign to them too. */
const DESK_HARM_LABEL = /\bstopped with an error\b/;

function labelled({ id, answers, after }: Question, harm: RegExp): Trouble[] {
  return answers
    .filter(answer => harm.test(answer.label.toLowerCase()) && after[answer.id]?.raises.length === 0)
    .map(answer => ({
      step: id,
      path: ['answers', answer.id],
      message: `"${answer.label}" raises no sign: the ticket is ranked as if the drive were well`,
      remedy: 'raise suspect with it; a test that was seen to work may clear it',
    }));
}

/** Labels by which a spinning drive is hurt; a stick or card has nothing in it that moves. */
const HURT_LABEL = /\b(?:clicks|grinds|was dropped|knocked|wet|opened|freezer)\b/;
const NOTHING_MOVES = /\b(?:stick|card)\b/;

/**
 * Hurt is failing: what raises mechanical raises hardware-failure too, or suspect where a question follows that decides. And
 * technicians are asked for all that hurts in one question; from people such words are an alarm, which asks on.
 */
function hurt({ id, answers, after }: Question, desk: boolean): Trouble[] {
  const asked = desk && Object.values(after).some(({ raises }) => raises.includes('mechanical'));
  return answers.flatMap(({ id: answer, label }) => {
    const { raises } = after[answer]!;
    const at = (part: string, sign: string): Trouble => ({
      ...{ step: id, path: [part, answer] },
      message: `"${label}" tells of a drive that is hurt, and ${sign} is not raised`,
      remedy: 'raise mechanical and hardware-failure with it',
    });
    if (raises.includes('mechanical')) {
      const failing = raises.includes('hardware-failure') || raises.includes('suspect');
      return failing ? [] : [at('raises', 'hardware-failure')];
    }
    const words = label.toLowerCase();
    return asked && HURT_LABEL.test(words) && !NOTHING_MOVES.test(words) ? [at('answers', 'mechanical')] : [];
  });
}

/** An alarm's first question: whatever is not plainly a false alarm raises a sign. */
function alarm({ steps }: Script['interrupts'][string]): Trouble[] {
  const first = steps.find(isQuestionStep);
  if (first === undefined) return [];
  return Object.entries(first.after)
    .filter(([answer, { raises }]) => raises.length === 0 && !CALMING.includes(answer))
    .map(([answer]) => ({
      step: first.id,
      path: ['raises'],
      message: `"${answer}" to an alarm raises no sign`,
      remedy: `raise one; an answer that calls the alarm off is called ${CALMING.join(', ')}`,
    }));
}
