/** The names that stand in the folder, by kind, each with what an editor tells about it. */
import { SYMPTOMS } from '#engine/catalogue.ts';
import { type Block, type NameKind, SIGNS } from '#engine/schema.ts';
import type { Library } from './load.ts';

export interface Name {
  name: string;
  about?: string;
  /** Of a finding or a policy: what it can be. */
  values?: string[];
}

export type Names = Record<NameKind, Name[]>;

export function namesIn({ catalogue, blocks }: Pick<Library, 'catalogue' | 'blocks'>): Names {
  const { symptoms, faults, cautions, policies } = catalogue;
  const policy = named(policies, ({ about, values }) => ({ about, values }));
  return {
    symptom: SYMPTOMS.map(name => ({ name, about: symptoms[name]?.title })),
    block: named(blocks, ({ about }) => ({ about })),
    fault: named(faults, ({ name, means }) => ({ about: `${name}. ${means}` })),
    caution: named(cautions, ({ text }) => ({ about: text })),
    policy,
    finding: [
      ...SIGNS.map(name => ({ name, about: 'A sign.', values: ['no', 'yes'] })),
      ...policy.map(each => ({ ...each, name: `policy.${each.name}` })),
      ...findingsOf(Object.values(blocks)),
    ],
  };
}

const named = <T>(all: Record<string, T>, tell: (of: T) => Omit<Name, 'name'>): Name[] =>
  Object.entries(all)
    .map(([name, of]) => ({ name, ...tell(of) }))
    .sort(byName);

const byName = (a: Name, b: Name) => (a.name < b.name ? -1 : 1);

/** What blocks settle, whoever visits them: by the answer itself or by what it sets. */
function findingsOf(blocks: Block[]): Name[] {
  const found = new Map<string, { values: Set<string>; blocks: Set<string> }>();
  const add = (block: string, name: string, values: string[]) => {
    const at = found.get(name) ?? { values: new Set(), blocks: new Set() };
    found.set(name, at);
    for (const value of values) at.values.add(value);
    at.blocks.add(block);
  };
  for (const { block, steps } of blocks) {
    for (const step of steps) {
      if ('ask' in step && step.answers) add(block, step.as ?? step.id, Object.keys(step.answers));
      if (!('sets' in step)) continue;
      for (const sets of Object.values(step.sets ?? {})) {
        for (const [name, value] of Object.entries(sets)) add(block, name, [value]);
      }
    }
  }
  return [...found]
    .map(([name, { values, blocks: from }]) => ({
      name,
      about: `Settled by ${[...from].sort().join(', ')}.`,
      values: [...values],
    }))
    .sort(byName);
}
