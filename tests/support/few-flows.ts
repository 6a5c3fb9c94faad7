/** A copy of the shipped folder with few of its flows, where a test proves them anew: all of them take their time. */
import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const ALWAYS = ['any', 'not-storage', 'blocks', 'catalogue'];

export function fewFlows(...keep: string[]): string {
  const folder = mkdtempSync(join(tmpdir(), 'reseat-flows-'));
  cpSync('flows', folder, { recursive: true });
  for (const { name } of readdirSync(folder, { withFileTypes: true }).filter(entry => entry.isDirectory())) {
    if (!ALWAYS.includes(name) && !keep.includes(name)) rmSync(join(folder, name), { recursive: true });
  }
  return folder;
}
