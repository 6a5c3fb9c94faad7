/**
 * `npm run teams:load`: people at once in Teams, everything they do delivered twice and shuffled, first to a process that lives, then to one
 * that is killed twice in the middle. Nobody may be answered twice and nothing lost. `-- 10` for so many people.
 */
import { openStore } from '#store/open.ts';
import { type Chosen, nextOf, type Served, served } from '../support/teams/served.ts';
import type { Json, Person } from '../support/teams/teams.ts';

const PEOPLE = Number(process.argv[2] ?? 50);
const ROUNDS = 30;
const OPENINGS = [
  'my usb stick does not show up',
  'the drive in my pc is clicking',
  'my network drive S: is gone',
  'my disk is full',
  'a file is gone from my desktop',
];
const WORDS = 'room 12, 555 0123, since this morning';

/** Always the same order and answers (mulberry32). */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

interface Run {
  who: Person;
  /** What they did, in order. */
  did: string[];
  over: boolean;
}

let ids = 0;

async function run(name: string, killAt: number[]): Promise<string[]> {
  const random = chance(7);
  const site: Served = await served({ RESEAT_NUDGE_HOURS: '100', RESEAT_LEFT_HOURS: '200' });
  await site.process.start();
  const took: number[] = [];
  let deliveries = 0;
  const start = performance.now();
  const people: Run[] = Array.from({ length: PEOPLE }, (_, index) => ({
    who: site.person({ name: `Person ${index}` }),
    did: [],
    over: false,
  }));
  /** As Teams does it: again until it is taken. */
  const deliver = async (who: Person, activity: Json) => {
    for (;;) {
      const begun = performance.now();
      const status = await who.send(activity).then(
        answer => answer.status,
        () => 0,
      );
      deliveries += 1;
      if (status === 200) return void took.push(performance.now() - begun);
      await new Promise(resolve => setTimeout(resolve, 200));
    }
  };

  for (let round = 0; round < ROUNDS; round++) {
    const sends: { who: Person; activity: Json }[] = [];
    const before = new Map<Run, number>();
    for (const each of people.filter(({ over }) => !over)) {
      const next: Chosen | 'text' | null =
        round === 0 ? 'text' : nextOf(each.who, from => from[Math.floor(random() * from.length)]!, WORDS);
      if (next === null) {
        each.over = true;
        continue;
      }
      before.set(each, each.who.shown().length);
      const index = people.indexOf(each);
      const text = round === 0 ? OPENINGS[index % OPENINGS.length]! : `${WORDS} ${ids++}`;
      const activity = next === 'text' ? each.who.activity({ text, textFormat: 'plain' }) : next.activity;
      each.did.push(next === 'text' ? text : next.answer);
      // A press comes again under a new id, as it may in Teams; a message under its own.
      const again = next === 'text' ? activity : { ...activity, id: `f:again-${ids++}` };
      sends.push({ who: each.who, activity }, { who: each.who, activity: again });
    }
    if (sends.length === 0) break;
    for (let at = sends.length - 1; at > 0; at--) {
      const other = Math.floor(random() * (at + 1));
      [sends[at], sends[other]] = [sends[other]!, sends[at]!];
    }
    const all = sends.map(({ who, activity }) => deliver(who, activity));
    if (killAt.includes(round)) {
      await Promise.race(all);
      await site.process.stop('SIGKILL');
      await site.process.start();
    }
    await Promise.all(all);
    await site.teams.until(() => [...before].every(([{ who }, count]) => who.shown().length > count));
  }
  const seconds = (performance.now() - start) / 1000;
  const status = await site.process.stop();
  const lines = await figures(site, people);
  took.sort((a, b) => a - b);
  const at = (share: number) => `${Math.round(took[Math.floor((took.length - 1) * share)]!)} ms`;
  const done = people.reduce((sum, { did }) => sum + did.length, 0);
  await site.remove();
  return [
    `${name}: ${PEOPLE} people, ${done} things done, ${deliveries} deliveries in ${seconds.toFixed(1)} s`,
    `  answered to Teams after p50 ${at(0.5)}, p99 ${at(0.99)}; the process ended with ${status}`,
    ...lines.map(line => `  ${line}`),
  ];
}

/** From the database: what each said, once; and from the stand-in: what each saw. */
async function figures({ process: { database }, teams }: Served, people: Run[]): Promise<string[]> {
  const store = await openStore(database);
  let [twice, lost, tickets] = [0, 0, 0];
  for (const { who, did } of people) {
    const chat = `teams:66666666-7777-4888-8999-000000000000:${who.conversation}`;
    const { conversations } = await store.history(chat, 20);
    const entries = conversations.flatMap(each => each.entries);
    const questions = entries.flatMap(entry => (entry.kind === 'answer' ? [`${entry.question}`] : []));
    twice += questions.length - new Set(questions).size;
    const kept = JSON.stringify(entries);
    lost += did.filter(each => !kept.includes(JSON.stringify(each).slice(1, -1))).length;
    tickets += conversations.filter(({ ticket }) => ticket).length;
  }
  const { waiting, dead } = await store.counts();
  await store.close();
  const posts = teams.calls.filter(({ what }) => what === 'post');
  const said = posts.map(({ conversation, body }) => `${conversation} ${JSON.stringify(body)}`);
  const doubled = said.length - new Set(said).size;
  return [
    `answered twice: ${twice}; lost: ${lost}; unfinished: ${people.filter(({ over }) => !over).length}`,
    `tickets: ${tickets}; messages posted: ${posts.length}, of them seen twice: ${doubled}; undelivered: ${waiting + dead}`,
    `not as the protocol wants it: ${teams.wrong.length}`,
  ];
}

for (const [name, killAt] of [
  ['living', []],
  ['killed twice', [2, 5]],
] as const) {
  console.log((await run(name, [...killAt])).join('\n'));
}
