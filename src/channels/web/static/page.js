/* What every page does: times in the reader's own zone, printing, copying. */
const own = document.documentElement.lang;
const format = new Intl.DateTimeFormat(navigator.language.startsWith(own) ? navigator.language : own, {
  dateStyle: 'medium',
  timeStyle: 'short',
});

/** Also shows the buttons that only this script can serve. */
export function enliven(root) {
  for (const time of root.querySelectorAll('time')) time.textContent = format.format(new Date(time.dateTime));
  for (const button of root.querySelectorAll('[data-print], [data-copies]')) button.hidden = false;
}

async function copy(text) {
  if (navigator.clipboard) return navigator.clipboard.writeText(text);
  // Without TLS there is only the old way.
  const hold = document.createElement('textarea');
  hold.value = text;
  document.body.append(hold);
  hold.select();
  document.execCommand('copy');
  hold.remove();
}

function cardText(card) {
  const bare = card.cloneNode(true);
  for (const part of bare.querySelectorAll('button, form, svg, .card-link')) part.remove();
  for (const line of bare.querySelectorAll('li')) line.prepend('- ');
  for (const block of bare.querySelectorAll('p, h3, li')) block.append('\n');
  return bare.textContent
    .replace(/[ \t]+/g, ' ')
    .replace(/\s*\n\s*/g, '\n')
    .trim();
}

document.addEventListener('click', async event => {
  const button = event.target.closest('[data-print], [data-copies]');
  if (!button) return;
  if (button.hasAttribute('data-print')) return window.print();
  const from = button.dataset.copies;
  await copy(from ? document.getElementById(from).value : cardText(button.closest('[data-copy]')));
  const label = button.textContent;
  button.textContent = button.dataset.done;
  setTimeout(() => {
    button.textContent = label;
  }, 2000);
});
document.addEventListener('keydown', event => {
  if (event.key === 'Escape' && location.hash === '#so-far') location.hash = '#now';
});
