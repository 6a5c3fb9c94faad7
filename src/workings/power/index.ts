/**
 * Will the power do? Readings of the rails against their bands, the budget before and after added hardware with the surge of
 * spinning up, connectors, and a USB port against what a drive draws from it.
 *
 * Bands: Intel ATX12V Power Supply Design Guide 2.0, table 2, as printed (+3.3 V 3.14 to 3.47); -12 V: an earlier guide, table
 * 3. Connector: Serial ATA, 4.5 A a rail. USB: unit loads of the USB 2.0 and 3.x specifications; Type-C currents: IEC 63002.
 * Volts, amperes, watts. Errors: a reading for a rail that does not exist; an empty input.
 */
import { z } from 'zod';
import { Impossible, number, oneOf, type Told, type Working, whole } from '../working.ts';

const BANDS = {
  '+12V': [11.4, 12.6],
  '+5V': [4.75, 5.25],
  '+3.3V': [3.14, 3.47],
  '+5VSB': [4.75, 5.25],
  '-12V': [-13.2, -10.8],
} as const;
const RAILS = ['+12V', '+5V', '+3.3V', '+5VSB', '-12V'] as const;
const VOLTS = { '+12V': 12, '+5V': 5, '+3.3V': 3.3 } as const;
const LOADED = ['+12V', '+5V', '+3.3V'] as const;
/** Of a Serial ATA power connector: three pins of 1.5 A a rail. */
const CONNECTOR_AMPERES = 4.5;
const PORT_AMPERES = {
  'usb-2': 0.5,
  'usb-3': 0.9,
  'usb-c-1.5a': 1.5,
  'usb-c-3a': 3,
  'charging-1.5a': 1.5,
} as const;
const PORTS = ['usb-2', 'usb-3', 'usb-c-1.5a', 'usb-c-3a', 'charging-1.5a'] as const;
/** Beyond this share of what a supply can give, it runs hot and has nothing left for age. Common practice, no source. */
const COMFORT = 0.8;

const amperes = number('amperes, from 0 to 500', 0, 500);
const watts = number('watts, from 0 to 20000', 0, 20_000);

const input = z.strictObject({
  readings: z
    .array(z.strictObject({ rail: oneOf(RAILS), volts: number('volts, from -30 to 30', -30, 30) }), {
      error: 'give a list, each with rail and volts',
    })
    .max(20, 'give at most 20')
    .default([]),
  supply: z
    .strictObject({
      watts,
      amperes12V: amperes.optional(),
      amperes5V: amperes.optional(),
      amperes3V3: amperes.optional(),
    })
    .optional(),
  /** What draws from it: each with its running amperes, and on +12 V those while it spins up. */
  parts: z
    .array(
      z.strictObject({
        name: z
          .string({ error: 'give a name' })
          .min(1, 'give a name')
          .max(100, 'give at most 100 characters'),
        count: whole('how many, from 1 to 1000', 1, 1000).default(1),
        amperes12V: amperes.default(0),
        amperes5V: amperes.default(0),
        amperes3V3: amperes.default(0),
        surge12V: amperes.optional(),
        added: z.boolean({ error: 'give true or false' }).default(false),
        /** Several behind one connector, over a splitter. */
        onOneConnector: whole('how many on one connector, from 1 to 20', 1, 20).default(1),
      }),
      { error: 'give a list, each with name and amperes' },
    )
    .max(200, 'give at most 200')
    .default([]),
  /** The drives start one after another. */
  staggered: z.boolean({ error: 'give true or false' }).default(false),
  usb: z
    .strictObject({
      port: oneOf(PORTS),
      /** What the drive draws while it starts. */
      amperes,
      sharedBy: whole('devices on an unpowered hub, from 1 to 50', 1, 50).default(1),
    })
    .optional(),
});
export type PowerInput = z.infer<typeof input>;

const VERDICTS = ['enough', 'tight', 'too-little', 'out-of-band'] as const;
const load = z.object({
  watts: z.number(),
  amperes12V: z.number(),
  amperes5V: z.number(),
  amperes3V3: z.number(),
  surge12V: z.number(),
});

const output = z.object({
  verdict: z.enum(VERDICTS),
  readings: z.array(
    z.object({
      rail: z.enum(RAILS),
      volts: z.number(),
      low: z.number(),
      high: z.number(),
      inBand: z.boolean(),
    }),
  ),
  before: load.nullable(),
  after: load.nullable(),
  /** Watts that are left at the worst moment; negative when they are missing. */
  marginWatts: z.number().nullable(),
  marginAmperes12V: z.number().nullable(),
  /** Connectors that carry more than they may, by part. */
  overConnector: z.array(
    z.object({ name: z.string(), rail: z.string(), amperes: z.number(), most: z.number() }),
  ),
  usb: z.object({ needs: z.number(), gives: z.number(), watts: z.number(), enough: z.boolean() }).nullable(),
});
export type PowerOutput = z.infer<typeof output>;
type Part = PowerInput['parts'][number];

function loadOf(parts: readonly Part[], staggered: boolean): z.infer<typeof load> {
  const sum = (of: (part: Part) => number) => parts.reduce((total, part) => total + part.count * of(part), 0);
  const amperes12V = sum(part => part.amperes12V);
  const extra = parts
    .filter(part => part.surge12V !== undefined)
    .map(part => ({ count: part.count, each: Math.max(0, part.surge12V! - part.amperes12V) }));
  // One at a time: only the greatest of them comes on top.
  const surge = staggered
    ? Math.max(0, ...extra.map(({ each }) => each))
    : extra.reduce((total, { count, each }) => total + count * each, 0);
  const [amperes5V, amperes3V3] = [sum(part => part.amperes5V), sum(part => part.amperes3V3)];
  return {
    watts: amperes12V * 12 + amperes5V * 5 + amperes3V3 * 3.3,
    amperes12V,
    amperes5V,
    amperes3V3,
    surge12V: amperes12V + surge,
  };
}

const worstWatts = (of: z.infer<typeof load>): number => of.watts + (of.surge12V - of.amperes12V) * 12;

function overloaded(parts: readonly Part[]): PowerOutput['overConnector'] {
  return parts.flatMap(({ name, onOneConnector, amperes12V, surge12V, amperes5V, amperes3V3 }) => {
    const drawn = { '+12V': Math.max(amperes12V, surge12V ?? 0), '+5V': amperes5V, '+3.3V': amperes3V3 };
    return LOADED.flatMap(rail => {
      const amperes = drawn[rail] * onOneConnector;
      return onOneConnector > 1 && amperes > CONNECTOR_AMPERES
        ? [{ name, rail, amperes, most: CONNECTOR_AMPERES }]
        : [];
    });
  });
}

function work({ readings, supply, parts, staggered, usb }: PowerInput): PowerOutput {
  if (readings.length === 0 && parts.length === 0 && usb === undefined)
    throw new Impossible('parts', 'give readings, parts or usb: without any there is nothing to work out');
  const read = readings.map(({ rail, volts }) => {
    const [low, high] = BANDS[rail];
    return { rail, volts, low, high, inBand: volts >= low && volts <= high };
  });
  const after = parts.length === 0 ? null : loadOf(parts, staggered);
  const before =
    parts.length === 0
      ? null
      : loadOf(
          parts.filter(({ added }) => !added),
          staggered,
        );
  const worst = after === null ? 0 : worstWatts(after);
  const marginWatts = supply === undefined || after === null ? null : supply.watts - worst;
  const marginAmperes12V =
    supply?.amperes12V === undefined || after === null ? null : supply.amperes12V - after.surge12V;
  const rails =
    supply === undefined || after === null
      ? []
      : [
          ...(supply.amperes12V === undefined ? [] : [{ need: after.surge12V, give: supply.amperes12V }]),
          ...(supply.amperes5V === undefined ? [] : [{ need: after.amperes5V, give: supply.amperes5V }]),
          ...(supply.amperes3V3 === undefined ? [] : [{ need: after.amperes3V3, give: supply.amperes3V3 }]),
          { need: worst, give: supply.watts },
        ];
  const overConnector = overloaded(parts);
  const port = usb === undefined ? null : portOf(usb);
  const needs = [...rails, ...(port === null ? [] : [{ need: port.needs, give: port.gives }])];
  const verdict = (): PowerOutput['verdict'] => {
    if (read.some(({ inBand }) => !inBand)) return 'out-of-band';
    if (overConnector.length > 0 || needs.some(({ need, give }) => need > give)) return 'too-little';
    return needs.some(({ need, give }) => need > give * COMFORT) ? 'tight' : 'enough';
  };
  return {
    verdict: verdict(),
    readings: read,
    before,
    after,
    marginWatts,
    marginAmperes12V,
    overConnector,
    usb: port,
  };
}

function portOf({
  port,
  amperes: needs,
  sharedBy,
}: NonNullable<PowerInput['usb']>): NonNullable<PowerOutput['usb']> {
  const gives = PORT_AMPERES[port] / sharedBy;
  return { needs, gives, watts: gives * VOLTS['+5V'], enough: needs <= gives };
}

const figure = (value: number): string => String(Number(value.toFixed(2)));

function tell(result: PowerOutput, { supply, usb: asked }: PowerInput): Told {
  const { verdict, readings, before, after, marginWatts, overConnector, usb } = result;
  const first = {
    enough: 'The power is enough.',
    tight: 'It is enough on paper, with less than a fifth to spare: an aged supply may not do.',
    'too-little': 'That is too little power.',
    'out-of-band': 'A rail is outside its band: the supply, or what loads it, is the first suspect.',
  }[verdict];
  return {
    cautions: [
      'Measuring in a running machine is for qualified people, by your site rules. Nobody opens a power supply: it holds a dangerous charge long after the lead is out.',
    ],
    says: [
      first,
      ...readings.map(
        ({ rail, volts, low, high, inBand }) =>
          `${rail}: ${volts} V, ${inBand ? 'inside' : 'OUTSIDE'} ${low} to ${high} V.`,
      ),
      ...(after === null || before === null
        ? []
        : [
            `Running: ${figure(before.watts)} W before, ${figure(after.watts)} W with what was added; at switching on ${figure(worstWatts(after))} W (${figure(after.surge12V)} A on +12 V).`,
          ]),
      ...(marginWatts === null
        ? []
        : [`Of ${supply!.watts} W that leaves ${figure(marginWatts)} W at the worst moment.`]),
      ...overConnector.map(
        ({ name, rail, amperes, most }) =>
          `${name}: ${figure(amperes)} A on ${rail} over one connector, which may carry ${most} A. Take a second lead, no splitter.`,
      ),
      ...(usb === null
        ? []
        : [
            `The port gives ${figure(usb.gives)} A (${figure(usb.watts)} W)${asked!.sharedBy > 1 ? ` to each of ${asked!.sharedBy}` : ''}, the drive wants ${figure(usb.needs)} A to start: ${usb.enough ? 'enough' : 'it may tick, beep or vanish. Plug it straight in, or use its own supply or a powered hub'}.`,
          ]),
    ],
    limits: [
      '+3.3 V is held against the printed table (3.14 to 3.47 V), not against plus or minus 5%, which is a little wider. At peak load +12 V may go to plus or minus 10% for a moment.',
      'Amperes are taken from labels and manuals; a worn supply gives less than its label.',
    ],
  };
}

export const power: Working<PowerInput, PowerOutput> = {
  id: 'power',
  title: 'rails, the budget with added hardware, connectors and USB ports',
  input: input as z.ZodType<PowerInput>,
  output,
  example: {
    readings: [
      { rail: '+12V', volts: 11.9 },
      { rail: '+5V', volts: 4.98 },
    ],
    supply: { watts: 300, amperes12V: 18 },
    parts: [
      { name: 'board, processor, memory', amperes12V: 9, amperes5V: 4, amperes3V3: 4 },
      { name: 'drive', amperes12V: 0.3, amperes5V: 0.45, surge12V: 2 },
      {
        name: 'drives put in',
        count: 2,
        amperes12V: 0.3,
        amperes5V: 0.45,
        surge12V: 2,
        added: true,
        onOneConnector: 2,
      },
    ],
  },
  verdicts: VERDICTS,
  work,
  verdict: ({ verdict }) => verdict,
  tell,
};
