/**
 * Has the checker teeth? Damages the shipped flows in hundreds of ways and says which rule catches each. What nothing
 * catches must stand in teeth/harmless.yaml with the reason why it does no harm; what stands there must survive.
 */
import { existsSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { type Broken, check } from '#engine/check/check.ts';
import { agreeOnPaths, agreeOnRules } from '../engine/check/agree.ts';
import { say } from './figures.ts';
import { type Damage, damagesTo } from './teeth/damages.ts';
import { compileSources, flowsWith, readSources, type Sources } from './teeth/sources.ts';

const LEAST_DAMAGES = 500;
const RANDOM_FLOWS = 20;
const HARMLESS = new URL('./teeth/harmless.yaml', import.meta.url);

const shipped = readSources('flows');
const sizes = new Map(sizesOf(shipped));
const before = new Map<string, Set<string>>();

const keyOf = ({ rule, unit, path, message }: Broken) => JSON.stringify([rule, unit, path, message]);

function sizesOf(sources: Sources): [string, number][] {
  const symptoms = Object.keys(sources.flows);
  const { compiled, catalogue } = compileSources(sources, symptoms);
  return check(compiled, catalogue).each.map(({ flow, states }) => [flow, states]);
}

function proven(sources: Sources, symptoms: string[]): Broken[] {
  const { compiled, catalogue } = compileSources(sources, symptoms);
  return check(compiled, catalogue).broken;
}

/** The rule that catches the damage first, or null. What is wrong in these flows alone, undamaged, does not count. */
function caughtIn(damaged: Sources, symptoms: string[]): string | null {
  const name = symptoms.join();
  const known = before.get(name) ?? new Set(proven(shipped, symptoms).map(keyOf));
  before.set(name, known);
  try {
    return proven(damaged, symptoms).find(broken => !known.has(keyOf(broken)))?.rule ?? null;
  } catch {
    return 'the shape of the file';
  }
}

/** The smallest flow first: most damage shows there. */
function caughtBy(damage: Damage): string | null {
  const damaged = structuredClone(shipped);
  damage.apply(damaged);
  const { unit } = damage;
  const all = Object.keys(shipped.flows);
  const touched = unit.startsWith('blocks/')
    ? flowsWith(shipped, unit.slice('blocks/'.length))
    : unit in shipped.flows
      ? [unit]
      : all;
  const [first, ...rest] = touched.sort((a, b) => sizes.get(a)! - sizes.get(b)!);
  if (first === undefined) return null;
  return caughtIn(damaged, [first]) ?? (rest.length === 0 ? null : caughtIn(damaged, touched));
}

const damages = damagesTo(shipped);
const counts = new Map<string, number>();
const survivors: string[] = [];
for (const damage of damages) {
  const rule = caughtBy(damage);
  if (rule === null) survivors.push(damage.name);
  else counts.set(rule, (counts.get(rule) ?? 0) + 1);
}

const explained: Record<string, string> = existsSync(HARMLESS)
  ? (parse(readFileSync(HARMLESS, 'utf8')) ?? {})
  : {};
const unexplained = survivors.filter(name => explained[name] === undefined);
const stale = Object.keys(explained).filter(name => !survivors.includes(name));

say('damages', String(damages.length));
say('caught', String(damages.length - survivors.length));
for (const [rule, count] of [...counts].sort(([, a], [, b]) => b - a)) say(`  by ${rule}`, String(count));
say('harmless, each explained', String(survivors.length - unexplained.length));
for (const name of unexplained) console.log(`survives unexplained: ${name}`);
for (const name of stale) console.log(`explained as harmless, and caught or gone: ${name}`);

const { flows, found } = agreeOnRules(RANDOM_FLOWS);
say('random flows, the slow way agrees', `${flows}, with ${found} things wrong`);
say('  on the number of paths', String(agreeOnPaths(RANDOM_FLOWS)));
process.exitCode = unexplained.length + stale.length > 0 || damages.length < LEAST_DAMAGES ? 1 : 0;
