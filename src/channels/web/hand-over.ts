/** The hand-over card: the number, what happens next, what to do and not do. It can be printed, copied, and opened elsewhere. */
import type { HandOver } from '#engine/messages.ts';
import { changing, type Look } from './form.ts';
import { type Html, html } from './html.ts';
import { marked, markedLine } from './marked.ts';
import { no, yes } from './marks.ts';

export function handOverCard(card: HandOver, look: Look, link: Html | null): Html {
  const { words, site } = look;
  return html`<article class="hand-over" data-copy>
<header><p class="hand-over-kind" lang="${words.language}">${words.ticket}</p><p class="hand-over-number">${card.ticket}</p><p class="hand-over-place">${site.organisation}</p></header>
<div class="hand-over-why"><p><strong>${markedLine(card.priority)}</strong></p>${marked(card.text)}</div>
<h2 lang="${words.language}">${words.next}</h2>${marked(card.next)}
<div class="hand-over-lists">${list('do', words.do, card.do, yes, look)}${list('dont', words.dont, card.dont, no, look)}</div>
${link}
<div class="hand-over-tools" lang="${words.language}">
<button type="button" data-print hidden>${words.print}</button>
<button type="button" data-copies data-done="${words.copied}" hidden>${words.copy}</button>
${
  link === null
    ? html`<form method="post" action="/keep" class="hand-over-keep">${changing(look)}<button>${words.keep}</button></form>`
    : null
}
</div>
</article>`;
}

function list(kind: string, title: string, lines: string[], mark: Html, { words }: Look): Html | null {
  if (lines.length === 0) return null;
  return html`<section class="${kind}"><h2 lang="${words.language}">${title}</h2><ul>${lines.map(line => html`<li>${mark}<span>${markedLine(line)}</span></li>`)}</ul></section>`;
}
