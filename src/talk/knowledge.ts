/** What decide may know beside the conversation itself: plain data, gathered by the shell. */
import type { Catalogue, Site } from '#engine/catalogue.ts';
import { ANY } from '#engine/catalogue.ts';
import { isDeskTopic } from '#engine/schema.ts';
import type { Script } from '#engine/script.ts';
import type { Openings } from '#hearing/opening.ts';
import type { Outage } from '#store/store.ts';

export interface Knowledge {
  catalogue: Catalogue;
  site: Site;
  /** `longest`: questions of the longest conversation on it, where it was proven. */
  flows: Record<string, { script: Script; hash: string; longest: number | null }>;
  openings: Openings;
  /** Closed tickets that confirmed each fault, by symptom. */
  confirmed: Record<string, Record<string, number>>;
  /** Open ones. */
  outages: Outage[];
  settings: Settings;
}

export interface Settings {
  /** Milliseconds without an answer until one nudge, and until the conversation counts as left. */
  nudgeAfter: number;
  leftAfter: number;
  /** Lanes of the places where the desk sees its tickets. */
  boards: string[];
}

/** The flow of a symptom; where none is named, the general one hands over. */
export function flowFor(
  knowledge: Knowledge,
  symptom: string | null,
): { script: Script; hash: string } | null {
  return (symptom === null ? undefined : knowledge.flows[symptom]) ?? knowledge.flows[ANY] ?? null;
}

export const titleOf = (knowledge: Knowledge, symptom: string | null): string =>
  (symptom === null ? undefined : knowledge.catalogue.symptoms[symptom]?.title) ??
  (isDeskTopic(symptom) ? knowledge.flows[symptom!]?.script.title : undefined) ??
  'a problem with your device';
