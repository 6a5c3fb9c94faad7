/* The page works without this. With it, answers come without a reload, news arrive by themselves, nothing typed is lost. */
(() => {
  const { body } = document;
  const { chat } = body.dataset;
  const byId = id => document.getElementById(id);
  const language = document.documentElement.lang;

  /* Times in the reader's own zone and language. */
  const format = new Intl.DateTimeFormat(language, { dateStyle: 'medium', timeStyle: 'short' });
  const localTimes = root => {
    for (const time of root.querySelectorAll('time'))
      time.textContent = format.format(new Date(time.dateTime));
  };

  const newId = () => {
    const bytes = crypto.getRandomValues(new Uint8Array(15));
    return btoa(String.fromCharCode(...bytes))
      .replaceAll('+', '-')
      .replaceAll('/', '_');
  };

  /* Printing and copying. */
  const tools = root => {
    for (const button of root.querySelectorAll('[data-print], [data-copies]')) button.hidden = false;
  };
  const copy = async text => {
    if (navigator.clipboard) return navigator.clipboard.writeText(text);
    const hold = document.createElement('textarea');
    hold.value = text;
    body.append(hold);
    hold.select();
    document.execCommand('copy');
    hold.remove();
  };
  const cardText = card => {
    const bare = card.cloneNode(true);
    for (const part of bare.querySelectorAll('button, form, svg, .card-link')) part.remove();
    for (const line of bare.querySelectorAll('li')) line.prepend('- ');
    for (const block of bare.querySelectorAll('p, h3, li')) block.append('\n');
    return bare.textContent
      .replace(/[ \t]+/g, ' ')
      .replace(/\s*\n\s*/g, '\n')
      .trim();
  };
  document.addEventListener('click', async event => {
    const button = event.target.closest('[data-print], [data-copies]');
    if (!button) return;
    if (button.hasAttribute('data-print')) return window.print();
    const from = button.dataset.copies;
    await copy(from ? byId(from).value : cardText(button.closest('[data-copy]')));
    const label = button.textContent;
    button.textContent = button.dataset.done;
    setTimeout(() => {
      button.textContent = label;
    }, 2000);
  });
  document.addEventListener('keydown', event => {
    if (event.key === 'Escape' && location.hash === '#so-far') location.hash = '#now';
  });
  localTimes(document);
  tools(document);
  const sayForm = byId('say');
  if (!sayForm) return;

  /* What is kept in this browser; without a place for it the page still works. */
  const store = {
    get: key => {
      try {
        return localStorage.getItem(key);
      } catch {
        return null;
      }
    },
    set: (key, value) => {
      try {
        localStorage.setItem(key, value);
      } catch {}
    },
    remove: key => {
      try {
        localStorage.removeItem(key);
      } catch {}
    },
    keys: () => {
      try {
        return Object.keys(localStorage);
      } catch {
        return [];
      }
    },
  };

  /* Typed and not yet sent. */
  const text = byId('text');
  const draftKey = `reseat:draft:${chat}`;
  if (text.value === '') text.value = store.get(draftKey) ?? '';
  text.addEventListener('input', () => {
    if (text.value === '') store.remove(draftKey);
    else store.set(draftKey, text.value);
  });
  // A keyboard with a mouse beside it sends with Enter; on glass, Enter is a new line.
  text.addEventListener('keydown', event => {
    if (event.key !== 'Enter' || event.shiftKey || event.isComposing) return;
    if (!matchMedia('(pointer: fine)').matches) return;
    event.preventDefault();
    if (text.value.trim() !== '') sayForm.requestSubmit();
  });

  /* The line above everything: away, or why something was not taken. */
  const away = byId('away');
  const tell = words => {
    if (away.textContent !== (words ?? '')) away.textContent = words ?? '';
    away.hidden = words === null;
  };
  let isAway = false;
  const setAway = now => {
    if (now) tell(away.dataset.away);
    else if (isAway) tell(null);
    isAway = now;
  };

  /* What waits to be sent: words in this browser's store, pictures in memory. */
  const outKey = `reseat:out:${chat}:`;
  const pictures = new Map();
  const memory = new Map();
  const queue = () => {
    const stored = store
      .keys()
      .filter(key => key.startsWith(outKey))
      .map(key => [key, JSON.parse(store.get(key) ?? 'null')])
      .filter(([, item]) => item !== null);
    const all = new Map([...memory, ...stored, ...pictures]);
    return [...all].sort(([a], [b]) => (a < b ? -1 : 1));
  };
  let count = 0;
  const put = (item, file) => {
    const busy = queue().some(([, other]) => other.path === item.path && other.fields.id === item.fields.id);
    if (busy) return;
    count += 1;
    const key = `${outKey}${Date.now()}-${String(count).padStart(5, '0')}`;
    if (file) pictures.set(key, { ...item, file });
    else {
      memory.set(key, item);
      store.set(key, JSON.stringify(item));
    }
    drawPending();
    send();
  };
  const drop = key => {
    pictures.delete(key);
    memory.delete(key);
    store.remove(key);
  };

  const pending = document.createElement('ol');
  pending.id = 'pending';
  pending.className = 'said';
  const drawPending = () => {
    const items = queue();
    if (items.length > 0 && !pending.isConnected) byId('thread').after(pending);
    if (items.length === 0) pending.remove();
    pending.replaceChildren(
      ...items.map(([, item]) => {
        const line = document.createElement('li');
        line.className = 'person';
        const bubble = document.createElement('p');
        bubble.className = 'bubble';
        bubble.dir = 'auto';
        bubble.textContent = item.words.length > 700 ? `${item.words.slice(0, 350)}…` : item.words;
        const state = document.createElement('p');
        state.className = 'fine';
        const waits = isAway ? body.dataset.waiting : body.dataset.sending;
        state.textContent = item.file && isAway ? `${waits}. ${body.dataset.keepOpen}` : waits;
        line.append(bubble, state);
        return line;
      }),
    );
  };

  /* Sending: one at a time, in order, again until it is taken. The same id is taken once. */
  let sending = false;
  let again;
  let tries = 0;
  const later = seconds => {
    clearTimeout(again);
    again = setTimeout(send, seconds * 1000);
  };
  async function send() {
    if (sending) return;
    sending = true;
    clearTimeout(again);
    try {
      for (let next = queue()[0]; next !== undefined; next = queue()[0]) {
        if (!(await sendOne(...next))) break;
      }
    } finally {
      sending = false;
      drawPending();
    }
  }
  async function sendOne(key, item) {
    const fields = { ...item.fields, csrf: sayForm.elements.csrf.value };
    let answer;
    let status = 0;
    try {
      const response = await fetch(item.path, {
        method: 'POST',
        headers: { accept: 'application/json' },
        body: item.file ? formOf(fields, item.file) : new URLSearchParams(fields),
      });
      status = response.status;
      answer = await response.json();
      if (status === 429) tries = Number(response.headers.get('retry-after')) || 2;
    } catch {
      setAway(true);
      tries = Math.min(15, tries * 2 || 1);
      later(tries);
      return false;
    }
    setAway(false);
    if (status === 200) {
      tries = 0;
      tell(null);
      drop(key);
      drawPending();
      apply(answer, item);
      return true;
    }
    tell(`${answer.title}. ${answer.how}`);
    if (status === 429 || status >= 500) {
      later(status === 429 ? tries : 10);
      return false;
    }
    // It will never be taken as it is: given back to whoever wrote it.
    drop(key);
    if (item.path === '/say' && text.value === '') {
      text.value = item.fields.text;
      store.set(draftKey, text.value);
    }
    freeCard();
    return true;
  }
  const formOf = (fields, file) => {
    const form = new FormData();
    for (const [name, value] of Object.entries(fields)) form.append(name, value);
    form.append('picture', file, file.name);
    return form;
  };

  const card = () => byId('now');
  const freeCard = () => {
    card()?.classList.remove('busy');
    for (const button of document.querySelectorAll('.chosen')) button.classList.remove('chosen');
  };

  let drawnAt = 0;
  document.addEventListener('submit', event => {
    const form = event.target;
    if (!form.matches('[data-say], [data-picture]')) return;
    event.preventDefault();
    if (form.matches('[data-picture]')) return;
    const fields = Object.fromEntries([...new FormData(form)].filter(([name]) => name !== 'csrf'));
    const button = event.submitter;
    if (button?.name) fields[button.name] = button.value;
    const path = new URL(form.action).pathname;
    if (path === '/answer') {
      // The second half of a double click lands on the next question: that is no answer to it.
      if (performance.now() - drawnAt < 400 || card().classList.contains('busy')) return;
      card().classList.add('busy');
      button.classList.add('chosen');
    }
    if (form === sayForm) {
      if (fields.text.trim() === '') return;
      fields.id = newId();
      text.value = '';
      store.remove(draftKey);
    }
    put({
      path,
      fields,
      words: path === '/say' ? fields.text : (button?.textContent ?? '').replace(/^\d+/, '').trim(),
    });
  });

  document.addEventListener('change', event => {
    const form = event.target.closest('[data-picture]');
    const file = event.target.files?.[0];
    if (!form || !file) return;
    event.target.value = '';
    if (file.size > 10 * 1024 * 1024) return tell(form.dataset.large);
    put({ path: '/picture', fields: { id: newId() }, words: file.name }, file);
  });

  /* Putting in place what has changed, and only that. */
  const KEYED = '#thread, .matter, .said, .earlier';
  const plain = element =>
    element.outerHTML
      .replace(/ (class|open)="[^"]*"/g, '')
      .replace(/(name="(?:id|seen)" value=)"[^"]*"/g, '$1')
      .replace(/<time([^>]*)>[^<]*/g, '<time$1>')
      .replace(/ hidden=""/g, '');
  function sync(old, fresh, added) {
    if (plain(old) === plain(fresh)) return;
    if (!old.matches(KEYED)) {
      old.replaceWith(fresh);
      return;
    }
    const before = new Map(
      [...old.children].map((child, index) => [child.id || `${child.tagName}${index}`, child]),
    );
    let last = null;
    for (const [index, child] of [...fresh.children].entries()) {
      const key = child.id || `${child.tagName}${index}`;
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

  function apply(answer, item) {
    if (answer.version !== body.dataset.version) return location.reload();
    const focused = document.activeElement;
    const focusedId = focused?.id;
    const added = [];
    const asked = byId('question')?.textContent;
    for (const [id, markup] of Object.entries(answer.parts)) {
      const template = document.createElement('template');
      template.innerHTML = markup;
      sync(byId(id), template.content.firstElementChild, added);
    }
    body.classList.remove('fresh');
    body.dataset.newest = answer.newest;
    byId('box-label').textContent = answer.box;
    for (const input of document.querySelectorAll('input[name="seen"]')) input.value = answer.seen;
    for (const input of document.querySelectorAll('input[name="id"]')) input.value = newId();
    localTimes(document);
    tools(document);
    drawPending();
    const question = byId('question');
    const isNew = question !== null && question.textContent !== asked;
    if (isNew) drawnAt = performance.now();
    if (queue().length === 0) freeCard();
    if (!focused?.isConnected) (byId(focusedId) ?? question ?? text).focus({ preventScroll: true });
    const heading = document.activeElement === question;
    const said = added.filter(node => node.matches('.bot, .matter')).map(node => node.textContent);
    announce([...said, isNew && !heading ? cardWords() : '']);
    if (item || added.length > 0) reveal(added);
    if (document.hidden && added.length > 0) document.title = `● ${body.dataset.more}`;
  }
  const cardWords = () => {
    const answers = [...card().querySelectorAll('.answers button')].map(
      button => button.lastElementChild.textContent,
    );
    return [card().querySelector('.try')?.textContent, byId('question').textContent, ...answers]
      .filter(Boolean)
      .join('. ');
  };
  const announce = parts => {
    const words = parts.join(' ').replace(/\s+/g, ' ').trim();
    if (words === '') return;
    const line = document.createElement('p');
    line.lang = 'en';
    line.textContent = words;
    byId('live').replaceChildren(line);
  };
  /** The newest, or the beginning of it where it is higher than the window. */
  function reveal(added) {
    const first = added
      .map(node => (node.matches('.matter') ? node.querySelector('.bot') : node))
      .find(node => node?.matches('.bot'));
    const room = window.innerHeight - byId('box').offsetHeight - 80;
    const end = card().getBoundingClientRect().bottom;
    const start = (first ?? card()).getBoundingClientRect().top;
    if (first && end - start > room) window.scrollBy({ top: start - 80 });
    else window.scrollTo({ top: document.documentElement.scrollHeight });
  }

  let asking = null;
  const refresh = async () => {
    asking ??= fetch('/', { headers: { accept: 'application/json' }, cache: 'no-store' })
      .then(async response => {
        if (!response.ok) throw new Error(String(response.status));
        return response.json();
      })
      .finally(() => {
        asking = null;
      });
    try {
      const answer = await asking;
      setAway(false);
      if (answer.newest >= Number(body.dataset.newest)) apply(answer);
    } catch {
      setAway(true);
    }
  };

  /* News from the server. */
  let news;
  let lost;
  const listen = () => {
    clearTimeout(lost);
    news = new EventSource('/events');
    news.addEventListener('hello', event => {
      clearTimeout(lost);
      const { newest, version } = JSON.parse(event.data);
      if (version !== body.dataset.version) return location.reload();
      setAway(false);
      if (newest > Number(body.dataset.newest)) refresh();
      send();
    });
    news.addEventListener('news', event => {
      if (Number(event.data) > Number(body.dataset.newest) && !sending) refresh();
    });
    news.addEventListener('error', () => {
      clearTimeout(lost);
      lost = setTimeout(() => {
        setAway(true);
        drawPending();
        if (news.readyState === EventSource.CLOSED) listen();
      }, 2500);
    });
  };
  listen();
  window.addEventListener('online', send);
  window.addEventListener('offline', () => {
    setAway(true);
    drawPending();
  });
  const title = document.title;
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) return;
    document.title = title;
    if (news.readyState === EventSource.CLOSED) listen();
    refresh();
  });
  // Another tab of this browser has sent what this one shows as waiting.
  window.addEventListener('storage', event => {
    if (event.key?.startsWith(outKey) && event.newValue === null) memory.delete(event.key);
    drawPending();
  });
  drawPending();
  send();
  if (location.hash === '' && Number(body.dataset.newest) > 0) reveal([]);
})();
