/** An editor as far as it reads YAML: a real language server, told of this folder's own settings. */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

export interface Editor {
  /** Opens a file of the folder, or goes on in it, with this text. Nothing is written. */
  open(file: string, text: string): Promise<Opened>;
  close(): void;
}

export interface Opened {
  /** What is underlined: "line: message". */
  mistakes: string[];
  /** What is shown about the word behind which the text up to `until` ends. */
  explained(until: string): Promise<string>;
  /** What is offered there. */
  offered(until: string): Promise<string[]>;
}

interface Message {
  id?: number;
  method?: string;
  params?: { uri?: string; diagnostics?: Diagnostic[]; items?: { section?: string }[] };
  result?: unknown;
}

interface Diagnostic {
  message: string;
  tags?: number[];
  range: { start: { line: number } };
}

/** Shown in grey, such as a mark that nothing refers to; no mistake (Language Server Protocol, DiagnosticTag). */
const UNNECESSARY = 1;

export async function editor(): Promise<Editor> {
  const server = 'node_modules/yaml-language-server/bin/yaml-language-server';
  const child = spawn(process.execPath, [server, '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
  const own = JSON.parse(readFileSync('.vscode/settings.json', 'utf8'));
  const yaml = {
    schemas: own['yaml.schemas'],
    schemaStore: { enable: false },
    hover: true,
    completion: true,
  };
  const answers = new Map<number, (result: unknown) => void>();
  const judged = new Map<string, (found: Diagnostic[]) => void>();
  const versions = new Map<string, number>();
  let asked = 0;

  const send = (message: object) => {
    const text = JSON.stringify({ jsonrpc: '2.0', ...message });
    child.stdin.write(`Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`);
  };
  const ask = (method: string, params: object) =>
    new Promise<unknown>(resolve => {
      asked += 1;
      answers.set(asked, resolve);
      send({ id: asked, method, params });
    });
  const take = ({ id, method, params, result }: Message) => {
    if (method === 'workspace/configuration') {
      send({ id, result: params!.items!.map(({ section }) => (section === 'yaml' ? yaml : null)) });
    } else if (method === 'textDocument/publishDiagnostics') {
      judged.get(params!.uri!)?.(params!.diagnostics!);
    } else if (method !== undefined) {
      if (id !== undefined) send({ id, result: null });
    } else if (id !== undefined) {
      answers.get(id)?.(result);
    }
  };
  let waiting = Buffer.alloc(0);
  child.stdout.on('data', (chunk: Buffer) => {
    waiting = Buffer.concat([waiting, chunk]);
    for (;;) {
      const head = waiting.indexOf('\r\n\r\n');
      const length = Number(/Content-Length: (\d+)/i.exec(waiting.subarray(0, head).toString())?.[1]);
      const end = head + 4 + length;
      if (head < 0 || waiting.length < end) return;
      const body = waiting.subarray(head + 4, end).toString();
      waiting = waiting.subarray(end);
      take(JSON.parse(body));
    }
  });

  const root = pathToFileURL(process.cwd()).href;
  await ask('initialize', {
    processId: process.pid,
    rootUri: root,
    workspaceFolders: [{ uri: root, name: 'reseat' }],
    capabilities: { workspace: { configuration: true } },
  });
  send({ method: 'initialized', params: {} });
  send({ method: 'workspace/didChangeConfiguration', params: { settings: { yaml } } });

  return {
    async open(file, text) {
      const uri = `${root}/${file}`;
      const version = (versions.get(uri) ?? 0) + 1;
      versions.set(uri, version);
      const found = await new Promise<Diagnostic[]>(resolve => {
        judged.set(uri, resolve);
        if (version === 1) {
          const textDocument = { uri, languageId: 'yaml', version, text };
          send({ method: 'textDocument/didOpen', params: { textDocument } });
        } else {
          const textDocument = { uri, version };
          send({ method: 'textDocument/didChange', params: { textDocument, contentChanges: [{ text }] } });
        }
      });
      const at = (until: string) => {
        const lines = text.slice(0, text.indexOf(until) + until.length).split('\n');
        return {
          textDocument: { uri },
          position: { line: lines.length - 1, character: lines.at(-1)!.length },
        };
      };
      return {
        mistakes: found
          .filter(({ tags }) => !tags?.includes(UNNECESSARY))
          .map(({ message, range }) => `${range.start.line + 1}: ${message}`),
        explained: async until => {
          const shown = (await ask('textDocument/hover', at(until))) as {
            contents?: { value?: string };
          } | null;
          return shown?.contents?.value ?? '';
        },
        offered: async until => {
          const list = (await ask('textDocument/completion', at(until))) as { items: { label: string }[] };
          return list.items.map(({ label }) => label);
        },
      };
    },
    close: () => child.kill(),
  };
}
