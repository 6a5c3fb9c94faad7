/** What a drawing is made from: flows and blocks as they stand in their files, and the words that they name by id. */
import type { Block, Flow, FlowStep } from '#engine/schema.ts';

export interface Written {
  flows: Readonly<Record<string, Flow>>;
  blocks: Readonly<Record<string, Block>>;
  /** Answers of a question that takes the organisation's own sites. */
  sites: { id: string; label: string }[];
  /** By id: what a fault is called, what a caution says, which values a policy can have. */
  faults: Readonly<Record<string, string>>;
  cautions: Readonly<Record<string, string>>;
  policies: Readonly<Record<string, string[]>>;
}

/** What is drawn: one file. */
export interface Subject {
  kind: 'flow' | 'block';
  id: string;
  about: string;
  steps: readonly FlowStep[];
}

/** The flow or block of that name; null when there is none. */
export function subjectOf(written: Written, kind: 'flow' | 'block', id: string): Subject | null {
  if (kind === 'flow') {
    const flow = Object.hasOwn(written.flows, id) ? written.flows[id] : undefined;
    return flow === undefined ? null : { kind, id, about: flow.title, steps: flow.steps };
  }
  const block = Object.hasOwn(written.blocks, id) ? written.blocks[id] : undefined;
  return block === undefined ? null : { kind, id, about: block.about, steps: block.steps };
}
