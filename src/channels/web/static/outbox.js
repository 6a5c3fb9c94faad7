/* What was said and is not taken yet: sent one at a time, in order, again until it is taken. The same id is taken once. */
import { kept } from './kept.js';

const WORDS = 'out:';
/** Words are in the browser's store too; pictures only here. */
const items = new Map(kept.names(WORDS).flatMap(name => [[name, JSON.parse(kept.get(name) ?? 'null')]]));
for (const [name, item] of items) if (item === null) items.delete(name);

export const waiting = () => [...items].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, item]) => item);

let count = 0;
/** False: the same is waiting already. */
export function put(item) {
  if (waiting().some(({ path, fields }) => path === item.path && fields.id === item.fields.id)) return false;
  count += 1;
  const name = `${WORDS}${Date.now()}-${String(count).padStart(5, '0')}`;
  items.set(name, item);
  if (!item.file) kept.set(name, JSON.stringify(item));
  return true;
}

function drop(name) {
  items.delete(name);
  kept.remove(name);
}

const SLOWEST = 15;
const AFTER_FAULT = 10;
let busy = false;
let again;
let pause = 0;

/**
 * `on.taken(answer, item)`; `on.away(yes)`: can the server be reached; `on.told(words)`: why it was not taken now;
 * `on.refused(item, words)`: it never will be; `on.changed()`.
 */
export async function send(on) {
  if (busy) return;
  busy = true;
  clearTimeout(again);
  try {
    while (items.size > 0) {
      const [name, item] = [...items].sort(([a], [b]) => (a < b ? -1 : 1))[0];
      const seconds = await sendOne(name, item, on);
      if (seconds > 0) {
        again = setTimeout(() => send(on), seconds * 1000);
        break;
      }
    }
  } finally {
    busy = false;
    on.changed();
  }
}

/** Seconds to wait before the next attempt; 0: it is out of the way. */
async function sendOne(name, item, on) {
  let response;
  let answer;
  try {
    response = await fetch(item.path, {
      method: 'POST',
      headers: { accept: 'application/json' },
      body: formOf(item),
    });
    answer = await response.json();
  } catch {
    on.away(true);
    pause = Math.min(SLOWEST, pause * 2 || 1);
    return pause;
  }
  pause = 0;
  on.away(false);
  if (response.ok) {
    drop(name);
    on.taken(answer, item);
    return 0;
  }
  const words = `${answer.title}. ${answer.how}`;
  if (response.status === 429 || response.status >= 500) {
    on.told(words);
    return Number(response.headers.get('retry-after')) || AFTER_FAULT;
  }
  drop(name);
  on.refused(item, words);
  return 0;
}

function formOf({ fields, file }) {
  const all = { ...fields, csrf: document.querySelector('#say [name="csrf"]').value };
  if (!file) return new URLSearchParams(all);
  const form = new FormData();
  for (const [name, value] of Object.entries(all)) form.append(name, value);
  form.append('picture', file, file.name);
  return form;
}

export const isSending = () => busy;
/** Sent by another tab. */
export const onTaken = then =>
  kept.onRemoved(WORDS, name => {
    items.delete(name);
    then();
  });
