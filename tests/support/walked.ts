/** The tickets that the walks of the flows lead to. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { readYaml } from '#library/yaml.ts';
import type { TicketRow } from '#store/store.ts';
import { rehearse } from '#talk/rehearse.ts';
import { type Walk, walks } from '#talk/walk.ts';
import { knowledge } from './knowledge.ts';

export const WALKED = readdirSync('flows').filter(name => existsSync(`flows/${name}/walks.yaml`));

/** As they stood after every turn in which there was one, a list for each walk. */
export function ticketsIn(flow: string): TicketRow[][] {
  const file = `flows/${flow}/walks.yaml`;
  return walks.parse(readYaml(file, readFileSync(file, 'utf8')).value).map(ticketsOf);
}

function ticketsOf(walk: Walk): TicketRow[] {
  if (walk.begins !== undefined) return [];
  const rehearsal = rehearse(knowledge);
  const tickets: TicketRow[] = [];
  const keep = () => {
    const ticket = rehearsal.ticket();
    if (ticket !== null) tickets.push(ticket);
  };
  rehearsal.say(walk.opening!);
  keep();
  for (const said of walk.says) {
    if ('say' in said) rehearsal.say(said.say);
    else if ('press' in said) rehearsal.press(said.press);
    else {
      const { address } = rehearsal.conversation();
      const happened = { identity: `w${tickets.length}${said.word}`, at: rehearsal.now(), address };
      rehearsal.take({ ...happened, kind: 'always', what: said.word });
    }
    keep();
  }
  return tickets;
}
