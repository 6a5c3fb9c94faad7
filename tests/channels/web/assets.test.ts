import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { loadAssets } from '#channels/web/assets.ts';

test('every file of the page is served, and everything served has the version in its address', () => {
  const { assets, files } = loadAssets();
  const scripts = readdirSync('src/channels/web/static').filter(name => name.endsWith('.js'));
  expect([...files.keys()].filter(name => name.endsWith('.js')).sort()).toEqual(scripts.sort());
  const style = files.get('style.css')!.plain.toString();
  for (const name of readdirSync('src/channels/web/static').filter(
    each => each.endsWith('.css') && each !== 'plain.css',
  ))
    expect(style).toContain(readFileSync(`src/channels/web/static/${name}`, 'utf8'));
  for (const address of [assets.style, assets.plain, assets.script, assets.icon, ...assets.preloads]) {
    expect(address).toContain(assets.version);
    expect(files.has(address.split('/').at(-1)!)).toBe(true);
  }
});
