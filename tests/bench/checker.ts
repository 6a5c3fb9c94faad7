/**
 * Has the checker teeth? Damages the shipped flows in hundreds of ways and says which rule catches each. What no rule
 * catches either changes nothing in any conversation, which is proven; or a recorded walk comes out differently, which
 * `reseat replay` tells; or it must stand in teeth/harmless.yaml with the reason why it does no harm, and survive.
 * A walk is the weaker net: it holds one conversation of one flow, where a rule holds them all, of flows to come as well.
 * `--all` does every damage, else a fixed sample of them.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { parse } from 'yaml';
import { loadKept } from '#library/kept.ts';
import { knowledgeFor } from '../../src/commands/replay.ts';
import { agreeOnPaths, agreeOnRules, agreeOnWords } from '../engine/check/agree.ts';
import { say } from './figures.ts';
import { Catcher } from './teeth/catch.ts';
import { chosen } from './teeth/choice.ts';
import { damagesTo } from './teeth/damages.ts';
import { readSources } from './teeth/sources.ts';
import { Walked } from './teeth/walked.ts';

const LEAST_DAMAGES = 500;
/** About two minutes on one core. */
const USUAL_DAMAGES = 600;
const RANDOM_FLOWS = 1000;
const FOLDER = 'flows';
const HARMLESS = new URL('./teeth/harmless.yaml', import.meta.url);

const { all } = parseArgs({ options: { all: { type: 'boolean' } } }).values;
const shipped = readSources(FOLDER);
const damages = damagesTo(shipped);
const tried = all ? damages : chosen(damages, USUAL_DAMAGES);
const catcher = new Catcher(shipped);
const walked = new Walked(FOLDER, shipped, knowledgeFor(loadKept(FOLDER)));

const counts = new Map<string, number>();
const survivors: string[] = [];
let unchanged = 0;
let byWalk = 0;
for (const damage of tried) {
  const rule = catcher.caughtBy(damage);
  if (rule !== null) counts.set(rule, (counts.get(rule) ?? 0) + 1);
  else if (catcher.changesNothing(damage)) unchanged += 1;
  else if (walked.comesOutDifferently(damage)) byWalk += 1;
  else survivors.push(damage.name);
}

const explained: Record<string, string> = parse(readFileSync(HARMLESS, 'utf8')) ?? {};
const unexplained = survivors.filter(name => explained[name] === undefined);
const known = new Set(damages.map(({ name }) => name));
const done = new Set(tried.map(({ name }) => name));
const stale = Object.keys(explained).filter(
  name => !known.has(name) || (done.has(name) && !survivors.includes(name)),
);

const harmful = tried.length - unchanged;
say('damages', `${harmful}${all ? '' : `, a sample of ${damages.length}`}`);
say('  beside them, proven to change no conversation', String(unchanged));
say('caught by a rule', String(harmful - survivors.length - byWalk));
for (const [rule, count] of [...counts].sort(([, a], [, b]) => b - a)) say(`  by ${rule}`, String(count));
say('caught by a recorded walk only', String(byWalk));
say('harmless, each explained', String(survivors.length - unexplained.length));
for (const name of unexplained) console.log(`survives unexplained: ${name}`);
for (const name of stale) console.log(`explained as harmless, and caught or gone: ${name}`);

const { flows, found } = agreeOnRules(RANDOM_FLOWS);
say('random flows, the slow way agrees', `${flows}, with ${found} things wrong`);
say('  on words that nobody ever hears', `${agreeOnWords(RANDOM_FLOWS)} words`);
say('  on the number of paths', String(agreeOnPaths(RANDOM_FLOWS)));
process.exitCode = unexplained.length + stale.length > 0 || harmful < LEAST_DAMAGES ? 1 : 0;
