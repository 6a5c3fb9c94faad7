/** `npm run teams:package -- --app-id ID --website https://...`: writes the zip. `--help` tells the rest. */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { type Given, packed } from './app.ts';

const HELP = `Packs the Teams app into a zip for the Teams admin center.

  npm run teams:package -- --app-id ID --website ADDRESS [--privacy ADDRESS] [--terms ADDRESS]
                           [--developer NAME] [--version 1.0.0] [--out reseat-teams.zip]

  --app-id     the Application (client) ID of the app registration, MicrosoftAppId
  --website    an https:// address of your organisation: who runs this
  --privacy    what is kept and for how long; the website unless given
  --terms      terms of use; the website unless given
  --developer  who runs it, as people see it; at most 32 characters
  --version    grows with every upload, such as 1.0.1
`;

const ID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

function wrong(given: Given): string | null {
  const { appId, version, developer } = given;
  if (!ID.test(appId))
    return '--app-id is the Application (client) ID, such as 11111111-2222-4333-8444-555555555555';
  for (const name of ['website', 'privacy', 'terms'] as const)
    if (!URL.canParse(given[name]) || new URL(given[name]).protocol !== 'https:')
      return `--${name} is an address such as https://help.example/`;
  if (!/^\d+\.\d+\.\d+$/.test(version)) return '--version is three numbers, such as 1.0.1';
  return developer.length > 32 ? '--developer has at most 32 characters' : null;
}

function main(): number {
  const text = { type: 'string' } as const;
  const options = {
    'app-id': text,
    website: text,
    privacy: text,
    terms: text,
    developer: text,
    version: text,
    out: text,
    help: { type: 'boolean' },
  } as const;
  let values: ReturnType<typeof parseArgs<{ options: typeof options }>>['values'];
  try {
    values = parseArgs({ options }).values;
  } catch (error) {
    process.stderr.write(`${(error as Error).message}\n`);
    return 2;
  }
  if (values.help) {
    process.stdout.write(HELP);
    return 0;
  }
  const { website = '', out = 'reseat-teams.zip' } = values;
  const given: Given = {
    appId: values['app-id'] ?? '',
    website,
    privacy: values.privacy ?? website,
    terms: values.terms ?? website,
    developer: values.developer ?? 'Your help desk',
    version: values.version ?? '1.0.0',
  };
  const mistake = wrong(given);
  if (mistake !== null) {
    process.stderr.write(`${mistake}. See: npm run teams:package -- --help\n`);
    return 2;
  }
  writeFileSync(out, packed(given));
  process.stdout.write(`${out}: version ${given.version} for ${given.appId}\n`);
  return 0;
}

process.exitCode = main();
