/** The shipped flows, or those of another folder, as decide knows them. */
import { check } from '#engine/check/check.ts';
import type { Script } from '#engine/script.ts';
import { loadKept } from '#library/kept.ts';
import type { Loaded } from '#library/load.ts';
import type { Knowledge } from '#talk/knowledge.ts';
import { knowledgeFor } from '../../src/commands/replay.ts';
import { catalogue, site } from './flows.ts';

const shipped = loadKept('flows');
export const knowledge: Knowledge = knowledgeFor(shipped);

/** The same as after a start, which proves the flows and so knows how long they can get. */
export function proven(loaded: Loaded = shipped): Knowledge {
  const known = knowledgeFor(loaded);
  const { catalogue, flows } = loaded.library!;
  const { each } = check(
    Object.values(flows).map(({ compiled }) => compiled),
    catalogue,
  );
  const longest = new Map(each.map(({ flow, longest: most }) => [flow, most]));
  const told = Object.entries(known.flows).map(([flow, given]) => [
    flow,
    { ...given, longest: longest.get(flow) ?? null },
  ]);
  return { ...known, flows: Object.fromEntries(told) };
}

/** This flow alone, in the house of the small ones. */
export const knowingOnly = (script: Script): Knowledge => ({
  ...knowledge,
  catalogue,
  site,
  flows: { [script.symptom]: { script, hash: 'h', longest: null } },
});
