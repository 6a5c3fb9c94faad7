/** The shipped flows as their authors wrote them, so that they can be damaged the way authors do damage. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import type { z } from 'zod';
import { type Catalogue, site as siteShape } from '#engine/catalogue.ts';
import { type Compiled, compile } from '#engine/compile.ts';
import { block as blockShape, flow as flowShape } from '#engine/schema.ts';
import { CATALOGUE } from '#library/load.ts';
import type { Json } from '../../support/json.ts';

export type Raw = Json;

export interface Sources {
  flows: Record<string, Raw>;
  blocks: Record<string, Raw>;
  catalogue: Record<string, Raw>;
  site: Raw;
}

export function readSources(folder: string): Sources {
  const read = (...path: string[]): Raw => parse(readFileSync(join(folder, ...path), 'utf8'));
  const folders = (path: string) =>
    readdirSync(path, { withFileTypes: true }).flatMap(entry => (entry.isDirectory() ? [entry.name] : []));
  const flows = folders(folder).filter(name => existsSync(join(folder, name, 'flow.yaml')));
  return {
    flows: Object.fromEntries(flows.map(name => [name, read(name, 'flow.yaml')])),
    blocks: Object.fromEntries(
      folders(join(folder, 'blocks')).map(name => [name, read('blocks', name, 'block.yaml')]),
    ),
    catalogue: Object.fromEntries(
      Object.entries(CATALOGUE).map(([name, [file]]) => [name, read('catalogue', file)]),
    ),
    site: read('site.yaml'),
  };
}

/** A copy that can be damaged in one file; the others are shared, so that they are read once only. */
export function copyFor(sources: Sources, unit: string): Sources {
  const copied = (files: Record<string, Raw>, name: string) => ({
    ...files,
    [name]: structuredClone(files[name]),
  });
  if (unit.startsWith('blocks/')) {
    return { ...sources, blocks: copied(sources.blocks, unit.slice('blocks/'.length)) };
  }
  if (unit in sources.flows) return { ...sources, flows: copied(sources.flows, unit) };
  const { cautions, interrupts } = sources.catalogue;
  return {
    ...sources,
    catalogue: {
      ...sources.catalogue,
      cautions: structuredClone(cautions),
      interrupts: structuredClone(interrupts),
    },
  };
}

const parsed = new WeakMap<object, unknown>();

function shaped<T extends z.ZodType>(shape: T, raw: Raw): z.infer<T> {
  if (!parsed.has(raw)) parsed.set(raw, shape.parse(raw));
  return parsed.get(raw) as z.infer<T>;
}

/** Throws where a file does not even fit its shape. */
export function compileSources(
  { flows, blocks, catalogue, site }: Sources,
  symptoms: readonly string[],
): { compiled: Compiled[]; catalogue: Catalogue } {
  const known = Object.fromEntries(
    Object.entries(CATALOGUE).map(([name, [, shape]]) => [name, shaped(shape, catalogue[name])]),
  ) as unknown as Catalogue;
  const inlined = Object.fromEntries(
    Object.entries(blocks).map(([id, raw]) => [id, shaped(blockShape, raw)]),
  );
  const where = shaped(siteShape, site);
  return {
    compiled: symptoms.map(symptom => compile(shaped(flowShape, flows[symptom]), inlined, known, where)),
    catalogue: known,
  };
}

/** The flows that a file stands in: itself, or for a block all that visit it or are led to it by an interrupt. */
export function flowsWith(sources: Sources, unit: string): string[] {
  const all = Object.keys(sources.flows);
  if (unit in sources.flows) return [unit];
  if (!unit.startsWith('blocks/')) return all;
  const block = unit.slice('blocks/'.length);
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
  return inInterrupt ? all : all.filter(symptom => visits(sources.flows[symptom].steps, new Set()));
}
