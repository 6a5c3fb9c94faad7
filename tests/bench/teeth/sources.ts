/** The shipped flows as their authors wrote them, so that they can be damaged the way authors do damage. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import * as shapes from '#engine/catalogue.ts';
import { type Compiled, compile } from '#engine/compile.ts';
import { block as blockShape, flow as flowShape } from '#engine/schema.ts';

// biome-ignore lint/suspicious/noExplicitAny: damaged files have no shape to rely on
export type Raw = any;

export interface Sources {
  flows: Record<string, Raw>;
  blocks: Record<string, Raw>;
  catalogue: Record<string, Raw>;
  site: Raw;
}

const CATALOGUE = {
  symptoms: ['symptoms', shapes.symptoms],
  faults: ['faults', shapes.faults],
  cautions: ['cautions', shapes.cautions],
  interrupts: ['interrupts', shapes.interrupts],
  screenMessages: ['screen-messages', shapes.screenMessages],
  policies: ['policies', shapes.policies],
} as const;

export function readSources(folder: string): Sources {
  const read = (...path: string[]): Raw => parse(readFileSync(join(folder, ...path), 'utf8'));
  const folders = (path: string) =>
    readdirSync(path, { withFileTypes: true }).flatMap(entry => (entry.isDirectory() ? [entry.name] : []));
  const flows = folders(folder).filter(name => name !== 'blocks' && name !== 'catalogue');
  return {
    flows: Object.fromEntries(flows.map(name => [name, read(name, 'flow.yaml')])),
    blocks: Object.fromEntries(
      folders(join(folder, 'blocks')).map(name => [name, read('blocks', name, 'block.yaml')]),
    ),
    catalogue: Object.fromEntries(
      Object.entries(CATALOGUE).map(([name, [file]]) => [name, read('catalogue', `${file}.yaml`)]),
    ),
    site: read('site.yaml'),
  };
}

/** Throws where a file does not even fit its shape. */
export function compileSources(
  { flows, blocks, catalogue, site }: Sources,
  symptoms: readonly string[],
): { compiled: Compiled[]; catalogue: shapes.Catalogue } {
  const parsed = Object.fromEntries(
    Object.entries(CATALOGUE).map(([name, [, shape]]) => [name, shape.parse(catalogue[name])]),
  ) as unknown as shapes.Catalogue;
  const inlined = Object.fromEntries(Object.entries(blocks).map(([id, raw]) => [id, blockShape.parse(raw)]));
  const where = shapes.site.parse(site);
  return {
    compiled: symptoms.map(symptom => compile(flowShape.parse(flows[symptom]), inlined, parsed, where)),
    catalogue: parsed,
  };
}

/** The flows that a block stands in: visited, visited by what they visit, or led to by an interrupt. */
export function flowsWith(sources: Sources, block: string): string[] {
  const visits = (steps: Raw[], seen: Set<string>): boolean =>
    steps.some(({ visit }) => {
      if (visit === block) return true;
      if (visit === undefined || seen.has(visit)) return false;
      seen.add(visit);
      return visits(sources.blocks[visit]?.steps ?? [], seen);
    });
  const inInterrupt = Object.values(sources.catalogue.interrupts).some(
    (about: Raw) => about.block === block || visits(sources.blocks[about.block]?.steps ?? [], new Set()),
  );
  const all = Object.keys(sources.flows);
  return inInterrupt ? all : all.filter(symptom => visits(sources.flows[symptom].steps, new Set()));
}
