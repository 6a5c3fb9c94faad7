/** Prints what hearing the first words saves: `npm run hearing:saved`. Plays every walk of the flows and counts the questions that were asked and those that were not. */
import { existsSync, readFileSync } from 'node:fs';
import { SYMPTOMS } from '#engine/catalogue.ts';
import { fold } from '#engine/fold.ts';
import { loadLibrary } from '#library/load.ts';
import { readYaml } from '#library/yaml.ts';
import { flowFor } from '#talk/knowledge.ts';
import { rehearse } from '#talk/rehearse.ts';
import { walks } from '#talk/walk.ts';
import { knowledgeFor } from '../../src/commands/replay.ts';
import { factsHeard } from './facts.ts';

const loaded = loadLibrary('flows');
if (loaded.library === null) throw new Error('the flows do not load');
const knowledge = knowledgeFor({ load: () => loaded });

/** Questions asked and questions that the opening had answered. */
interface Count {
  asked: number;
  saved: number;
}

function play(walk: ReturnType<typeof walks.parse>[number]): Count | null {
  if (walk.opening === undefined) return null;
  const talk = rehearse(knowledge);
  talk.say(walk.opening);
  for (const said of walk.says) {
    if (talk.question()?.step !== said.at) continue;
    if ('say' in said) talk.say(said.say);
    else if ('press' in said) talk.press(said.press);
    else return null;
  }
  const { symptom, entries } = talk.conversation();
  const { state } = fold(flowFor(knowledge, symptom)?.script ?? null, entries);
  const saved = new Set(state.answers.filter(each => each.fromOpening).map(each => each.step)).size;
  return { saved, asked: entries.filter(entry => entry.kind === 'answer').length };
}

const median = (values: number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0;

const counts = SYMPTOMS.flatMap(symptom => {
  const file = `flows/${symptom}/walks.yaml`;
  if (!existsSync(file)) return [];
  return walks.parse(readYaml(file, readFileSync(file, 'utf8')).value).flatMap(walk => play(walk) ?? []);
});
const asked = counts.map(each => each.asked);
const before = counts.map(each => each.asked + each.saved);
const sum = (values: number[]): number => values.reduce((total, value) => total + value, 0);
console.log(
  `${counts.length} walks: median ${median(asked)} questions, ${median(before)} had the opening not been heard; ` +
    `${sum(before) - sum(asked)} of ${sum(before)} questions saved (${((100 * (sum(before) - sum(asked))) / sum(before)).toFixed(0)}%)`,
);
const { openings, said, right, heard, wrong, missed, unread } = factsHeard(loaded.library);
console.log(
  `${openings} openings with ${said} facts: ${right} heard (${((100 * right) / said).toFixed(1)}%), ` +
    `right ${((100 * right) / heard).toFixed(1)}% (${right}/${heard}), not read yet ${unread.length}`,
);
if (process.argv.includes('--wrong'))
  for (const [kind, lines] of Object.entries({ wrong, missed, unread }))
    for (const line of lines) console.log(`  ${kind}: ${line}`);
