/** Ways to damage the shipped flows, each with a name that stays the same when other flows are added or steps move. */
import { isDeskTopic } from '#engine/schema.ts';
import { changesTo } from './catalogue.ts';
import { cutsTo } from './cuts.ts';
import { PROBE, probeFor } from './probe.ts';
import { copyFor, flowsWith, type Raw, type Sources } from './sources.ts';

export interface Damage {
  /** Stands for it in harmless.yaml, so it says what was done where. */
  name: string;
  /** The file it is done to: a symptom, `blocks/NAME` or `catalogue`. */
  unit: string;
  damaged(): Sources;
  /** The undamaged flows with words (PROBE) that are said where the damage makes a difference; null where that is everywhere. */
  probed: (() => Sources) | null;
}

/** Blocks that visit no other, in whose place an author could name them. */
const QUIET_BLOCKS = ['switch-off', 'power-now', 'where-are-you', 'what-happened', 'save-now'];

const kindOf = (step: Raw): string =>
  ['ask', 'try', 'visit', 'hand_over', 'caution', 'end', 'say'].find(kind => kind in step) ?? 'step';

const conditionOf = (step: Raw): string =>
  Object.entries(step.if ?? {})
    .map(([finding, value]) => `${finding}=${typeof value === 'string' ? value : JSON.stringify(value)}`)
    .join(' ')
    .replaceAll('"', '');

function nameOf(step: Raw): string {
  if (step.id) return step.id;
  if (step.visit) return `visit ${step.visit}`;
  if (step.caution) return `caution ${step.caution}`;
  const when = conditionOf(step);
  return when === '' ? kindOf(step) : `${kindOf(step)} where ${when}`;
}

function namesOf(steps: Raw[]): string[] {
  const counts = new Map<string, number>();
  return steps.map(step => {
    const name = nameOf(step);
    const count = (counts.get(name) ?? 0) + 1;
    counts.set(name, count);
    return count === 1 ? name : `${name} (${count})`;
  });
}

const stepsIn = ({ flows, blocks }: Sources, unit: string): Raw[] =>
  (unit in flows ? flows[unit] : blocks[unit.slice('blocks/'.length)]).steps;

function toSteps(sources: Sources, unit: string): Damage[] {
  const steps = stepsIn(sources, unit);
  const names = namesOf(steps);
  const failing = failingFaults(sources);
  const foreign = foreignFault(sources, unit);
  const unvisited = QUIET_BLOCKS.filter(
    id => `blocks/${id}` !== unit && !steps.some(({ visit }) => visit === id),
  );
  const desk = flowsWith(sources, unit).every(isDeskTopic);
  return steps.flatMap((step, index) => {
    const [before, later] = [steps.slice(0, index), steps.slice(index + 1)];
    return cutsTo({ step, before, later, desk, unvisited, failing, foreign }).map(([what, cut]): Damage => {
      const damaged = () => {
        const copy = copyFor(sources, unit);
        cut(stepsIn(copy, unit), index);
        return copy;
      };
      const probe = probeFor(steps, index, cut);
      const probed = probe === null ? null : () => withProbe(sources, unit, index, probe);
      return { name: `${unit}: ${names[index]}: ${what}`, unit, damaged, probed };
    });
  });
}

function withProbe(sources: Sources, unit: string, index: number, differs: Raw): Sources {
  const copy = copyFor(sources, unit);
  stepsIn(copy, unit).splice(index, 0, { id: PROBE, say: 'Here they differ.', if: differs });
  return copy;
}

const failingFaults = ({ catalogue }: Sources): ReadonlySet<string> =>
  new Set(Object.keys(catalogue.faults).filter(fault => catalogue.faults[fault].failing));

function foreignFault(sources: Sources, unit: string): string | undefined {
  const flows = flowsWith(sources, unit);
  if (flows.includes('any')) return undefined;
  return Object.entries<Raw>(sources.catalogue.faults).find(([, { symptoms }]) =>
    flows.every(flow => !symptoms.includes(flow)),
  )?.[0];
}

const toCatalogue = (sources: Sources): Damage[] =>
  changesTo(sources.catalogue).map(([what, change]) => ({
    name: `catalogue: ${what}`,
    unit: 'catalogue',
    damaged: () => {
      const copy = copyFor(sources, 'catalogue');
      change(copy.catalogue);
      return copy;
    },
    probed: null,
  }));

export const damagesTo = (sources: Sources): Damage[] => [
  ...Object.keys(sources.flows).flatMap(symptom => toSteps(sources, symptom)),
  ...Object.keys(sources.blocks).flatMap(id => toSteps(sources, `blocks/${id}`)),
  ...toCatalogue(sources),
];
