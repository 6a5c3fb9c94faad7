/** "Go on from another device": a link that its holder's browser can work out again, and that is kept only as a hash. */
import type { Store } from '#store/store.ts';
import { chatOf, isLinkSecret, linkHash, linkSecret, seal, unseal } from './cookie.ts';
import type { KeptLink } from './pages.ts';
import { qrOf } from './qr.ts';

const LIVES = 7 * 24 * 3_600_000;

export type LinkStore = Pick<Store, 'keepLink' | 'link' | 'newestLink' | 'withdrawLinks'>;

/** The chat's link, if it has one that is still good. */
export async function linkFor(
  store: LinkStore,
  token: string,
  base: string,
  now: number,
): Promise<KeptLink | null> {
  const link = await store.newestLink(chatOf(token), now);
  if (link === null) return null;
  const address = `${base}/go/${linkSecret(token, link.madeAt)}`;
  return { address, expiresAt: link.expiresAt, qr: qrOf(address) };
}

export async function makeLink(store: LinkStore, token: string, now: number): Promise<void> {
  const secret = linkSecret(token, now);
  await store.keepLink({
    hash: linkHash(secret),
    chat: chatOf(token),
    sealed: seal(secret, token),
    madeAt: now,
    expiresAt: now + LIVES,
  });
}

/** The token that a link opens; null when it opens nothing. */
export async function opened(store: LinkStore, secret: string, now: number): Promise<string | null> {
  if (!isLinkSecret(secret)) return null;
  const link = await store.link(linkHash(secret), now);
  return link === null ? null : unseal(secret, link.sealed);
}
