/** Conversations under load while the process is killed again and again; afterwards the database is held against what was acknowledged. */
import { type ChildProcess, fork } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { standing } from '#engine/fold.ts';
import { openStore } from '#store/open.ts';
import { acknowledge, begin, type Delivered, hear, type Person } from './person.ts';

export interface Figures {
  conversations: number;
  turns: number;
  kills: number;
  answersLost: number;
  answersTwice: number;
  ticketsLost: number;
  ticketsTwice: number;
  messages: number;
  messagesUndelivered: number;
  /** Delivered more than once: at least once is what is promised. */
  messagesRepeated: number;
  outOfOrder: number;
}

export interface Plan {
  database: string;
  conversations: number;
  kills: number;
  seed: number;
  /** At once. */
  load: number;
}

/** A small generator of its own (mulberry32), so that a run can be repeated. */
function chanceFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

export async function faults(plan: Plan): Promise<Figures> {
  const folder = mkdtempSync(join(tmpdir(), 'reseat-faults-'));
  const file = join(folder, 'delivered.jsonl');
  const chance = chanceFrom(plan.seed);
  const people: Person[] = [];
  let waiting = plan.conversations;
  let kills = 0;
  let turns = 0;
  let worker = start(plan.database, file, acknowledged);
  // Spread over the turns that even short conversations take, so that every kill falls under load.
  const between = (plan.conversations * 4) / (plan.kills + 1);
  let killAt = Number.POSITIVE_INFINITY;

  function acknowledged(identity: string): void {
    const person = people.find(each => each.pending?.identity === identity);
    if (person === undefined) return;
    turns += 1;
    acknowledge(person);
  }

  let read = 0;
  try {
    while (waiting > 0 || people.some(({ done }) => !done)) {
      while (waiting > 0 && people.filter(({ done }) => !done).length < plan.load) {
        people.push(begin(`fake:${plan.seed}-${waiting}`, chance));
        waiting -= 1;
      }
      const lines = linesOf(file);
      for (const line of lines.slice(read)) {
        const person = people.find(({ chat }) => chat === line.chat);
        if (person) hear(person, line, chance);
      }
      read = lines.length;
      if (worker.ready) {
        for (const { pending } of people) {
          if (pending !== null && !worker.sent.has(pending.identity)) {
            worker.sent.add(pending.identity);
            worker.child.send(pending);
            // Now and then twice at once, as platforms do.
            if (chance() < 0.1) worker.child.send(pending);
          }
        }
        if (kills < plan.kills && Date.now() > killAt) {
          worker.child.kill('SIGKILL');
          await worker.gone;
          kills += 1;
          worker = start(plan.database, file, acknowledged);
          killAt = Number.POSITIVE_INFINITY;
        } else if (killAt === Number.POSITIVE_INFINITY && turns > between * (kills + chance())) {
          killAt = Date.now() + chance() * 40;
        }
      }
      if (worker.failed) throw new Error(worker.failed);
      await sleep(5);
    }
    await sleep(400);
  } finally {
    worker.child.disconnect();
    await worker.gone;
  }
  const figures = await judge(plan, people, linesOf(file));
  rmSync(folder, { recursive: true });
  return { ...figures, turns, kills };
}

interface Worker {
  child: ChildProcess;
  ready: boolean;
  failed: string | null;
  sent: Set<string>;
  gone: Promise<void>;
}

function start(database: string, file: string, acknowledged: (identity: string) => void): Worker {
  const child = fork(join(import.meta.dirname, 'worker.ts'), [database, file], {
    execArgv: [],
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
  });
  const worker: Worker = {
    child,
    ready: false,
    failed: null,
    sent: new Set(),
    gone: new Promise(resolve => child.once('exit', () => resolve())),
  };
  child.on('error', () => undefined);
  child.on('message', (message: { ready?: true; done?: string; failed?: string; error?: string }) => {
    if (message.ready) worker.ready = true;
    if (message.done !== undefined) acknowledged(message.done);
    // Not committed: it is sent again, as a platform would.
    if (message.failed !== undefined) worker.sent.delete(message.failed);
  });
  child.once('exit', code => {
    if (code !== null && code !== 0) worker.failed = `the worker ended with ${code}`;
  });
  return worker;
}

const linesOf = (file: string): Delivered[] =>
  existsSync(file)
    ? readFileSync(file, 'utf8')
        .split('\n')
        // The last line may be half written when the process is killed: it was not delivered.
        .slice(0, -1)
        .flatMap(line => {
          try {
            return [JSON.parse(line) as Delivered];
          } catch {
            return [];
          }
        })
    : [];

async function judge(
  plan: Plan,
  people: Person[],
  delivered: Delivered[],
): Promise<Omit<Figures, 'turns' | 'kills'>> {
  const store = await openStore(plan.database);
  const figures = {
    conversations: people.length,
    answersLost: 0,
    answersTwice: 0,
    ticketsLost: 0,
    ticketsTwice: 0,
    messages: 0,
    messagesUndelivered: 0,
    messagesRepeated: 0,
    outOfOrder: 0,
  };
  const tickets = await store.tickets({ limit: 100_000 });
  for (const person of people) {
    const conversation = await store.currentOf(person.chat);
    if (conversation === null) {
      figures.answersLost += 1;
      continue;
    }
    const answers = standing(conversation.entries).flatMap(({ entry }) =>
      entry.kind === 'answer' ? [entry] : [],
    );
    // What is said before a symptom is named is heard as an opening, and stands in the history as one.
    const opening = person.acknowledged.filter(
      ({ step }) => step === '@opening' || step === '@symptom',
    ).length;
    const opened = conversation.entries.filter(({ kind }) => kind === 'opened').length;
    figures.answersLost += Math.max(0, opening - opened);
    figures.answersTwice += Math.max(0, opened - opening);
    for (const { question, step, said } of person.acknowledged) {
      if (step === '@opening' || step === '@symptom') continue;
      const found = answers.filter(answer => answer.question === question);
      const heard = found[0];
      if (heard === undefined) figures.answersLost += 1;
      else if ('id' in heard.value && heard.value.id !== said) figures.answersLost += 1;
      if (found.length > 1) figures.answersTwice += 1;
    }
    const own = tickets.filter(({ chat }) => chat === person.chat);
    if (conversation.outcome === 'escalated' && own.length === 0) figures.ticketsLost += 1;
    if (own.length > 1) figures.ticketsTwice += 1;
  }
  if (new Set(tickets.map(({ number }) => number)).size !== tickets.length) figures.ticketsTwice += 1;
  const rows = delivered.map(({ row }) => row);
  figures.messages = new Set(rows).size;
  figures.messagesRepeated = rows.length - figures.messages;
  figures.messagesUndelivered = (await store.counts()).waiting;
  for (const { chat } of people) {
    const first = [...new Set(delivered.filter(line => line.chat === chat).map(({ row }) => row))];
    if (first.some((row, index) => index > 0 && row < first[index - 1]!)) figures.outOfOrder += 1;
  }
  await store.close();
  return figures;
}

/** The promises that these figures break. */
export const broken = (figures: Figures): string[] =>
  (
    [
      'answersLost',
      'answersTwice',
      'ticketsLost',
      'ticketsTwice',
      'messagesUndelivered',
      'outOfOrder',
    ] as const
  ).filter(promise => figures[promise] > 0);
