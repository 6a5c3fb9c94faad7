/* The page works without this. With it answers come without a reload, news arrive by themselves, nothing typed is lost. */
import { kept, newId } from './kept.js';
import { isSending, onTaken, put, send, waiting } from './outbox.js';
import { enliven } from './page.js';
import { apply, justDrawn, outdated, reveal } from './update.js';

const { body } = document;
const byId = id => document.getElementById(id);

/* The line above everything: the server is away, or why something was not taken. */
const line = byId('away');
let isAway = false;
function tell(words) {
  if (line.textContent !== words) line.textContent = words;
  line.hidden = words === '';
}
function setAway(now) {
  if (now) tell(line.dataset.away);
  else if (isAway) tell('');
  if (now !== isAway) drawWaiting(now);
  isAway = now;
}

/* What waits to be sent stands where the person's words will stand. */
const list = document.createElement('ol');
list.id = 'waiting';
list.className = 'said';
function drawWaiting(away = isAway) {
  const items = waiting();
  if (items.length > 0) byId('now').after(list);
  else list.remove();
  list.replaceChildren(...items.map(item => waitingLine(item, away)));
}
function waitingLine({ words, file }, away) {
  const entry = document.createElement('li');
  entry.className = 'person';
  const bubble = document.createElement('p');
  bubble.className = 'bubble';
  bubble.dir = 'auto';
  bubble.textContent = words.length > 700 ? `${words.slice(0, 350)}…` : words;
  const state = document.createElement('p');
  state.className = 'fine';
  state.textContent = away ? body.dataset.waiting : body.dataset.sending;
  if (file && away) state.textContent += `. ${body.dataset.keepOpen}`;
  entry.append(bubble, state);
  return entry;
}

const title = document.title;
const free = () => {
  for (const button of document.querySelectorAll('.busy, .chosen')) button.classList.remove('busy', 'chosen');
};
function show(answer, own) {
  const isNews = apply(answer, own);
  if (waiting().length === 0) free();
  drawWaiting();
  if (document.hidden && isNews) document.title = `● ${body.dataset.more}`;
}
const on = {
  taken(answer) {
    tell('');
    show(answer, true);
  },
  away: setAway,
  told: tell,
  refused(item, words) {
    tell(words);
    free();
    if (item.path === '/say' && text.value === '') keepDraft(item.fields.text);
  },
  changed: () => drawWaiting(),
};
function say(item) {
  if (!put(item)) return;
  drawWaiting();
  window.scrollTo({ top: document.documentElement.scrollHeight });
  void send(on);
}

/* Typed and not yet sent. */
const text = byId('text');
function keepDraft(words) {
  text.value = words;
  if (words === '') kept.remove('draft');
  else kept.set('draft', words);
}

function begin() {
  const form = byId('say');
  if (text.value === '') text.value = kept.get('draft') ?? '';
  text.addEventListener('input', () => keepDraft(text.value));
  // Keys with a mouse beside them send with Enter; on glass Enter is a new line.
  text.addEventListener('keydown', event => {
    if (event.key !== 'Enter' || event.shiftKey || event.isComposing) return;
    if (!matchMedia('(pointer: fine)').matches) return;
    event.preventDefault();
    form.requestSubmit();
  });

  document.addEventListener('submit', event => {
    const given = event.target;
    if (!given.matches('[data-say], [data-picture]')) return;
    event.preventDefault();
    if (given.matches('[data-picture]')) return;
    const { submitter } = event;
    const fields = Object.fromEntries([...new FormData(given)].filter(([name]) => name !== 'csrf'));
    if (submitter?.name) fields[submitter.name] = submitter.value;
    const path = new URL(given.action).pathname;
    if (path === '/answer') {
      if (justDrawn() || byId('now').matches('.busy')) return;
      byId('now').classList.add('busy');
      submitter.classList.add('chosen');
    }
    if (given === form) {
      if (fields.text.trim() === '') return;
      fields.id = newId();
      keepDraft('');
    }
    const label = submitter?.querySelector('span:last-child') ?? submitter;
    say({
      path,
      fields,
      words: given === form || given.matches('.number') ? fields.text : label.textContent,
    });
  });

  document.addEventListener('change', event => {
    const given = event.target.closest('[data-picture]');
    const file = event.target.files?.[0];
    if (!given || !file) return;
    event.target.value = '';
    if (file.size > Number(given.dataset.most)) return tell(given.dataset.large);
    say({ path: '/picture', fields: { id: newId() }, words: file.name, file });
  });

  listen();
  onTaken(() => drawWaiting());
  window.addEventListener('online', () => send(on));
  window.addEventListener('offline', () => setAway(true));
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) return;
    document.title = title;
    if (news.readyState === EventSource.CLOSED) listen();
    void refresh();
  });
  drawWaiting();
  void send(on);
  if (location.hash === '' && !body.matches('.fresh')) reveal();
}

let asking = null;
async function refresh() {
  asking ??= fetch('/', { headers: { accept: 'application/json' }, cache: 'no-store' });
  try {
    const response = await asking;
    if (!response.ok || response.bodyUsed) return;
    const answer = await response.json();
    setAway(false);
    if (answer.newest >= Number(body.dataset.newest)) show(answer, false);
  } catch {
    setAway(true);
  } finally {
    asking = null;
  }
}

/* News from the server: that there is some. */
let news;
let lost;
function listen() {
  news = new EventSource('/events');
  news.addEventListener('hello', event => {
    clearTimeout(lost);
    setAway(false);
    const { newest, version } = JSON.parse(event.data);
    if (outdated(version)) return;
    if (newest > Number(body.dataset.newest)) void refresh();
    void send(on);
  });
  news.addEventListener('news', event => {
    if (Number(event.data) > Number(body.dataset.newest) && !isSending()) void refresh();
  });
  news.addEventListener('error', () => {
    clearTimeout(lost);
    lost = setTimeout(() => {
      setAway(true);
      if (news.readyState === EventSource.CLOSED) listen();
    }, 2500);
  });
}

enliven(document);
if (text && byId('say')) begin();
