/** A picture or a file out of an uploaded form, checked and cleaned. */
import { type Accepted, accept } from '#reading/accept.ts';
import { LARGEST_FILE } from '#reading/pictures/clean.ts';

/** The form around a picture may have so many bytes more. */
export const LARGEST_FORM = LARGEST_FILE + 64 * 1024;

export interface Uploaded {
  fields: Record<string, unknown>;
  name: string;
  accepted: Accepted | { ok: false; why: 'none' };
}

/** Null: it was no form (RFC 7578). */
export async function uploaded(body: unknown, type: string | undefined): Promise<Uploaded | null> {
  if (!Buffer.isBuffer(body) || type === undefined) return null;
  let form: FormData;
  try {
    form = await new Response(new Uint8Array(body), { headers: { 'content-type': type } }).formData();
  } catch {
    return null;
  }
  const fields = Object.fromEntries([...form].filter(([, value]) => typeof value === 'string'));
  const file = form.get('picture');
  if (file === null || typeof file === 'string' || file.name === '')
    return { fields, name: '', accepted: { ok: false, why: 'none' } };
  return { fields, name: file.name, accepted: accept(await file.bytes()) };
}
