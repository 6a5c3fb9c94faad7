/** The commands: names, options, help. What they do is in commands/. Bad input is one clear line on standard error and exit status 2. */
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import type { DeskAction } from '#talk/inbound.ts';
import { PRIORITIES, type Priority, reference, STATUSES, type TicketStatus } from '#tickets/schema.ts';
import type { Shell } from './commands/wired.ts';
import { UserError } from './errors.ts';

/** Runs one command line; sets the exit status through the shell. */
export async function run(shell: Shell, argv: string[]): Promise<void> {
  const program = programOf(shell);
  try {
    await program.parseAsync(argv);
  } catch (error) {
    if (error instanceof CommanderError) {
      shell.exit(error.exitCode === 0 ? 0 : 2);
    } else if (error instanceof UserError) {
      shell.errors.write(`reseat: ${error.message}\n`);
      shell.exit(2);
    } else {
      throw error;
    }
  }
}

function programOf(shell: Shell): Command {
  const program = new Command('reseat')
    .description(
      'The first fifteen minutes of every storage problem: questions, safe self-help, a complete ticket.',
    )
    .showHelpAfterError('(see --help)')
    .exitOverride()
    .configureOutput({
      writeOut: text => shell.output.write(text),
      writeErr: text => shell.errors.write(text),
      outputError: (text, write) => write(text.replace(/^error: /, 'reseat: ')),
    });
  program
    .command('serve')
    .description('the web chat on HOST and PORT, and Slack and Teams where they are set up')
    .action(async () => (await import('./commands/serve.ts')).serve(shell));
  program
    .command('chat')
    .description('talk in the terminal; one line of standard input is one message')
    .option('--json', 'one JSON line per line of input, after one greeting line', false)
    .option('--as <name>', 'whose conversation this is')
    .option('--desk <topic>', 'a desk flow for technicians, such as bench, until it ends')
    .option('--ticket <ticket>', 'with --desk: the ticket it is for; what was found goes there as a note')
    .action(async options => (await import('./commands/chat.ts')).chat(shell, options));
  program
    .command('understand')
    .description('which symptom is this; without TEXT one message per line of standard input')
    .argument('[text]')
    .option('--json', 'one JSON line per message', false)
    .action(async (text, options) =>
      (await import('./commands/understand.ts')).understand(shell, text, options),
    );
  program
    .command('check')
    .description('prove the flows; exit 1 with the shortest counter-example of each broken rule')
    .argument('[flow...]', 'tell only about these')
    .option('--json', 'figures and broken rules as JSON', false)
    .action(async (flows, options) => (await import('./commands/check.ts')).check(shell, flows, options));
  program
    .command('replay')
    .description("run recorded walks against today's flows")
    .argument('[file...]', 'walks.yaml files, or flows by their names; without one all are played')
    .action(async files => (await import('./commands/replay.ts')).replay(shell, files));
  program
    .command('new')
    .description('begin something new')
    .command('flow')
    .description('a small flow with a walk, both of which hold as they are')
    .argument('<name>', 'a symptom without a flow, or desk-TOPIC')
    .action(async name => (await import('./commands/new.ts')).newFlow(shell, name));
  program
    .command('schema')
    .description('write what editors need to complete and correct the flows while one types')
    .action(async () => (await import('./commands/schema.ts')).schema(shell));
  program
    .command('draw')
    .description('a flow or a block as a picture that one can read on one screen')
    .argument('<symptom>', 'name of a folder in flows/ or in flows/blocks/')
    .option('--out <file>', 'ends with .svg or .png; without it the SVG goes to standard output')
    .option('--width <pixels>', 'how wide the .png is, 2880 unless given', pixelsOf)
    .action(async (name, options) => (await import('./commands/draw.ts')).draw(shell, name, options));
  program
    .command('work-out')
    .description(
      'a calculator: input as options or as JSON on standard input; without WORKING they are listed',
    )
    .argument('[working]')
    .argument('[options...]', 'fields of the input, such as --level 5; @FILE is what stands in a file')
    .option('--json', 'the output as JSON', false)
    .option('--schema', 'the shapes of input and output, as JSON Schema', false)
    .option('--example', 'a sample input', false)
    .allowUnknownOption()
    .action(async (working, given, options) =>
      (await import('./commands/work-out.ts')).workOutCommand(shell, working, given, options),
    );
  desk(program.command('tickets').description('the desk from a terminal'), shell);
  return program;
}

const by = () => new Option('--by <name>', 'who at the desk; your login name unless given');
const json = () => new Option('--json', 'as JSON').default(false);

function desk(command: Command, shell: Shell): void {
  const tickets = () => import('./commands/tickets.ts');
  const act = async (ticket: string, action: DeskAction, by: string | undefined, done: string) =>
    (await tickets()).act(shell, ticket, action, by, done);
  command
    .command('list', { isDefault: true })
    .description('open tickets, most urgent first')
    .option('--all', 'closed ones too', false)
    .addOption(new Option('--status <status>', 'only these').choices(STATUSES))
    .addOption(new Option('--priority <priority>', 'only these').choices(PRIORITIES))
    .option('--symptom <symptom>', 'only these')
    .option('--site <site>', 'only these')
    .addOption(json())
    .action(async ({ all, status, priority, symptom, site, json: asJson }) => {
      const open: TicketStatus[] = ['open', 'taken', 'waiting'];
      const filter = {
        ...(status ? { status: [status as TicketStatus] } : all ? {} : { status: open }),
        ...(priority ? { priority: [priority as Priority] } : {}),
        symptom,
        site,
      };
      return (await tickets()).list(shell, filter, asJson);
    });
  command
    .command('show')
    .description('everything on one ticket')
    .argument('<ticket>')
    .addOption(json())
    .action(async (ticket, options) => (await tickets()).show(shell, ticket, options.json));
  command
    .command('take')
    .description('make a ticket your own; the person is told')
    .argument('<ticket>')
    .addOption(by())
    .action((ticket, options) => act(ticket, { do: 'take' }, options.by, 'taken'));
  command
    .command('hand')
    .description('hand a ticket to somebody')
    .argument('<ticket>')
    .argument('<name>')
    .addOption(by())
    .action((ticket, to, options) => act(ticket, { do: 'hand', to }, options.by, `handed to ${to}`));
  command
    .command('ask')
    .description("put a question to the person; the answer comes back to the ticket's life")
    .argument('<ticket>')
    .argument('<question>')
    .addOption(by())
    .action((ticket, text, options) => act(ticket, { do: 'ask', text }, options.by, 'asked'));
  command
    .command('note')
    .description('add a note; the person does not see it')
    .argument('<ticket>')
    .argument('<text>')
    .addOption(by())
    .action((ticket, text, options) => act(ticket, { do: 'note', text }, options.by, 'note added'));
  command
    .command('priority')
    .description('set the priority; lowering needs a reason')
    .argument('<ticket>')
    .addArgument(command.createArgument('<priority>').choices(PRIORITIES))
    .argument('[reason]', '', '')
    .addOption(by())
    .action((ticket, priority: Priority, reason, options) =>
      act(ticket, { do: 'priority', priority, reason }, options.by, `priority ${priority}`),
    );
  command
    .command('wait')
    .description('wait until a day, such as 2026-12-01')
    .argument('<ticket>')
    .argument('<until>', 'a date', dayOf)
    .argument('<reason>')
    .addOption(by())
    .action((ticket, until: number, reason, options) =>
      act(ticket, { do: 'wait', until, reason }, options.by, 'waiting'),
    );
  command
    .command('merge')
    .description('the same matter as another ticket')
    .argument('<ticket>')
    .argument('<into>')
    .addOption(by())
    .action(async (ticket, given, options) => {
      const into = (await tickets()).numberOf(given);
      return act(ticket, { do: 'merge', into }, options.by, `merged into ${reference(into)}`);
    });
  command
    .command('close')
    .description('close with the confirmed fault, or with --none and words')
    .argument('<ticket>')
    .argument('[fault]', 'id of catalogue/faults.yaml')
    .option('--none <words>', 'none of the catalogue: what it was, in words')
    .addOption(by())
    .action((ticket, fault: string | undefined, options) =>
      act(ticket, { do: 'close', fault: fault ?? null, words: options.none ?? '' }, options.by, 'closed'),
    );
  command
    .command('reopen')
    .description('open a closed ticket again')
    .argument('<ticket>')
    .argument('<reason>')
    .addOption(by())
    .action((ticket, reason, options) => act(ticket, { do: 'reopen', reason }, options.by, 'open again'));
  command
    .command('outage')
    .description('declare an outage: people who report the symptom are told at once')
    .argument('<symptom>')
    .argument('<text>', 'what people are told')
    .option('--site <site>', 'only there')
    .addOption(by())
    .action(async (symptom, text, options) => (await tickets()).declare(shell, symptom, text, options));
  command
    .command('outage-over')
    .description('end an outage: everybody who was told of it hears so')
    .argument('<outage>')
    .addOption(by())
    .action(async (outage, options) => (await tickets()).over(shell, outage, options.by));
  command
    .command('outages')
    .description('open outages')
    .addOption(json())
    .action(async options => (await tickets()).outages(shell, options.json));
  command
    .command('schema')
    .description('the JSON Schema of a ticket')
    .action(async () => (await tickets()).schema(shell));
}

function pixelsOf(given: string): number {
  const pixels = Number(given);
  if (!Number.isInteger(pixels) || pixels < 100 || pixels > 10_000) {
    throw new InvalidArgumentError('Write a whole number of pixels from 100 to 10000.');
  }
  return pixels;
}

function dayOf(given: string): number {
  const at = Date.parse(given);
  if (Number.isNaN(at)) throw new InvalidArgumentError('Write a day as 2026-12-01.');
  return at;
}
