/** What the desk's side of Teams may use. */
import type { Catalogue, Site } from '#engine/catalogue.ts';
import type { Outage, Store } from '#store/store.ts';
import type { Inbound } from '#talk/inbound.ts';
import type { Adapter } from '../adapter.ts';
import type { Reference } from '../incoming.ts';
import type { Place } from './place.ts';

export interface DeskNeeds {
  adapter: Adapter;
  store: Pick<Store, 'ticket' | 'cardRef' | 'outages'>;
  knowledge(): { catalogue: Catalogue; site: Site; flows: Record<string, { script: { title: string } }> };
  /** Resolves after the commit. */
  take(inbound: Inbound): Promise<Took>;
  /** Each returns how many conversations were told; ending one that is not open is null. */
  outages: {
    declare(outage: Outage): Promise<number>;
    end(id: string, by: string): Promise<number | null>;
  };
  now(): number;
  /** 0 to 1. */
  chance(): number;
  log(event: string, details: Record<string, unknown>): void;
}

export type Took = { kind: 'known' | 'gone' | 'done' } | { kind: 'refused'; why: string };

export interface Desking extends DeskNeeds {
  place: Place;
  gate: Gate;
  /** Goes on behind the answer; whoever stops the process waits for it. */
  behind(what: string, work: () => Promise<unknown>): void;
}

export interface Gate {
  /** The name that they act under, or why they may not act, in words for them. Asked on every action and again when a form is sent. */
  ask(reference: Reference): Promise<{ by: string } | { refused: string }>;
  /** Names of the desk's people, for handing over; empty where Teams does not tell, or where there are too many to choose from. */
  colleagues(): Promise<string[]>;
  /** Teams' id of somebody who has acted under that name here. */
  userOf(name: string): string | null;
}
