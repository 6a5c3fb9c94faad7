/** The net under the rules: does a damage show in a conversation that somebody recorded beside the flows? */
import { existsSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Knowledge } from '#talk/knowledge.ts';
import { playWalk, type Walk, walks } from '#talk/walk.ts';
import type { Damage } from './damages.ts';
import { compileSources, flowsWith, type Sources } from './sources.ts';

export class Walked {
  readonly #shipped: Sources;
  readonly #knowledge: Knowledge;
  readonly #recorded: ReadonlyMap<string, Walk[]>;

  /** The folder and the flows in it, as files and as conversations know them. */
  constructor(folder: string, shipped: Sources, knowledge: Knowledge) {
    this.#shipped = shipped;
    this.#knowledge = knowledge;
    this.#recorded = new Map(Object.keys(shipped.flows).map(flow => [flow, recordedFor(folder, flow)]));
  }

  /** Does a walk of a flow with the damaged file come out otherwise than as written? */
  comesOutDifferently({ unit, damaged }: Damage): boolean {
    const flows = flowsWith(this.#shipped, unit);
    const { compiled, catalogue } = compileSources(damaged(), flows);
    const scripts = compiled.map(({ script }) => [
      script.symptom,
      { ...this.#knowledge.flows[script.symptom]!, script },
    ]);
    const known = {
      ...this.#knowledge,
      catalogue,
      flows: { ...this.#knowledge.flows, ...Object.fromEntries(scripts) },
    };
    return flows.some(flow => this.#recorded.get(flow)!.some(walk => playWalk(known, walk) !== null));
  }
}

function recordedFor(folder: string, flow: string): Walk[] {
  const file = `${folder}/${flow}/walks.yaml`;
  return existsSync(file) ? walks.parse(parse(readFileSync(file, 'utf8'))) : [];
}
