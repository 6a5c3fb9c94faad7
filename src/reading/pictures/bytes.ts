/** A picture without metadata, and its size in pixels as the file itself says. */
export interface Stripped {
  content: Uint8Array;
  width: number;
  height: number;
}

/** The file begins like a picture and is none. */
export class BadPicture extends Error {}

export function joined(parts: Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
