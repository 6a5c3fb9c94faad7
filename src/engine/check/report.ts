/** The checker's report for people: what was proven, the aims in figures, and every broken rule with a conversation that shows it. */
import type { Origin } from '#engine/compile.ts';
import type { Broken, Report } from './check.ts';
import type { Conversation } from './conversation.ts';

export type Place = (origin: Origin) => { file: string; line: number };

/** `milliseconds` is measured by whoever ran the check. */
export function reportText(report: Report, place: Place, milliseconds: number): string {
  const { flows, steps, states, paths, longest, broken } = report;
  const lines = [
    `${flows} flows, ${steps} steps: ${states} states explored, ${paths} paths, the longest ${longest} questions. ${milliseconds} ms.`,
    '',
    ...aims(report),
  ];
  if (broken.length === 0) return [...lines, '', 'Every rule holds on every path.'].join('\n');
  return [...lines, '', ...broken.flatMap(each => [...brokenText(each, place), ''])].join('\n').trimEnd();
}

/** Rule 1's aims: first useful step by question 5, median 8, at most 4 questions after the hand-over is decided. */
function aims({ each }: Report): string[] {
  const rows = [
    ['flow', 'states', 'paths', 'first useful step', 'median', 'longest', 'after the decision'],
    ...each.map(row =>
      [row.flow, row.states, row.paths, row.firstUseful, row.median, row.longest, row.afterDecision].map(
        String,
      ),
    ),
  ];
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map(row => row[column]!.length)));
  return rows.map(row =>
    row
      .map((cell, column) => (column === 0 ? cell.padEnd(widths[0]!) : cell.padStart(widths[column]!)))
      .join('  '),
  );
}

function brokenText(broken: Broken, place: Place): string[] {
  const { file, line } = place(broken);
  return [
    `${file}:${line}: ${broken.rule}: ${broken.message} (flow ${broken.flow}).`,
    `  What to do: ${broken.remedy}.`,
    ...(broken.conversation === null ? [] : conversationText(broken.conversation)),
  ];
}

function conversationText({ policies, turns }: Conversation): string[] {
  const given = Object.entries(policies).map(([name, value]) => `${name}: ${value}`);
  return [
    '  The shortest conversation that shows it:',
    ...(given.length > 0 ? [`    with the policies ${given.join(', ')}`] : []),
    ...turns.flatMap(({ says, asks, answer }) => [
      ...says.map(text => `    Reseat: ${oneLine(text)}`),
      ...(asks === null ? [] : [`    Reseat: ${oneLine(asks)}`]),
      ...(answer === null ? [] : [`    Person: ${oneLine(answer)}`]),
    ]),
  ];
}

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();
