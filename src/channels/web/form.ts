/** What every form of the page carries, and what the page knows about who is looking at it. */
import type { Site } from '#engine/catalogue.ts';
import { type Html, html } from './html.ts';
import type { Words } from './words/words.ts';

export interface Look {
  words: Words;
  site: Site;
  /** Shown by the holder of the chat's cookie only. */
  csrf: string;
  /** The newest question on this page: typed text is read against what its writer had seen. */
  seen: string;
  /** An id that nothing else has: what one form sends twice is taken once. */
  id(): string;
}

/** Hidden fields of a form that says something. */
export const saying = (look: Look): Html =>
  html`<input type="hidden" name="csrf" value="${look.csrf}" autocomplete="off"><input type="hidden" name="id" value="${look.id()}" autocomplete="off"><input type="hidden" name="seen" value="${look.seen}" autocomplete="off">`;

/** Hidden field of a form that changes something else. */
export const changing = ({ csrf }: Pick<Look, 'csrf'>): Html =>
  html`<input type="hidden" name="csrf" value="${csrf}" autocomplete="off">`;

/** The page's script writes it in the reader's own time and language. */
export function when(at: number): Html {
  const iso = new Date(at).toISOString();
  return html`<time datetime="${iso}">${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC</time>`;
}

export const phone = (number: string): Html =>
  html`<a class="phone" href="tel:${number.replace(/[^\d+]/g, '')}">${number}</a>`;
