/** The checker's report for people: what was proven, the aims in figures, and every broken rule with a conversation that shows it. */
import type { Origin } from '#engine/compile.ts';
import { verdictOf } from '#engine/script.ts';
import type { Broken, FlowReport, Report } from './check.ts';
import type { Conversation } from './conversation.ts';
import { MOST_QUESTIONS } from './names.ts';
import { RULES } from './rules.ts';

export type Place = (origin: Origin) => { file: string; line: number };

/** One word changed in a block or an alarm can show at hundreds. */
const MOST_PLACES = 12;

export function reportText(report: Report, place: Place): string {
  const { flows, steps, paths, longest } = report;
  const places = byPlace(report.broken);
  const looked = `${count(flows, 'flow')} with ${count(steps, 'step')} and ${count(paths, 'path')}; the longest asks ${count(longest, 'question')}.`;
  return [
    places.length === 0
      ? `Proven: every rule holds on every path. ${looked}`
      : `Not safe yet: ${count(places.length, 'place')} to mend, below the table. Looked at: ${looked}`,
    '',
    ...aimsText(report.each),
    ...places.slice(0, MOST_PLACES).flatMap(each => ['', ...brokenText(each, place)]),
    ...(places.length > MOST_PLACES
      ? [
          '',
          `And ${count(places.length - MOST_PLACES, 'place')} more, often by the same cause: mend these first, then check again.`,
        ]
      : []),
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

/** What is wrong at one step mostly has one cause: it is told once, by the shortest conversation that shows any of it. */
function byPlace(broken: Broken[]): [Broken, ...Broken[]][] {
  const places = new Map<string, [Broken, ...Broken[]]>();
  for (const each of broken) {
    // `steps`, which one, and what inside it.
    const step = JSON.stringify([each.unit, ...each.path.slice(0, 2)]);
    const others = places.get(step);
    if (others === undefined) places.set(step, [each]);
    else others.push(each);
  }
  for (const all of places.values()) all.sort((a, b) => turnsOf(a) - turnsOf(b));
  return [...places.values()];
}

/** What no conversation shows is often but a consequence of what one does. */
const turnsOf = ({ conversation }: Broken): number => conversation?.turns.length ?? Number.POSITIVE_INFINITY;

function brokenText([first, ...others]: [Broken, ...Broken[]], place: Place): string[] {
  const at = (broken: Broken) => {
    const { file, line } = place(broken);
    return `${file}:${line}`;
  };
  const rule = RULES.find(({ name }) => name === first.rule);
  const seen = first.unit === first.flow ? '' : ` (seen in ${first.flow})`;
  return [
    `${at(first)}: ${first.message}${seen}.`,
    `  What to do: ${first.remedy}.`,
    ...(rule === undefined ? [] : [`  The rule, ${rule.name}: ${rule.proves}`]),
    ...(first.conversation === null ? [] : conversationText(first.conversation)),
    ...(others.length === 0 ? [] : ['  Wrong with the same step, perhaps by the same cause:']),
    ...others.map(other => `    ${other.message}. What to do: ${other.remedy}.`),
  ];
}

/** Given like a policy, and no choice of the organisation's. */
const VERDICT = verdictOf('');

function conversationText({ policies, turns }: Conversation): string[] {
  const given = Object.entries(policies);
  const chosen = given.filter(([name]) => !name.startsWith(VERDICT));
  const workedOut = given.filter(([name]) => name.startsWith(VERDICT));
  return [
    '  The shortest conversation that shows it:',
    ...(chosen.length > 0
      ? [`    (where site.yaml says ${chosen.map(([name, value]) => `${name}: ${value}`).join(', ')})`]
      : []),
    ...workedOut.map(([name, value]) => `    (where ${name.slice(VERDICT.length)} works out as ${value})`),
    ...turns.flatMap(({ says, asks, answer }) => [
      ...says.map(text => `    Reseat: ${oneLine(text)}`),
      ...(asks === null ? [] : [`    Reseat: ${oneLine(asks)}`]),
      ...(answer === null ? [] : [`    Person: ${oneLine(answer)}`]),
    ]),
  ];
}

/** A long text is known by how it begins; it stands in the flow in full. */
const MOST_SHOWN = 140;

function oneLine(text: string): string {
  const line = text.replaceAll('**', '').replace(/\s+/g, ' ').trim();
  if (line.length <= MOST_SHOWN) return line;
  return `${line.slice(0, line.lastIndexOf(' ', MOST_SHOWN))} ...`;
}
