/** Pictures and files that came with a message: fetched from where Teams keeps them and nowhere else, their kind told from their content, their metadata taken out. */
import { accept } from '#reading/accept.ts';
import { LARGEST_FILE } from '#reading/pictures/clean.ts';
import type { Address, FromPerson, Lying } from '#talk/inbound.ts';
import type { Fetched } from '../channel.ts';
import { fileName } from '../file-name.ts';
import type { Adapter } from './adapter.ts';
import { addressOf, identityOf, toOf } from './inbound.ts';
import type { Incoming } from './incoming.ts';
import { isService, type TeamsSettings } from './settings.ts';
import { wordsFor } from './words.ts';

const MOST = 5;
/** Milliseconds until a file that could not be fetched is tried again. */
const AGAIN = 3000;

/** Where files that people send in a personal chat lie: their organisation's own storage, whose address opens the file by itself. */
const STORAGE = ['.sharepoint.com', '.sharepoint.us', '.sharepoint-df.com'];

export interface Fetching {
  adapter: Adapter;
  settings: TeamsSettings;
  log(event: string, details: Record<string, unknown>): void;
}

/** Null: none came with it. */
export function filesOf(incoming: Incoming): FromPerson | null {
  const files = incoming.attachments.flatMap(lyingOf).slice(0, MOST);
  if (files.length === 0) return null;
  const { at } = incoming;
  return { kind: 'files', identity: identityOf(incoming, 'files'), at, address: addressOf(incoming), files };
}

/** A file, or a picture pasted into the text; Teams repeats the text itself as HTML, which is none. */
function lyingOf(attachment: Record<string, unknown>, index: number): Lying[] {
  const { contentType, contentUrl, content, name } = attachment;
  const file = { id: String(index), name: fileName(typeof name === 'string' ? name : ''), size: 0 };
  if (contentType === 'application/vnd.microsoft.teams.file.download.info') {
    const url = (content as { downloadUrl?: unknown } | undefined)?.downloadUrl;
    return [{ ...file, url: typeof url === 'string' ? url : '' }];
  }
  if (typeof contentType === 'string' && contentType.startsWith('image/') && typeof contentUrl === 'string')
    return [{ ...file, url: contentUrl }];
  return [];
}

export async function fetchFile(
  { adapter, settings, log }: Fetching,
  { url }: Lying,
  address: Address,
  signal: AbortSignal,
): Promise<Fetched> {
  const { reference, locale } = toOf(address);
  const words = wordsFor(locale);
  const lies = whereLies(url, reference.serviceUrl, settings);
  if (lies === null) {
    log('teams-file-refused', { why: 'an address that is not known to hold files of Teams' });
    return { ok: false, refused: words.unfetched };
  }
  try {
    const headers: Record<string, string> =
      lies === 'service' ? { authorization: `Bearer ${await adapter.token(reference.serviceUrl)}` } : {};
    const response = await fetch(url, { headers, redirect: 'error', signal });
    if (response.status === 429 || response.status >= 500) throw new Error(`status ${response.status}`);
    if (!response.ok || response.body === null) return { ok: false, refused: words.unfetched };
    const accepted = accept(await upTo(response.body, LARGEST_FILE + 1));
    return accepted.ok ? accepted : { ok: false, refused: words.refused[accepted.why] };
  } catch (error) {
    return { ok: false, again: true, after: AGAIN, error: String(error) };
  }
}

/** With the message service, which wants our token; or in a storage that must never see it. Null: nowhere that we know. */
function whereLies(url: string, serviceUrl: string, settings: TeamsSettings): 'service' | 'storage' | null {
  if (!URL.canParse(url)) return null;
  const { protocol, hostname, origin } = new URL(url);
  if (origin === new URL(serviceUrl).origin && isService(url, settings)) return 'service';
  if (settings.loopback && isService(url, settings)) return 'storage';
  return protocol === 'https:' && STORAGE.some(suffix => hostname.endsWith(suffix)) ? 'storage' : null;
}

/** No more than so many bytes are taken in; that it is too large is then seen. */
async function upTo(body: ReadableStream<Uint8Array>, most: number): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const part of body) {
    parts.push(part);
    length += part.length;
    if (length >= most) break;
  }
  return Buffer.concat(parts).subarray(0, most);
}
