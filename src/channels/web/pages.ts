/** The pages beside the chat: the link to go on elsewhere, its other end, and what went wrong, in words. Pure. */
import { changing, type Look, phone, saying, when } from './form.ts';
import { type Html, html } from './html.ts';
import { type Frame, frameHtml } from './page.ts';
import type { QrSquares } from './qr.ts';
import type { PageError } from './words/words.ts';

export interface KeptLink {
  address: string;
  expiresAt: number;
  qr: QrSquares;
}

/** One path for all dark squares. */
export const qrHtml = ({ size, path }: QrSquares, label: string): Html =>
  html`<svg class="qr" viewBox="0 0 ${size} ${size}" role="img" aria-label="${label}" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h${size}v${size}H0z"/><path fill="#000" d="${path}"/></svg>`;

/** On the hand-over card, and on paper. */
export const cardLink = (link: KeptLink, { words }: Look): Html =>
  html`<div class="card-link" lang="${words.language}">${qrHtml(link.qr, words.scan)}<div><p>${words.scan}</p><p class="fine">${words.keepUntil(when(link.expiresAt))}</p></div></div>`;

/** `here`: this Reseat listens to its own machine only, so that a link opens nothing elsewhere. */
export function keepPage(link: KeptLink | null, begun: boolean, here: boolean, frame: Frame): Html {
  const { words } = frame;
  const made =
    link === null
      ? html`<p>${words.keepWhy}</p><form method="post" action="/keep">${changing(frame)}<button class="go">${words.keepMake}</button></form>`
      : html`${qrHtml(link.qr, words.scan)}
<p>${words.keepHow}</p>
<p><input class="address" id="address" readonly value="${link.address}" aria-label="${words.keepTitle}"></p>
<p class="row"><button type="button" data-copies="address" data-done="${words.copied}" hidden>${words.copyLink}</button></p>
<p class="fine">${words.keepUntil(when(link.expiresAt))}</p>
<form method="post" action="/keep/end">${changing(frame)}<button class="quiet">${words.keepEnd}</button></form>`;
  return single(
    frame,
    words.keepTitle,
    html`${here ? html`<p class="notice">${words.keepHere}</p>` : null}${begun ? html`${made}<section class="forget"><p>${words.forgetHow}</p><form method="post" action="/forget">${changing(frame)}<button class="quiet">${words.forget}</button></form></section>` : html`<p>${words.keepNothing}</p>`}`,
  );
}

export function goPage(token: string, own: boolean, frame: Frame): Html {
  const { words } = frame;
  return single(
    frame,
    words.goTitle,
    html`<p>${words.goHow}</p>${
      own ? html`<p class="notice">${words.goReplaces} <a href="/keep">${words.keep}</a></p>` : null
    }<form method="post" action="/go/${token}">${changing(frame)}<button class="go">${words.goYes}</button></form>`,
  );
}

export const goGonePage = (frame: Frame): Html =>
  single(
    frame,
    frame.words.goGone,
    html`<p>${frame.words.goGoneHow}</p><p><a class="go" href="/">${frame.words.beginHere}</a></p>`,
  );

/** `text`: what the person had written, so that it is not lost. */
export function errorPage(error: PageError, text: string | null, frame: Frame): Html {
  const { words } = frame;
  const [title, how] = words.errors[error];
  return wordsPage(title, how, text, frame);
}

export function wordsPage(title: string, how: string, text: string | null, frame: Frame): Html {
  const { words, site } = frame;
  const again =
    text === null || text === ''
      ? null
      : html`<form method="post" action="/say" class="again-form">${saying(frame)}<label for="text">${words.whatYouWrote}</label><textarea id="text" name="text" rows="5">${text}</textarea><button class="go">${words.sendAgain}</button></form>`;
  return single(
    frame,
    title,
    html`<p>${how}</p>${again}<p class="fine">${words.callDesk(site.desk.name, phone(site.desk.phone))}</p>`,
  );
}

const single = (frame: Frame, title: string, body: Html): Html =>
  frameHtml(frame, {
    title,
    body: html`<main class="single" id="now"><h1>${title}</h1>${body}<p class="to-talk"><a href="/">${frame.words.toTalk}</a></p></main>`,
  });
