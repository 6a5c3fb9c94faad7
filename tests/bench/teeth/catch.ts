/** Which rule catches a damage, and whether a damage that none catches changes anything at all. */
import { type Broken, check } from '#engine/check/check.ts';
import type { Moment, Rule, Trouble } from '#engine/check/rule.ts';
import { RULES } from '#engine/check/rules.ts';
import type { ObservedView } from '#engine/check/view.ts';
import { isDeskTopic } from '#engine/schema.ts';
import type { Damage } from './damages.ts';
import { PROBE } from './probe.ts';
import { compileSources, flowsWith, type Sources } from './sources.ts';

const keyOf = ({ rule, unit, path, message }: Broken) => JSON.stringify([rule, unit, path, message]);

/** Finds the words that tell a damaged condition from the true one, if any conversation hears them. */
const TOLD_APART: Rule = {
  name: 'told-apart',
  proves: 'No conversation comes to where the damaged condition and the true one differ.',
  flow: ({ coverage }) =>
    [...coverage.taken]
      .filter(id => id.endsWith(PROBE))
      .map(step => ({ step, message: 'they differ here', remedy: '' })),
};

const FLOWS_FOR_PEOPLE = 4;
const FLOWS_FOR_DESK = 1;

export class Catcher {
  readonly #shipped: Sources;
  readonly #sizes: ReadonlyMap<string, number>;
  /** What is wrong in these flows alone, undamaged: it does not count. */
  readonly #known = new Map<string, Set<string>>();

  constructor(shipped: Sources) {
    this.#shipped = shipped;
    const { compiled } = compileSources(shipped, Object.keys(shipped.flows));
    this.#sizes = new Map(compiled.map(({ script }) => [script.symptom, script.main.length]));
  }

  /** The rule that catches it first, or null. The smallest flow comes first: most damage shows there. */
  caughtBy({ unit, damaged }: Damage): string | null {
    const sources = damaged();
    const [first, ...rest] = this.#shownIn(unit);
    if (first === undefined) return null;
    const rule = this.#caughtIn(sources, [first]);
    return rule ?? (rest.length === 0 ? null : this.#caughtIn(sources, [first, ...rest]));
  }

  /** Is there no conversation in which it makes a difference? */
  changesNothing({ unit, probed }: Damage): boolean {
    if (probed === null) return false;
    const { compiled, catalogue } = compileSources(probed(), flowsWith(this.#shipped, unit));
    return check(compiled, catalogue, { rules: [TOLD_APART] }).broken.length === 0;
  }

  /** A block's damage is looked for in the smallest flows for people with it, and the smallest for technicians. */
  #shownIn(unit: string): string[] {
    const flows = flowsWith(this.#shipped, unit).sort((a, b) => this.#sizes.get(a)! - this.#sizes.get(b)!);
    const [desk, people] = [flows.filter(isDeskTopic), flows.filter(flow => !isDeskTopic(flow))];
    return [...people.slice(0, FLOWS_FOR_PEOPLE), ...desk.slice(0, FLOWS_FOR_DESK)];
  }

  #caughtIn(damaged: Sources, symptoms: string[]): string | null {
    const name = symptoms.join();
    const known = this.#known.get(name) ?? new Set(proven(this.#shipped, symptoms).map(keyOf));
    this.#known.set(name, known);
    try {
      const found = proven(damaged, symptoms, known.size === 0 ? IMPATIENT : RULES);
      return found.find(broken => !known.has(keyOf(broken)))?.rule ?? null;
    } catch (error) {
      return error instanceof Caught ? error.rule : 'the shape of the file';
    }
  }
}

/** Flows with mistakes in their files are not even proven: they are refused before, with the same words. */
function proven(sources: Sources, symptoms: string[], rules: readonly Rule[] = RULES): Broken[] {
  const { compiled, catalogue } = compileSources(sources, symptoms);
  const problems = compiled.flatMap(flow => flow.problems);
  if (problems.length === 0) return check(compiled, catalogue, { rules }).broken;
  return problems.map(problem => ({ ...problem, rule: 'names-known', flow: '', conversation: null }));
}

class Caught extends Error {
  readonly rule: string;

  constructor(rule: string) {
    super(rule);
    this.rule = rule;
  }
}

/**
 * The rules, for flows in which nothing is wrong but the damage: the first thing that is found ends the proof. In an
 * interrupt's questions some states are there only for ways that others took, so what is found there has to wait.
 */
const IMPATIENT: readonly Rule[] = RULES.map(rule => {
  const told = (at: Moment, trouble: Trouble | null | undefined): Trouble | null => {
    const decided = (at.view as ObservedView).undecided === null;
    if (trouble && decided && at.segment === 'main') throw new Caught(rule.name);
    return trouble ?? null;
  };
  return {
    ...rule,
    ...(rule.opened && { opened: at => told(at, rule.opened?.(at)) }),
    ...(rule.ended && { ended: at => told(at, rule.ended?.(at)) }),
    ...(rule.unset && { unset: at => told(at, rule.unset?.(at)) }),
  } satisfies Rule;
});
