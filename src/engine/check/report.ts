/** The checker's report for people: what was proven, the aims in figures, and every broken rule with a conversation that shows it. */
import type { Origin } from '#engine/compile.ts';
import type { Broken, FlowReport, Report } from './check.ts';
import type { Conversation } from './conversation.ts';
import { MOST_QUESTIONS } from './names.ts';
import { RULES } from './rules.ts';

export type Place = (origin: Origin) => { file: string; line: number };

export function reportText(report: Report, place: Place): string {
  const { flows, steps, paths, longest } = report;
  const broken = told(report.broken);
  const looked = `${count(flows, 'flow')} with ${count(steps, 'step')} and ${count(paths, 'path')}; the longest asks ${count(longest, 'question')}.`;
  const mend = `${broken.length} ${broken.length === 1 ? 'thing' : 'things'} to mend`;
  return [
    broken.length === 0
      ? `Proven: every rule holds on every path. ${looked}`
      : `Not safe yet: ${mend}, below the table. Looked at: ${looked}`,
    '',
    ...aimsText(report.each),
    ...broken.flatMap(each => ['', ...brokenText(each, place)]),
  ].join('\n');
}

const count = (number: number | bigint, of: string): string =>
  `${number.toLocaleString('en')} ${of}${number === 1 || number === 1n ? '' : 's'}`;

/** Rule 1's aims: not proven but aimed at. Only the longest has a bound that is a rule. */
const AIMS: { title: string; most: number; of(row: FlowReport): number }[] = [
  { title: 'first useful step', most: 5, of: ({ firstUseful }) => firstUseful },
  { title: 'median', most: 8, of: ({ median }) => median },
  { title: 'longest', most: MOST_QUESTIONS, of: ({ longest }) => longest },
  { title: 'after the decision', most: 4, of: ({ afterDecision }) => afterDecision },
];

const LEGEND = [
  'Figures count questions; ! misses the aim. First useful step: something to try, or the end, has come by then',
  'on every path. Median: half of the paths ask no more. After the decision: asked when only a hand-over is left.',
];

function aimsText(each: FlowReport[]): string[] {
  const marked = (value: number, most: number) => `${value}${value > most ? '!' : ' '}`;
  const rows = [
    ['flow', ...AIMS.map(({ title }) => `${title} `)],
    ['aim, at most', ...AIMS.map(({ most }) => `${most} `)],
    ...each.map(row => [row.flow, ...AIMS.map(({ of, most }) => marked(of(row), most))]),
  ];
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map(row => row[column]!.length)));
  const table = rows.map(row =>
    row
      .map((cell, column) => (column === 0 ? cell.padEnd(widths[0]!) : cell.padStart(widths[column]!)))
      .join('  ')
      .trimEnd(),
  );
  return [...table, ...LEGEND];
}

/** A step that cannot be had because its condition is wrong is one thing to mend, not two. */
const told = (broken: Broken[]): Broken[] =>
  broken.filter(
    each =>
      each.rule !== 'reachable' ||
      !broken.some(
        other =>
          other.rule === 'conditions-set' &&
          other.unit === each.unit &&
          other.path.join() === each.path.join(),
      ),
  );

function brokenText(broken: Broken, place: Place): string[] {
  const { file, line } = place(broken);
  const rule = RULES.find(({ name }) => name === broken.rule);
  const seen = broken.unit === broken.flow ? '' : ` (seen in ${broken.flow})`;
  return [
    `${file}:${line}: ${broken.message}${seen}.`,
    `  What to do: ${broken.remedy}.`,
    ...(rule === undefined ? [] : [`  The rule, ${rule.name}: ${rule.proves}`]),
    ...(broken.conversation === null ? [] : conversationText(broken.conversation)),
  ];
}

function conversationText({ policies, turns }: Conversation): string[] {
  const given = Object.entries(policies).map(([name, value]) => `${name}: ${value}`);
  return [
    '  The shortest conversation that shows it:',
    ...(given.length > 0 ? [`    (where site.yaml says ${given.join(', ')})`] : []),
    ...turns.flatMap(({ says, asks, answer }) => [
      ...says.map(text => `    Reseat: ${oneLine(text)}`),
      ...(asks === null ? [] : [`    Reseat: ${oneLine(asks)}`]),
      ...(answer === null ? [] : [`    Person: ${oneLine(answer)}`]),
    ]),
  ];
}

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();
