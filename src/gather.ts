/** Gathers what decide may know: flows, figures of closed tickets, open outages; and ends what no longer passes. */
import { check } from '#engine/check/check.ts';
import type { Script } from '#engine/script.ts';
import { prepareOpenings } from '#hearing/opening.ts';
import type { Library } from '#library/load.ts';
import type { Store } from '#store/store.ts';
import type { Inbound } from '#talk/inbound.ts';
import type { Knowledge, Settings } from '#talk/knowledge.ts';

export interface Gathering {
  knowledge(): Knowledge;
  /** Reads figures and outages anew. */
  refresh(): Promise<void>;
  /** From the next turn on, these flows. Conversations that have begun stay on theirs. */
  replace(library: Library): void;
  /** Conversations on a script that today's checker refuses are ended by a hand-over. */
  retire(take: (inbound: Inbound) => Promise<unknown>): Promise<number>;
}

export async function gather(
  first: Library,
  store: Store,
  settings: Settings,
  now: () => number,
): Promise<Gathering> {
  let library = first;
  let knowledge: Knowledge = { ...content(library), confirmed: {}, outages: [], settings };
  const refresh = async () => {
    const confirmed: Knowledge['confirmed'] = {};
    for (const { symptom, fault, tickets } of await store.confirmedFaults()) {
      confirmed[symptom] = { ...confirmed[symptom], [fault]: tickets };
    }
    knowledge = { ...knowledge, confirmed, outages: await store.outages({ open: true }) };
  };
  await refresh();
  return {
    knowledge: () => knowledge,
    refresh,
    replace(other) {
      library = other;
      knowledge = { ...knowledge, ...content(library) };
    },
    retire: async take => {
      let ended = 0;
      const todays = new Set(Object.values(knowledge.flows).map(({ hash }) => hash));
      for (const { hash, conversations } of await store.scriptsInUse()) {
        if (todays.has(hash)) continue;
        const script = await store.script(hash);
        if (script !== null && passes(script, library)) continue;
        for (const conversation of conversations) {
          const identity = `script-withdrawn:${conversation}:${hash}`;
          await take({
            kind: 'script-withdrawn',
            identity,
            at: now(),
            conversation,
            why: 'the script no longer passes the checker',
          });
          ended += 1;
        }
      }
      return ended;
    },
  };
}

/** What knowledge takes from the folder. */
function content({
  catalogue,
  site,
  flows,
}: Library): Pick<Knowledge, 'catalogue' | 'site' | 'flows' | 'openings'> {
  const used = Object.entries(flows).map(([symptom, { script, hash, longest }]) => [
    symptom,
    { script, hash, longest },
  ]);
  return { catalogue, site, flows: Object.fromEntries(used), openings: prepareOpenings(catalogue) };
}

/** Does a script of an earlier day pass today's checker? One of another format, or too strange to explore, does not. */
function passes(script: Script, { catalogue }: Library): boolean {
  try {
    return (
      script.format === 1 && check([{ script, origins: {}, problems: [] }], catalogue).broken.length === 0
    );
  } catch {
    return false;
  }
}
