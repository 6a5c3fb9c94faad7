/* What this browser keeps between visits, for this chat alone. A browser that keeps nothing is no reason to fail. */
const prefix = `reseat:${document.body.dataset.chat}:`;

const tried = work => {
  try {
    return work(localStorage);
  } catch {
    return null;
  }
};

export const kept = {
  get: name => tried(store => store.getItem(prefix + name)),
  set: (name, value) => tried(store => store.setItem(prefix + name, value)),
  remove: name => tried(store => store.removeItem(prefix + name)),
  /** Names that begin so, in order. */
  names: beginning =>
    (tried(store => Object.keys(store)) ?? [])
      .filter(key => key.startsWith(prefix + beginning))
      .map(key => key.slice(prefix.length))
      .sort(),
  /** Another tab of this browser let go of something that begins so. */
  onRemoved(beginning, then) {
    window.addEventListener('storage', event => {
      if (event.newValue === null && event.key?.startsWith(prefix + beginning))
        then(event.key.slice(prefix.length));
    });
  },
};

/** Nothing else has it. */
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(15));
  return btoa(String.fromCharCode(...bytes))
    .replaceAll('+', '-')
    .replaceAll('/', '_');
}
