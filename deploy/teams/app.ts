/** The Teams app as an administrator uploads it: the manifest with one's own ids, and the icons, in one zip. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { strToU8, zipSync } from 'fflate';

export interface Given {
  /** The bot's application id; the app has the same. */
  appId: string;
  /** An address of one's own organisation, where people read who runs this. */
  website: string;
  privacy: string;
  terms: string;
  /** Who runs it, as people see it. */
  developer: string;
  /** Grows with every upload. */
  version: string;
}

export const FOLDER = import.meta.dirname;

/** Its shape is the published schema's matter. */
export type Manifest = Record<string, unknown>;

export function manifestFor({ appId, website, privacy, terms, developer, version }: Given): Manifest {
  const made = JSON.parse(readFileSync(join(FOLDER, 'manifest.json'), 'utf8'));
  const [bot] = made.bots;
  return {
    ...made,
    version,
    id: appId,
    developer: { name: developer, websiteUrl: website, privacyUrl: privacy, termsOfUseUrl: terms },
    bots: [{ ...bot, botId: appId }],
  };
}

/** A drawing of the folder as PNG, as large as it says. */
export const icon = (name: 'color' | 'outline'): Uint8Array =>
  new Resvg(readFileSync(join(FOLDER, `${name}.svg`), 'utf8')).render().asPng();

export const packed = (given: Given): Uint8Array =>
  zipSync(
    {
      'manifest.json': strToU8(`${JSON.stringify(manifestFor(given), null, 2)}\n`),
      'color.png': icon('color'),
      'outline.png': icon('outline'),
    },
    // The same contents make the same file.
    { mtime: new Date(2026, 0, 1) },
  );
