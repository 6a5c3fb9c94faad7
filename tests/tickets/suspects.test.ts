import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fold } from '#engine/fold.ts';
import { hardwareOf, suspectsOf } from '#tickets/suspects.ts';
import { anyScript, catalogue, opening, script, talk } from './sample.ts';

const ranked = (entries: ReturnType<typeof talk>, confirmed = {}, used = script) =>
  suspectsOf(used, fold(used, entries).state, catalogue.faults, confirmed);
const shares = (suspects: ReturnType<typeof ranked>) =>
  Object.fromEntries(suspects.map(({ fault, share }) => [fault, share]));

describe('suspected faults', () => {
  it('share by what speaks for and against, in bits: 2^3 : 2^-2 : 2^0', () => {
    const found = shares(ranked(talk(['which', 'clicking'])));
    expect(found['drive-failing']).toBeCloseTo(8 / 9.25, 12);
    expect(found['fan-worn']).toBeCloseTo(0.25 / 9.25, 12);
    expect(found['disc-left-in']).toBeCloseTo(1 / 9.25, 12);
  });

  it('share by what closed tickets confirmed, plus one: 4 : 1 : 1', () => {
    const found = shares(ranked(talk(), { 'drive-failing': 3 }));
    expect(found['drive-failing']).toBeCloseTo(4 / 6, 12);
    expect(found['fan-worn']).toBeCloseTo(1 / 6, 12);
  });

  it('the likeliest comes first, and says in words what speaks for and against it', () => {
    const [first, , last] = ranked(talk(['which', 'clicking']), { 'drive-failing': 1, 'fan-worn': 2 });
    expect(first).toMatchObject({
      fault: 'drive-failing',
      name: 'The drive is failing',
      for: ['Which **noise** is it? Regular clicking', 'It was the cause once before.'],
      against: [],
    });
    expect(last).toMatchObject({
      fault: 'fan-worn',
      for: ['It was the cause 2 times before.'],
      against: ['Which **noise** is it? Regular clicking'],
    });
  });

  it('an answer that was taken back speaks for nothing', () => {
    const found = shares(ranked(talk(['which', 'clicking'], { kind: 'back', to: 1, why: 'asked' })));
    expect(found['drive-failing']).toBeCloseTo(1 / 3, 12);
  });

  it('of a question that was asked twice, the last answer counts', () => {
    const { state } = fold(script, talk(['which', 'clicking']));
    const twice = [...state.answers, { ...state.answers[0]!, value: { id: 'rattling' }, shown: 'Rattling' }];
    const found = suspectsOf(script, { ...state, answers: twice }, catalogue.faults, {});
    expect(found[0]).toMatchObject({
      fault: 'fan-worn',
      for: ['Which **noise** is it? Rattling'],
      against: [],
    });
  });

  it('the general flow suspects only what fits the symptom', () => {
    const names = ranked([opening()], {}, anyScript).map(({ fault }) => fault);
    expect(names.toSorted()).toEqual(['disc-left-in', 'drive-failing', 'fan-worn']);
  });

  it('without a flow nothing is suspected', () => {
    expect(suspectsOf(null, { symptom: null, answers: [] }, catalogue.faults, {})).toEqual([]);
  });

  it('shares add up to 1 and rise with every confirmed ticket, however many there are', () => {
    const counts = fc.record({ 'drive-failing': fc.nat(1e9), 'fan-worn': fc.nat(1e9) });
    fc.assert(
      fc.property(counts, fc.constantFrom('clicking', 'rattling', 'not-sure'), (confirmed, answer) => {
        const entries = talk(['which', answer]);
        const before = shares(ranked(entries, confirmed));
        const sum = Object.values(before).reduce((all, share) => all + share, 0);
        expect(sum).toBeCloseTo(1, 9);
        const more = { ...confirmed, 'fan-worn': confirmed['fan-worn'] + 1 };
        expect(shares(ranked(entries, more))['fan-worn']).toBeGreaterThanOrEqual(before['fan-worn']!);
      }),
    );
  });
});

describe('is it hardware?', () => {
  const of = (answer: string) => hardwareOf(ranked(talk(['which', answer])), []);
  it('yes, once a sign says so', () => {
    expect(hardwareOf([], ['hardware-failure'])).toBe('yes');
    expect(hardwareOf([], ['mechanical'])).toBe('yes');
  });
  it('likely, when two thirds of the shares are hardware', () => expect(of('clicking')).toBe('likely'));
  it('unlikely, when two thirds are not', () => {
    const suspects = ranked(talk(['which', 'clicking'])).map(each => ({ ...each, hardware: !each.hardware }));
    expect(hardwareOf(suspects, [])).toBe('unlikely');
  });
  it('unknown, when nothing speaks for or against anything', () => expect(of('not-sure')).toBe('unknown'));
});
