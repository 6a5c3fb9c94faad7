/** What somebody attached, as it is kept: a picture without its metadata, or text. Told from the content, never from the name. */
import { type Cleaned, clean } from './pictures/clean.ts';
import type { PictureKind } from './pictures/kind.ts';
import { LARGEST_TEXT, textOf } from './text-files.ts';

export type Accepted =
  | { ok: true; type: PictureKind | 'text/plain'; content: Uint8Array }
  | { ok: false; why: Extract<Cleaned, { ok: false }>['why'] | 'too-long' };

export function accept(bytes: Uint8Array): Accepted {
  const cleaned = clean(bytes);
  if (cleaned.ok) return { ok: true, type: cleaned.type, content: cleaned.content };
  if (cleaned.why !== 'other') return cleaned;
  const text = textOf(bytes);
  if (text === null) return cleaned;
  if (bytes.length > LARGEST_TEXT) return { ok: false, why: 'too-long' };
  return { ok: true, type: 'text/plain', content: new TextEncoder().encode(text) };
}
