/** `reseat serve` with Teams in a process of its own, which can be killed and started again beside the same stand-in. */

import { pathToFileURL } from 'node:url';
import type { Json } from '../json.ts';
import { type Serving, serving } from '../serving.ts';
import { type Keys, keys } from './keys.ts';
import { settingsFor } from './running.ts';
import { type Service, service } from './service.ts';
import { type Person, person, type Where } from './teams.ts';

export interface Served {
  process: Serving;
  teams: Service;
  keys: Keys;
  person(where?: Where): Person;
  remove(): Promise<void>;
}

export async function served(settings: Record<string, string> = {}): Promise<Served> {
  const signing = await keys();
  const teams = await service(signing);
  const redirect = pathToFileURL('tests/support/teams/redirect.ts').href;
  const process_ = await serving({
    ...settingsFor(teams),
    TEAMS_STAND_IN: teams.url,
    NODE_OPTIONS: `--import=${redirect}`,
    ...settings,
  });
  return {
    process: process_,
    teams,
    keys: signing,
    person: where => person(() => process_.base, signing, teams, where),
    async remove() {
      await process_.remove();
      await teams.close();
    },
  };
}

/** What a person does next: the newest card's question answered, or null when nothing is asked any more. */
export function nextOf(
  who: Person,
  choose: (from: string[]) => string,
  words: string,
): 'text' | null | Chosen {
  const newest = who.shown().at(-1);
  const flat = JSON.stringify(newest?.activity ?? {});
  if (!flat.includes('"say:always"')) return null;
  const buttons = [...flat.matchAll(/"a":"([^"]+)"/g)].map(([, id]) => id!);
  if (buttons.length > 0) {
    const answer = choose([...new Set(buttons)]);
    return { answer, activity: who.pressing(answer) };
  }
  const choices = [...flat.matchAll(/"title":"[^"]*","value":"([^"]+)"/g)].map(([, id]) => id!);
  if (choices.length === 0) return words === '' ? null : 'text';
  const answer = choose(choices);
  return { answer, activity: who.pressing('say:answer', { answer }) };
}

export interface Chosen {
  answer: string;
  activity: Json;
}
