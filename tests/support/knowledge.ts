/** The shipped flows as decide knows them. */
import { check } from '#engine/check/check.ts';
import { loadLibrary } from '#library/load.ts';
import type { Knowledge } from '#talk/knowledge.ts';
import { knowledgeFor } from '../../src/commands/replay.ts';

const loaded = loadLibrary('flows');
export const knowledge: Knowledge = knowledgeFor({ load: () => loaded });

/** The same as after a start, which proves the flows and so knows how long they can get. */
export function proven(): Knowledge {
  const { catalogue, flows } = loaded.library!;
  const { each } = check(
    Object.values(flows).map(({ compiled }) => compiled),
    catalogue,
  );
  const longest = new Map(each.map(({ flow, longest: most }) => [flow, most]));
  const known = Object.entries(knowledge.flows).map(([flow, given]) => [
    flow,
    { ...given, longest: longest.get(flow) ?? null },
  ]);
  return { ...knowledge, flows: Object.fromEntries(known) };
}
