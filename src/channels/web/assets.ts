/** The page's style, script and icon: read once, served under a name that changes with the content, so that browsers keep them. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import type { Assets } from './page.ts';

const TYPES = {
  'style.css': 'text/css; charset=utf-8',
  'chat.js': 'text/javascript; charset=utf-8',
  'icon.svg': 'image/svg+xml',
} as const;

export interface Served {
  type: string;
  plain: Buffer;
  gzip: Buffer;
}

export function loadAssets(): { assets: Assets; files: Map<string, Served> } {
  const files = new Map<string, Served>();
  const place = (name: keyof typeof TYPES) => {
    const plain = readFileSync(new URL(`./static/${name}`, import.meta.url));
    const hash = createHash('sha256').update(plain).digest('hex').slice(0, 12);
    const [stem, end] = name.split('.');
    const served = `${stem}.${hash}.${end}`;
    files.set(served, { type: TYPES[name], plain, gzip: gzipSync(plain, { level: 9 }) });
    return `/static/${served}`;
  };
  const style = place('style.css');
  const script = place('chat.js');
  const icon = place('icon.svg');
  const version = createHash('sha256').update(`${style}${script}`).digest('hex').slice(0, 12);
  return { assets: { style, script, icon, version }, files };
}
