/** The page: its frame, the chat in it, and the parts that its script exchanges. Pure. */
import { askCard, boxLabel, pictureForm, standingRow } from './ask.ts';
import { type Look, phone, saying } from './form.ts';
import { type Html, html } from './html.ts';
import { markedLine } from './marked.ts';
import { logo, up } from './marks.ts';
import { changeHtml, threadHtml } from './render.ts';
import type { Thread } from './thread.ts';

/** Addresses of what the page is made with; they change with its content. */
export interface Assets {
  style: string;
  /** For browsers that run no script. */
  plain: string;
  script: string;
  /** What the script imports. */
  preloads: string[];
  icon: string;
  /** Changes when any of them does. */
  version: string;
}

export interface Frame extends Look {
  assets: Assets;
  /** Id of the newest row on this page. */
  newest: number;
  /** Keeps this browser's drafts for this chat apart from another's. */
  mark: string;
}

/** What the script puts in place of what is there; the whole page is made of the same. */
export interface Parts {
  newest: number;
  seen: string;
  version: string;
  /** Label of the text box. */
  box: string;
  /** By element id. */
  parts: Record<string, string>;
}

export function partsOf(thread: Thread, frame: Frame, link: Html | null): Parts {
  const { assets } = frame;
  const draw = chat(thread, frame, link);
  return {
    newest: thread.newest,
    seen: thread.seen,
    version: assets.version,
    box: draw.box,
    parts: {
      thread: draw.thread.html,
      now: draw.now.html,
      standing: draw.standing.html,
      'so-far': draw.side.html,
      'so-far-link': draw.sideLink.html,
    },
  };
}

export function chatPage(thread: Thread, frame: Frame, link: Html | null): Html {
  const { words } = frame;
  const draw = chat(thread, frame, link);
  const body = html`<div class="columns">
<main id="talk">
<h1 class="unseen">${words.title(frame.site.organisation)}</h1>
${draw.thread}
${draw.now}
</main>
${draw.side}
</div>
<section class="box" id="box" aria-labelledby="box-label">
<label for="text" id="box-label">${draw.box}</label>
<div class="box-main">${pictureForm(frame, 'box')}<form method="post" action="/say" id="say" data-say>${saying(frame)}
<div class="box-row"><textarea id="text" name="text" rows="1" required autocomplete="off"></textarea>
<button class="send" aria-label="${words.sendWords}">${up}</button></div>
</form></div>
${draw.standing}
</section>`;
  const refresh = thread.waiting ? html`<noscript><meta http-equiv="refresh" content="2"></noscript>` : null;
  return frameHtml(frame, {
    title: words.title(frame.site.organisation),
    head: refresh,
    body,
    sideLink: draw.sideLink,
    begun: thread.matters.length > 0,
  });
}

function chat(thread: Thread, frame: Frame, link: Html | null) {
  const begun = thread.matters.length > 0;
  return {
    thread: threadHtml(thread, frame, link),
    now: nowHtml(thread, frame),
    standing: standingRow(thread.open, thread, frame),
    side: soFar(thread, frame),
    sideLink: soFarLink(thread, frame),
    box: boxLabel(thread.open?.question ?? null, begun, frame),
  };
}

function nowHtml(thread: Thread, frame: Frame): Html {
  const { words } = frame;
  if (thread.open !== null) return askCard(thread.open, frame);
  if (thread.matters.length === 0) return welcome(frame);
  return thread.waiting
    ? html`<section id="now" class="wait" tabindex="-1"><p>${words.working}</p><noscript><p><a href="/">${words.refresh}</a></p></noscript></section>`
    : html`<section id="now" class="over" tabindex="-1"><p>${words.newMatter}</p></section>`;
}

function welcome(frame: Frame): Html {
  const { words, site } = frame;
  return html`<section id="now" class="welcome" aria-labelledby="question">
<h2 id="question" tabindex="-1">${words.firstTitle}</h2>
<p>${words.firstFor}</p>
<p class="danger">${words.firstDanger} ${phone(site.emergency.number)}.</p>
<details class="elsewhere"><summary>${words.firstNot} <span class="link">${words.firstElsewhere}</span></summary>
<ul lang="en">${site.elsewhere.map(({ about, where }) => html`<li><strong>${markedLine(about)}</strong> ${markedLine(where)}</li>`)}</ul></details>
<p class="fine">${words.firstKeep}</p>
</section>`;
}

/** Every answer that stands, each to be changed: beside the chat on a wide screen, behind a link on a phone. */
function soFar(thread: Thread, frame: Frame): Html {
  const { words } = frame;
  return html`<aside id="so-far" tabindex="-1" aria-labelledby="so-far-head">
<div class="so-far-head"><h2 id="so-far-head">${words.yourAnswers}</h2><a class="close" href="#now">${words.close}</a></div>
${
  thread.answers.length === 0
    ? html`<p class="fine">${words.noAnswers}</p>`
    : html`<dl>${thread.answers.map(
        ({ asked, shown, change }, index) =>
          html`<div id="a-${index}"><dt lang="en">${markedLine(asked)}</dt><dd><span dir="auto">${shown.length > 200 ? `${shown.slice(0, 199)}…` : shown}</span>${change === null ? null : changeHtml(change, `a-${index}`, frame)}</dd></div>`,
      )}</dl>`
}
${thread.matters.length === 0 ? null : html`<p class="so-far-keep"><a href="/keep">${words.keep}</a></p>`}
</aside>`;
}

const soFarLink = ({ answers }: Thread, { words }: Frame): Html =>
  html`<a id="so-far-link" href="#so-far"${answers.length === 0 ? html` hidden` : null}>${words.answersSoFar(answers.length)}</a>`;

export interface Body {
  title: string;
  head?: Html | null;
  body: Html;
  sideLink?: Html | null;
  begun?: boolean;
}

export function frameHtml(frame: Frame, { title, head, body, sideLink, begun }: Body): Html {
  const { words, site, assets } = frame;
  return html`<!doctype html>
<html lang="${words.language}">
<head>
<meta charset="utf-8">
<title>${title}</title>
<meta name="viewport" content="width=device-width, initial-scale=1, interactive-widget=resizes-content">
<meta name="color-scheme" content="light dark">
<meta name="theme-color" content="#f4f3ee" media="(prefers-color-scheme: light)">
<meta name="theme-color" content="#12181b" media="(prefers-color-scheme: dark)">
<link rel="icon" href="${assets.icon}" type="image/svg+xml">
<link rel="stylesheet" href="${assets.style}">
<noscript><link rel="stylesheet" href="${assets.plain}"></noscript>
${assets.preloads.map(href => html`<link rel="modulepreload" href="${href}">`)}
<script type="module" src="${assets.script}"></script>
${head}</head>
<body class="${begun === false ? 'fresh' : ''}" data-chat="${frame.mark}" data-newest="${frame.newest}" data-version="${assets.version}"
 data-waiting="${words.waiting}" data-sending="${words.sending}" data-more="${words.more}" data-keep-open="${words.keepOpen}">
<a class="skip" href="#now">${words.skipToQuestion}</a>
<header class="top">
<a class="brand" href="/">${logo}<span><strong>${words.name}</strong><small>${site.organisation}</small></span></a>
<nav aria-label="${words.name}">${sideLink ?? null}<span class="emergency">${words.emergency} ${phone(site.emergency.number)}</span></nav>
</header>
<p id="away" class="away" role="status" data-away="${words.away}" hidden></p>
${body}
<div id="live" class="unseen" aria-live="polite"></div>
</body>
</html>`;
}
