/** Proves the flows: explores each, lets every rule look, and tells the shortest conversation that shows what is wrong. */
import type { Catalogue } from '#engine/catalogue.ts';
import type { Compiled } from '#engine/compile.ts';
import type { Conversation } from './conversation.ts';
import { MOST_STATES } from './explore.ts';
import type { Figures } from './figures.ts';
import { judge } from './judge.ts';
import type { PlacedTrouble, Rule, Subject } from './rule.ts';
import { RULES } from './rules.ts';
import { sharedBy } from './shared.ts';
import { segmentSteps } from './written.ts';

/** A rule that does not hold. `flow` is the first one that shows it: a block's step may stand in several. */
export interface Broken extends PlacedTrouble {
  rule: string;
  /** The shortest that shows it; null where the files themselves show it. */
  conversation: Conversation | null;
}

export interface FlowReport extends Omit<Figures, 'trail'> {
  flow: string;
  steps: number;
  states: number;
}

export interface Report {
  flows: number;
  steps: number;
  states: number;
  paths: bigint;
  longest: number;
  broken: Broken[];
  each: FlowReport[];
}

export interface CheckOptions {
  /** Rules to apply; all by default. */
  rules?: readonly Rule[];
  /** States per flow from which on it is an error. */
  mostStates?: number;
}

export function check(
  compiled: readonly Compiled[],
  catalogue: Catalogue,
  { rules = RULES, mostStates = MOST_STATES }: CheckOptions = {},
): Report {
  const broken = new Map<string, Broken>();
  const add = (found: Broken) => {
    const key = JSON.stringify([found.rule, found.unit, found.path, found.message]);
    const other = broken.get(key);
    if (other === undefined || turns(found) < turns(other)) broken.set(key, found);
  };
  const each: FlowReport[] = [];
  const subjects: Subject[] = [];
  const shared = sharedBy(compiled.map(({ script }) => script));
  for (const flow of compiled) {
    const { explored, subject, found } = judge(flow, shared(flow.script), catalogue, rules, mostStates);
    found.forEach(add);
    const { trail: _, ...figures } = subject.figures;
    // A trail holds on to all states of its flow.
    if (explored.complete) subjects.push({ ...subject, figures: { ...figures, trail: [] } });
    each.push({ flow: flow.script.symptom, steps: stepsIn(flow), states: explored.states, ...figures });
  }
  for (const rule of rules) {
    for (const trouble of rule.together?.(subjects, catalogue) ?? []) {
      add({ rule: rule.name, ...trouble, conversation: null });
    }
  }
  return {
    flows: compiled.length,
    steps: total(each.map(({ steps }) => steps)),
    states: total(each.map(({ states }) => states)),
    paths: each.reduce((sum, { paths }) => sum + paths, 0n),
    longest: Math.max(0, ...each.map(({ longest }) => longest)),
    broken: [...broken.values()],
    each,
  };
}

const turns = ({ conversation }: Broken): number => conversation?.turns.length ?? 0;

const total = (numbers: number[]): number => numbers.reduce((sum, each) => sum + each, 0);

/** Steps as written: doors and ends of blocks are the compiler's. */
const stepsIn = ({ script }: Compiled): number =>
  segmentSteps(script).filter(({ kind }) => kind !== 'gate' && kind !== 'mark').length;
