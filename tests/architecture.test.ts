import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';
import { describe, expect, test } from 'vitest';

interface Rule {
  /** Files that the rule is about, as the beginning of their path in src/. */
  from: string[];
  /** What they may import; everything else is an offence. Paths in src/, `node:` modules, or packages. */
  may: string[];
  /** Told to the offender. */
  because: string;
}

const PURE_ROOMS = ['engine/', 'hearing/', 'tickets/', 'workings/'];
const PURE_LIBRARIES = ['zod', 'fastest-levenshtein'];

const RULES: Rule[] = [
  {
    from: PURE_ROOMS,
    may: [...PURE_ROOMS, 'talk/inbound.ts', 'store/store.ts', ...PURE_LIBRARIES],
    because:
      'This room is pure: no files, network, clock, randomness, environment or database. Take what you need as an argument, or move the code to talk/, store/, library/ or commands/.',
  },
  {
    from: [
      'talk/attached.ts',
      'talk/decide.ts',
      'talk/finish.ts',
      'talk/draft.ts',
      'talk/desk.ts',
      'talk/ending.ts',
      'talk/hear-',
      'talk/knowledge.ts',
      'talk/question.ts',
      'talk/quote.ts',
      'talk/record-walk.ts',
      'talk/photo.ts',
      'talk/rehearse.ts',
      'talk/route.ts',
      'talk/secrets.ts',
      'talk/standing.ts',
      'talk/walk.ts',
    ],
    may: [...PURE_ROOMS, 'talk/', 'store/store.ts', ...PURE_LIBRARIES],
    because:
      'Deciding is pure, so that the same conversation comes out the same anywhere. Only turn.ts, deliver.ts and timers.ts touch the world.',
  },
  {
    from: ['talk/'],
    may: [...PURE_ROOMS, 'talk/', 'store/store.ts', 'channels/channel.ts', ...PURE_LIBRARIES],
    because:
      'Talk knows the store and the channels by their interfaces only; wiring.ts hands it the real ones.',
  },
  {
    from: ['store/'],
    may: [
      'store/',
      'engine/',
      'tickets/',
      'talk/inbound.ts',
      'errors.ts',
      'kysely',
      'better-sqlite3',
      'pg',
      'node:fs',
      'node:path',
      'node:timers/promises',
    ],
    because: 'Only store/ knows SQL, and it knows nothing but SQL: no hearing, no channel, no flow files.',
  },
  {
    from: ['reading/'],
    may: ['reading/', 'tesseract.js', 'pngjs', 'jpeg-js', 'node:module', 'node:path', 'node:worker_threads'],
    because:
      'Reading looks into what people send: bytes in, findings out. What is done with them is decided in talk/ or the channel.',
  },
  {
    from: ['channels/web/'],
    may: [
      'channels/channel.ts',
      'channels/plain.ts',
      'channels/words.ts',
      'channels/file-name.ts',
      'channels/reached.ts',
      'channels/web/',
      'engine/',
      'reading/',
      'tickets/',
      'talk/inbound.ts',
      'store/store.ts',
      'express',
      'uqr',
      'node:crypto',
      'node:fs',
      'node:zlib',
    ],
    because:
      'The web chat draws what is stored and makes inbounds. It knows the store by its interface only, and decides nothing.',
  },
  {
    from: ['channels/slack/'],
    may: [
      'channels/channel.ts',
      'channels/plain.ts',
      'channels/words.ts',
      'channels/file-name.ts',
      'channels/reached.ts',
      'channels/slack/',
      'engine/',
      'reading/',
      'tickets/',
      'workings/',
      'talk/inbound.ts',
      'store/store.ts',
      '@slack/bolt',
      '@slack/types',
      '@slack/web-api',
      'express',
      'zod',
      'node:crypto',
      'node:timers/promises',
    ],
    because:
      'Slack draws messages and makes inbounds. It knows the store by its interface only, and decides nothing.',
  },
  {
    from: ['channels/teams/'],
    may: [
      'channels/channel.ts',
      'channels/plain.ts',
      'channels/words.ts',
      'channels/file-name.ts',
      'channels/reached.ts',
      'channels/teams/',
      'engine/',
      'reading/',
      'tickets/',
      'workings/',
      'talk/inbound.ts',
      'store/store.ts',
      'express',
      'zod',
      'botbuilder',
      'node:crypto',
    ],
    because:
      'Teams draws messages and makes inbounds. It knows the store by its interface only, and decides nothing.',
  },
  {
    from: ['server/'],
    may: [
      'server/',
      'talk/',
      'store/store.ts',
      'channels/channel.ts',
      'errors.ts',
      'express',
      'node:http',
      'node:net',
    ],
    because:
      'The server is HTTP and what runs beside it, the same for every channel: it knows channels by their interface only.',
  },
  {
    from: ['channels/channel.ts', 'channels/fake/'],
    may: ['channels/channel.ts', 'engine/', 'tickets/', 'talk/inbound.ts', 'store/store.ts'],
    because: 'What all channels share knows the shapes of messages and tickets, and no platform.',
  },
  {
    from: ['channels/'],
    may: ['channels/', 'engine/', 'tickets/', 'talk/inbound.ts'],
    because:
      'A channel draws messages and makes inbounds. It does not decide, and it never sees the database.',
  },
  {
    from: ['library/'],
    may: [
      'library/',
      'engine/',
      'errors.ts',
      'zod',
      'yaml',
      'node:fs',
      'node:path',
      'kept.ts',
      'node:crypto',
      'node:v8',
      'node:worker_threads',
    ],
    because: 'The library reads flows/ and hands them to the engine.',
  },
  {
    from: ['drawing/'],
    may: ['drawing/', 'engine/', 'elkjs'],
    because:
      'Drawing is pure: the file in, SVG text out. Fonts and files are read in commands/, which hands it the widths of letters.',
  },
  {
    from: ['main.ts', 'kept.ts'],
    may: ['shell.ts', 'kept.ts', 'node:module', 'node:path'],
    because: 'What is imported here is compiled before anything compiled is remembered.',
  },
  {
    from: ['commands/', 'cli.ts', 'gather.ts', 'look.ts', 'config.ts', 'errors.ts'],
    may: ['', 'commander', 'zod', '@resvg/resvg-js', 'node:fs', 'node:path', 'node:readline', 'node:url'],
    because:
      'Commands use what wiring.ts wired; they open nothing themselves and know neither Kysely nor a chat platform.',
  },
];

/** Time, chance and the environment enter here. */
const WIRES = ['shell.ts', 'wiring.ts'];

/** Packages that one folder only may know, whoever else is allowed what. */
const KEPT_IN: Record<string, string> = {
  kysely: 'store/',
  'better-sqlite3': 'store/',
  pg: 'store/',
  yaml: 'library/',
  commander: 'cli.ts',
  elkjs: 'drawing/',
  '@slack': 'channels/slack/',
  'tesseract.js': 'reading/',
  pngjs: 'reading/',
  'jpeg-js': 'reading/',
  botbuilder: 'channels/teams/adapter.ts',
};

const files = readdirSync('src', { recursive: true, encoding: 'utf8' })
  .filter(file => file.endsWith('.ts'))
  .map(file => file.replaceAll('\\', '/'));

interface Import {
  file: string;
  target: string;
}

const imports: Import[] = files.flatMap(file =>
  [...readFileSync(join('src', file), 'utf8').matchAll(/(?:from|import)\s*\(?'([^']+)'/g)].map(match => ({
    file,
    target: targetOf(file, match[1]!),
  })),
);

function targetOf(file: string, given: string): string {
  if (given.startsWith('#')) return given.slice(1);
  if (given.startsWith('.')) return relative('.', normalize(join(dirname(file), given)));
  return given;
}

const isFile = (target: string) => /\.(ts|json)$/.test(target);
const allowed = ({ target }: Import, may: string[]) =>
  may.some(each =>
    isFile(target)
      ? target.startsWith(each)
      : each !== '' && (target === each || target.startsWith(`${each}/`)),
  );

describe('who may import whom', () => {
  test('every file stands under a rule, or wires', () => {
    expect(
      files.filter(
        file => !WIRES.includes(file) && !RULES.some(({ from }) => from.some(each => file.startsWith(each))),
      ),
    ).toEqual([]);
  });

  test.each(RULES)('$from', ({ from, may, because }) => {
    const first = (file: string) => RULES.find(rule => rule.from.some(each => file.startsWith(each)));
    const offences = imports
      .filter(each => first(each.file)?.from === from && !allowed(each, may))
      .map(({ file, target }) => `src/${file} imports ${target}. ${because}`);
    expect(offences).toEqual([]);
  });

  test('a package kept in one folder is imported nowhere else', () => {
    const offences = imports.filter(({ file, target }) => {
      const home = KEPT_IN[target.split('/')[0]!];
      return home !== undefined && !file.startsWith(home);
    });
    expect(offences).toEqual([]);
  });

  test('no channel, working or rule imports a sibling', () => {
    const unit = (path: string) => /^(channels|workings|engine\/check\/rules)\/([^/]+)\//.exec(path)?.[0];
    const offences = imports.filter(({ file, target }) => {
      const [own, other] = [unit(file), unit(target)];
      return own !== undefined && other !== undefined && own !== other;
    });
    expect(offences).toEqual([]);
  });

  test('pure rooms take time, chance and environment as arguments', () => {
    const impure =
      /\b(Date\.now\(|new Date\(\)|Math\.random\(|process\.|performance\.|setTimeout\(|setInterval\(|fetch\(|crypto\.)/;
    const offences = files
      .filter(file => [...PURE_ROOMS, 'drawing/'].some(room => file.startsWith(room)))
      .filter(file =>
        impure.test(readFileSync(join('src', file), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '')),
      );
    expect(offences).toEqual([]);
  });

  test('only what wires and config.ts read the environment', () => {
    const offences = files.filter(
      file => !WIRES.includes(file) && /process\.env/.test(readFileSync(join('src', file), 'utf8')),
    );
    expect(offences.filter(file => file !== 'config.ts')).toEqual([]);
  });

  test('no file has two jobs: 400 lines at most', () => {
    const long = files.filter(file => readFileSync(join('src', file), 'utf8').split('\n').length > 400);
    expect(long).toEqual([]);
  });
});
