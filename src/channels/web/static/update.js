/* Puts in place what has changed, and only that: so focus, opened details and the place on the page stay. */
import { kept, newId } from './kept.js';
import { enliven } from './page.js';

const { body } = document;
const byId = id => document.getElementById(id);

const KEYED = '#thread, .matter, .said, .earlier';

/** Without what differs between two drawings of the same. */
const plain = element =>
  element.outerHTML
    .replace(/ (class|open|hidden)="[^"]*"/g, '')
    .replace(/(name="(?:id|seen)" value=)"[^"]*"/g, '$1')
    .replace(/(<time[^>]*>)[^<]*/g, '$1');

function sync(old, fresh, added) {
  if (plain(old) === plain(fresh)) return;
  if (!old.matches(KEYED)) {
    old.replaceWith(fresh);
    return;
  }
  const keyOf = (child, index) => child.id || `${child.tagName}${index}`;
  const before = new Map([...old.children].map((child, index) => [keyOf(child, index), child]));
  let last = null;
  for (const [index, child] of [...fresh.children].entries()) {
    const key = keyOf(child, index);
    const known = before.get(key);
    before.delete(key);
    if (known === undefined) {
      if (last === null) old.prepend(child);
      else last.after(child);
      added.push(child);
      last = child;
    } else {
      sync(known, child, added);
      last = known.isConnected ? known : child;
    }
  }
  for (const gone of before.values()) gone.remove();
}

let drawnAt = Number.NEGATIVE_INFINITY;
/** The second half of a double click lands on the next question, and is no answer to it. */
export const justDrawn = () => performance.now() - drawnAt < 400;

/** A page of another version is loaded anew, once: while servers change places, the next answer may be from the old one. */
export function outdated(version) {
  if (version === body.dataset.version || kept.get('version') === version) return false;
  kept.set('version', version);
  location.reload();
  return true;
}

/** `own`: this page had said something; then the newest is brought into view. */
export function apply(answer, own) {
  if (outdated(answer.version)) return false;
  const focused = document.activeElement;
  const asked = byId('question')?.textContent;
  const added = [];
  for (const [id, markup] of Object.entries(answer.parts)) {
    const template = document.createElement('template');
    template.innerHTML = markup;
    sync(byId(id), template.content.firstElementChild, added);
  }
  body.classList.toggle('fresh', answer.newest === 0);
  body.dataset.newest = answer.newest;
  byId('box-label').textContent = answer.box;
  for (const input of document.querySelectorAll('input[name="seen"]')) input.value = answer.seen;
  for (const input of document.querySelectorAll('input[name="id"]')) input.value = newId();
  for (const node of added) node.classList.add('new');
  enliven(document);

  const question = byId('question');
  const isNew = question !== null && question.textContent !== asked;
  if (isNew) drawnAt = performance.now();
  if (!focused?.isConnected) (byId(focused?.id) ?? question ?? byId('now')).focus({ preventScroll: true });
  // A question that was answered moves up into the talk; that is no news.
  const told = added
    .flatMap(node => (node.matches('.bot') ? [node] : [...node.querySelectorAll('.bot')]))
    .filter(node => !node.matches('.asked'));
  announce([
    ...told.map(node => node.textContent),
    isNew && document.activeElement !== question ? cardWords() : '',
  ]);
  if (own || added.length > 0) reveal(told[0]);
  return added.length > 0;
}

function cardWords() {
  const card = byId('now');
  const answers = [...card.querySelectorAll('.answers button')].map(
    button => button.lastElementChild.textContent,
  );
  const words = [card.querySelector('.try')?.textContent, byId('question').textContent, ...answers];
  return words.filter(Boolean).join('. ');
}

/** For those who listen to the page. */
function announce(parts) {
  const words = parts.join(' ').replace(/\s+/g, ' ').trim();
  if (words === '') return;
  const line = document.createElement('p');
  line.lang = 'en';
  line.textContent = words;
  byId('live').replaceChildren(line);
}

/** The end of the talk, or the beginning of what is new where that is higher than the window. */
export function reveal(first) {
  const top = document.querySelector('.top').offsetHeight + 16;
  const room = window.innerHeight - byId('box').offsetHeight - top;
  const start = (first ?? byId('now')).getBoundingClientRect().top;
  const end = byId('talk').getBoundingClientRect().bottom;
  if (end - start > room) window.scrollBy({ top: start - top });
  else window.scrollTo({ top: document.documentElement.scrollHeight });
}
