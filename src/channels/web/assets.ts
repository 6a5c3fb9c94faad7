/** The page's style, scripts and icon: read once, under an address that changes with their content, so that browsers keep them. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import type { Assets } from './page.ts';

/** Each builds on those before it; they are served as one. */
const STYLES = ['base', 'talk', 'ask', 'box', 'card', 'pages', 'wide', 'print'];
/** The first one imports the others by name, so all have one version. */
const SCRIPTS = ['chat', 'kept', 'outbox', 'page', 'update'];

export interface Served {
  type: string;
  plain: Buffer;
  gzip: Buffer;
}

export function loadAssets(): { assets: Assets; files: Map<string, Served> } {
  const read = (name: string) => readFileSync(new URL(`./static/${name}`, import.meta.url));
  const served = (type: string, plain: Buffer): Served => ({
    type,
    plain,
    gzip: gzipSync(plain, { level: 9 }),
  });
  const style = Buffer.concat(STYLES.map(name => read(`${name}.css`)));
  const files = new Map<string, Served>([
    ['style.css', served('text/css; charset=utf-8', style)],
    ['plain.css', served('text/css; charset=utf-8', read('plain.css'))],
    ['icon.svg', served('image/svg+xml', read('icon.svg'))],
    ...SCRIPTS.map((name): [string, Served] => [
      `${name}.js`,
      served('text/javascript; charset=utf-8', read(`${name}.js`)),
    ]),
  ]);
  const hash = createHash('sha256');
  for (const [name, { plain }] of files) hash.update(name).update(plain);
  const version = hash.digest('hex').slice(0, 12);
  const at = (name: string) => `/static/${version}/${name}`;
  const [script = '', ...preloads] = SCRIPTS.map(name => at(`${name}.js`));
  return {
    assets: {
      version,
      icon: at('icon.svg'),
      style: at('style.css'),
      plain: at('plain.css'),
      script,
      preloads,
    },
    files,
  };
}
