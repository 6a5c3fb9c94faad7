/**
 * Prints what hearing saves: `npm run hearing:saved`. Plays the scenarios and the walks of the flows and counts the questions that
 * people had to answer, and those that what they had said before had answered.
 */
import { existsSync, readFileSync } from 'node:fs';
import { SYMPTOMS } from '#engine/catalogue.ts';
import { fold } from '#engine/fold.ts';
import { loadKept } from '#library/kept.ts';
import { readYaml } from '#library/yaml.ts';
import { flowFor } from '#talk/knowledge.ts';
import { rehearse } from '#talk/rehearse.ts';
import { walks } from '#talk/walk.ts';
import { knowledgeFor } from '../../src/commands/replay.ts';
import { factsHeard } from './facts.ts';
import { load } from './load.ts';

const loaded = loadKept('flows');
if (loaded.library === null) throw new Error('the flows do not load');
const knowledge = knowledgeFor(loaded);

interface Count {
  asked: number;
  saved: number;
}
type Said = { at: string; say: string } | { at: string; press: string };
interface Scenario {
  symptom: string;
  voice: 'terse' | 'ordinary' | 'story';
  truth: string;
  opening: string;
  says: Said[];
}

/** Nobody is asked for ever. */
const MOST = 40;

/** Each question gets what was said at it; one that was not asked when this was written, that they are not sure. */
function play(opening: string, says: readonly Said[]): Count & { shown: string[] } {
  const talk = rehearse(knowledge);
  talk.say(opening);
  const left = [...says];
  const shown: string[] = [];
  let asked = 0;
  for (let question = talk.question(); question !== null && asked < MOST; question = talk.question()) {
    const { step } = question;
    const at = left.findIndex(each => each.at === step);
    const said = at === -1 ? null : left[at]!;
    if (at !== -1) left.splice(at, 1);
    asked += 1;
    const ids = 'answers' in question ? question.answers.map(({ id }) => id) : [];
    const press = said !== null && 'press' in said && ids.includes(said.press) ? said.press : null;
    if (press !== null) talk.press(press);
    else if (said !== null && 'say' in said) talk.say(said.say);
    else if (ids.length > 0)
      talk.press(['not-sure', 'could-not'].find(id => ids.includes(id)) ?? ids.at(-1)!);
    else talk.say('no idea');
    shown.push(step);
  }
  const { symptom, entries } = talk.conversation();
  const { state } = fold(flowFor(knowledge, symptom)?.script ?? null, entries);
  const saved = new Set(state.answers.filter(each => each.fromOpening).map(each => each.step));
  return { saved: saved.size, asked, shown };
}

const sum = (values: number[]): number => values.reduce((total, value) => total + value, 0);
const median = (values: number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
};
const percent = (part: number, whole: number): string => `${((100 * part) / whole).toFixed(0)}%`;

function tell(what: string, counts: Count[]): void {
  const asked = counts.map(each => each.asked);
  const all = counts.map(each => each.asked + each.saved);
  const [now, before] = [median(asked), median(all)];
  console.log(
    `${what} (${counts.length}): median ${now} questions of ${before}, ${percent(before - now, before)} fewer; ` +
      `in all ${sum(all) - sum(asked)} of ${sum(all)} saved (${percent(sum(all) - sum(asked), sum(all))})`,
  );
}

const scenarios = load<Scenario[]>('scenarios.yaml');
const played = scenarios.map(each => ({ ...each, ...play(each.opening, each.says) }));
tell('scenarios', played);
for (const voice of ['terse', 'ordinary', 'story'])
  tell(
    `  ${voice}`,
    played.filter(each => each.voice === voice),
  );
tell(
  'scenarios set aside',
  load<Scenario[]>('scenarios-aside.yaml').map(each => play(each.opening, each.says)),
);
if (process.argv.includes('--asked'))
  for (const { opening, shown, saved } of played)
    console.log(`\n${opening}\n  ${saved} saved, asked: ${shown.join(', ')}`);

tell(
  'walks of the flows',
  SYMPTOMS.flatMap(symptom => {
    const file = `flows/${symptom}/walks.yaml`;
    if (!existsSync(file)) return [];
    return walks.parse(readYaml(file, readFileSync(file, 'utf8')).value).flatMap(({ opening, says }) =>
      opening === undefined
        ? []
        : [
            play(
              opening,
              says.filter((said): said is Said => !('word' in said)),
            ),
          ],
    );
  }),
);
const { openings, said, right, heard, wrong, missed, unread } = factsHeard(loaded.library);
console.log(
  `${openings} openings with ${said} facts: ${right} heard (${((100 * right) / said).toFixed(1)}%), ` +
    `right ${((100 * right) / heard).toFixed(1)}% (${right}/${heard}), not read yet ${unread.length}`,
);
if (process.argv.includes('--wrong'))
  for (const [kind, lines] of Object.entries({ wrong, missed, unread }))
    for (const line of lines) console.log(`  ${kind}: ${line}`);
