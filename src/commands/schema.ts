/** `reseat schema`: writes what editors need to complete and correct the files of flows/, from the shapes and from the names that stand there. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { z } from 'zod';
import { site } from '#engine/catalogue.ts';
import { block, flow } from '#engine/schema.ts';
import { editorSchema, NAMES_FILE, namesSchema } from '#library/editor-schema.ts';
import { CATALOGUE, type Library, mistakeText } from '#library/load.ts';
import { namesIn } from '#library/names.ts';
import { walks } from '#talk/walk.ts';
import { UserError } from '../errors.ts';
import type { Shell } from './wired.ts';

/** Inside the folder of the flows, so that the schemas go where they go. */
export const SCHEMA_FOLDER = '.schema';

const SHAPES: Record<string, z.ZodType> = {
  flow,
  block,
  walks,
  site,
  ...Object.fromEntries(
    Object.values(CATALOGUE).map(([file, shape]) => [file.replace(/\.yaml$/, ''), shape]),
  ),
};

/** File name to content. */
export function schemaFiles(library: Pick<Library, 'catalogue' | 'blocks'>): Record<string, string> {
  const files = {
    ...Object.fromEntries(
      Object.entries(SHAPES).map(([name, shape]) => [`${name}.json`, editorSchema(shape)]),
    ),
    [NAMES_FILE]: namesSchema(namesIn(library)),
  };
  return Object.fromEntries(
    Object.entries(files).map(([name, schema]) => [name, `${JSON.stringify(schema, null, 2)}\n`]),
  );
}

export async function schema(shell: Shell): Promise<void> {
  const { library, mistakes } = await shell.load();
  if (library === null) throw new UserError(mistakes.map(mistakeText).join('\n'));
  const folder = join((await shell.config()).flows, SCHEMA_FOLDER);
  mkdirSync(folder, { recursive: true });
  for (const [name, content] of Object.entries(schemaFiles(library))) {
    writeFileSync(join(folder, name), content);
  }
  shell.output.write(`${folder}: written.\n`);
}
