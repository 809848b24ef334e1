import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { JobRoom, SignedItem } from '../../../shared-core/book/job.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { assessRoom } from '../../../shared-core/assess/assess-room.ts';
import { type PrepareInput, prepareRoom } from '../../../shared-core/prep/prepare-room.ts';
import { lineText } from '../../../shared-core/prep/line-words.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { corner, input, JOB_ROOM, ROOM } from '../assess/a-room.ts';
import { BOARDS, mark, NOW, powder } from '../substrate/a-floor.ts';

const prepareInput = (room: Partial<Room> = {}, jobRoom: Partial<JobRoom> = {}): PrepareInput => ({
  room: { ...ROOM, ...room },
  jobRoom: { ...JOB_ROOM, ...jobRoom },
  assessment: assessRoom(input({}, room)),
  units: 'us',
  locale: 'en-US',
  grind: null,
  primer: { coats: 1, liters: 1.1, waterParts: 0, dryHoursLeast: 2, dryHoursMost: 6 },
  bags: 12,
  waterL: 60,
  helpers: 1,
  lastPouredAt: null,
  hasNextPour: false,
  isPoured: false,
  isQuoted: true,
  waitingOrders: [],
  deposit: null,
  now: NOW,
});
const prepare = (room: Partial<Room> = {}, jobRoom: Partial<JobRoom> = {}) => prepareRoom(prepareInput(room, jobRoom));

describe('a room’s prep', () => {
  it('measures isolation strip along the walls and what is drawn on the plan', () => {
    const { lines } = prepare({
      marks: [
        mark('crack', { id: 'cr-1', points: [corner(0, 0), corner(3, 4), corner(3, 5)] }),
        mark('hollow', { id: 'ho-1', shape: 'area', points: [corner(0, 0), corner(1, 0), corner(1, 0.5), corner(0, 0.5)] }),
      ],
    });
    const amount = (key: string) => lines.find((line) => line.key === key)?.item?.amount?.value;
    expect(amount('isolation-strip')).toBeCloseTo(14, 9);
    expect(amount('fill-cracks')).toBeCloseTo(6, 9);
    expect(amount('hollow')).toBeCloseTo(0.5, 9);
  });

  it('has the tasks of wood', () => {
    const keys = prepare({ layers: [...BOARDS.layers], tests: [...BOARDS.tests] }).lines.map((line) => line.key);
    expect(keys).toEqual(expect.arrayContaining(['refasten', 'gaps', 'reinforce']));
  });

  it('clears the pour once every line is signed, in feet or in meters, and the primer is dry', () => {
    const open = prepare();
    expect(open.holds.map((hold) => hold.key)).toContain('primer-clock');
    for (const units of ['us', 'metric'] as const) {
      const signed = open.lines.flatMap((line) =>
        line.item === null
          ? []
          : [
              {
                itemKey: line.key,
                doneAt: NOW,
                initials: 'RB',
                note: '',
                signedText: lineText(line.item, wordingFor(units, 'en-US'), 'en-US'),
                photoIds: [],
                withdrawnAt: null,
              },
            ],
      );
      expect(prepare({}, { signed, primedAt: '2026-05-04T12:00:00Z', primerCoatsDone: 1 }).holds).toEqual([]);
      expect(prepare({}, { signed, primedAt: '2026-05-04T08:59:00Z', primerCoatsDone: 1 }).holds.map((hold) => hold.text)).toEqual([
        'The primer is too old. Prime again.',
      ]);
      expect(prepare({}, { signed: signed.slice(1), primedAt: '2026-05-04T12:00:00Z', primerCoatsDone: 1 }).holds).not.toEqual([]);
    }
  });

  // The wait as a typical data sheet gives it, 12 to 16 h; common practice, no source.
  it('holds a lift until the one below is as old as the data sheet asks, whatever is signed', () => {
    const { assessment } = prepareInput();
    const wait = {
      kind: 'next-lift',
      flooring: null,
      hoursLeast: 12,
      hoursMost: 16,
      thicknessM: null,
      by: 'strength',
      source: 'typical',
    } as const;
    const withWait = (milestones: readonly (typeof wait)[]): PrepareInput['assessment'] => ({
      ...assessment,
      facts: { ...assessment.facts, product: { kind: 'cement-underlayment', powder: powder({ milestones: [...milestones] }) } },
    });
    const over = { hasNextPour: true, liftsUnder: 1, now: '2026-05-04T15:00:00Z', assessment: withWait([wait]) };
    const heldAt = (lastPouredAt: string, of: Partial<PrepareInput> = {}) =>
      prepareRoom({ ...prepareInput(), ...over, lastPouredAt, ...of }).holds.filter(({ key }) => key === 'lift-wait');
    expect(heldAt('2026-05-04T03:00:01Z')).toMatchObject([
      { text: expect.stringContaining('Lift 1 is not 12 h old yet.') as string, overridden: null },
    ]);
    expect(heldAt('2026-05-04T03:00:00Z')).toEqual([]);
    expect(heldAt('2026-05-04T14:00:00Z', { assessment: withWait([]) })).toEqual([]);
    // The rest of a floor, and a floor that is poured whole, wait for no lift.
    expect(heldAt('2026-05-04T14:00:00Z', { liftsUnder: 0 })).toEqual([]);
    expect(heldAt('2026-05-04T14:00:00Z', { isPoured: true, hasNextPour: false })).toEqual([]);
  });

  it('keeps every signature when the units change, with lengths in the units of the business', () => {
    const wood = prepareInput({ layers: [...BOARDS.layers], tests: [...BOARDS.tests] });
    const metric = prepareRoom({ ...wood, units: 'metric' }).lines;
    // 6 and 8 in. are 152 and 203 mm, 2 in. is 51 mm and 1/2 in. 13 mm: an inch is 25.4 mm.
    const words = metric.flatMap(({ item }) => (item === null ? [] : [item.what, item.why])).join('\n');
    expect(words).toContain('about every 150 mm at edges and 200 mm in the field');
    expect(words).toContain('laps 50 mm');
    expect(words).not.toMatch(/\d in\./);
    const signed = metric.flatMap(({ key, item }): SignedItem[] =>
      item === null
        ? []
        : [
            {
              ...{ itemKey: key, doneAt: NOW, initials: 'RB', note: '', photoIds: [], withdrawnAt: null },
              signedText: lineText(item, wordingFor('metric', 'en-US'), 'en-US'),
            },
          ],
    );
    const { lines } = prepareRoom({ ...wood, jobRoom: { ...wood.jobRoom, signed } });
    expect(lines.map(({ state }) => state)).toEqual(lines.map(() => 'signed'));
    expect(lines.some(({ item }) => item?.what.includes('about every 6 in. at edges and 8 in.') === true)).toBe(true);
  });

  it('shows no primer from before the last pour, while more is to be poured', () => {
    const primed = { primedAt: '2026-05-04T11:00:00Z', primerCoatsDone: 1 };
    const after = (hasNextPour: boolean) =>
      prepareRoom({ ...prepareInput({}, primed), lastPouredAt: '2026-05-04T13:00:00Z', hasNextPour, isPoured: !hasNextPour });
    expect(after(true)).toMatchObject({ primed: { primedAt: null, primerCoatsDone: 0 }, clock: { state: 'not-primed' } });
    expect(after(false)).toMatchObject({ primed, clock: null });
  });

  it('is the same list for any order of the same answers, and loses no signature on the way', () => {
    const answers: readonly ((room: Partial<Room>) => Partial<Room>)[] = [
      (room) => ({ ...room, layers: [...BOARDS.layers] }),
      (room) => ({ ...room, marks: [mark('crack', { id: 'cr-1', points: [corner(0, 0), corner(3, 4)] })] }),
      (room) => ({ ...room, tests: [...BOARDS.tests] }),
      (room) => ({ ...room, circumstances: { ...ROOM.circumstances, paintedTrim: 'to-be-disturbed', radiantHeat: 'in-floor' } }),
    ];
    const signAll = (lines: ReturnType<typeof prepare>['lines'], minute: number): SignedItem[] =>
      lines.flatMap((line) =>
        line.item === null
          ? []
          : [
              {
                itemKey: line.key,
                doneAt: `2026-05-04T10:0${minute}:00Z`,
                initials: 'RB',
                note: '',
                signedText: lineText(line.item, wordingFor('us', 'en-US'), 'en-US'),
                photoIds: [],
                withdrawnAt: null,
              },
            ],
      );
    const straight = prepare(answers.reduce((room, answer) => answer(room), {})).lines;
    fc.assert(
      fc.property(
        fc.shuffledSubarray([...answers], { minLength: answers.length }),
        fc.integer({ min: 0, max: 3 }),
        (order, signedAfter) => {
          let room: Partial<Room> = {};
          let signed: SignedItem[] = [];
          for (const [i, answer] of order.entries()) {
            room = answer(room);
            if (i === signedAfter) signed = signAll(prepare(room).lines, i);
          }
          const { lines } = prepare(room, { signed });
          expect(lines.filter((line) => line.item !== null).map((line) => [line.key, line.item])).toEqual(
            straight.map((line) => [line.key, line.item]),
          );
          expect(lines.flatMap((line) => line.signatures)).toHaveLength(signed.length);
          for (const one of signed) expect(lines.flatMap((line) => line.signatures)).toContainEqual(one);
        },
      ),
      { numRuns: 40 },
    );
  });

  // Common practice, no source: what a lift has covered is not done again, and nothing is fastened through it.
  describe('before a later lift', () => {
    const POURED = '2026-05-04T13:00:00Z';
    const floor = { layers: [...BOARDS.layers], tests: [...BOARDS.tests] };
    const wood = (bareShare: number, signed: readonly SignedItem[] = []): PrepareInput => {
      const of = prepareInput(floor, { signed: [...signed] });
      const facts = { ...of.assessment.facts, hasMoistureSystem: true, lifts: 2 };
      return {
        ...of,
        assessment: { ...of.assessment, facts },
        lastPouredAt: POURED,
        hasNextPour: true,
        ...(bareShare > 0 ? { openShare: bareShare } : { liftsUnder: 1 }),
      };
    };
    const ONCE = ['reinforce', 'moisture-system', 'moisture-sand', 'refasten'];
    const AGAIN = ['prime', 'stage'];
    const stateOf = (input: PrepareInput, key: string) => prepareRoom(input).lines.find((one) => one.key === key)?.state;
    const signAll = (input: PrepareInput, doneAt: string) =>
      prepareRoom(input).lines.flatMap(({ key, item }): SignedItem[] =>
        item === null
          ? []
          : [
              {
                ...{ itemKey: key, doneAt, initials: 'RB', note: '', photoIds: [], withdrawnAt: null },
                signedText: lineText(item, wordingFor('us', 'en-US'), 'en-US'),
              },
            ],
      );
    const signedBefore = signAll(wood(1), '2026-05-04T10:00:00Z');

    it('keeps what was signed once and asks again for what each lift needs', () => {
      for (const share of [0, 0.5, 1]) {
        for (const key of ONCE) expect(stateOf(wood(share, signedBefore), key), key).toBe('signed');
        for (const key of AGAIN) expect(stateOf(wood(share, signedBefore), key), key).toBe('open');
      }
    });

    it('keeps what was signed for the rest of a floor as more of it is placed', () => {
      const signed = signAll(wood(0.4), '2026-05-05T08:00:00Z');
      for (const share of [0.4, 0.2, 0, 1])
        for (const key of ONCE) expect(stateOf(wood(share, signed), key), `${key} at ${share}`).toBe('signed');
      const whole = { ...wood(1, signed), hasNextPour: false, isPoured: true };
      for (const key of [...ONCE, ...AGAIN]) expect(stateOf(whole, key), key).toBe('signed');
    });

    it('asks again for other work than was signed only where the floor is bare, and for that part of it', () => {
      const signed = signedBefore.map((one) => ({ ...one, signedText: `${one.signedText.split(':')[0] ?? ''}: twice: 9 sq ft` }));
      const lineOf = (share: number, key: string) => prepareRoom(wood(share, signed)).lines.find((one) => one.key === key);
      for (const key of ONCE) {
        expect(lineOf(0.5, key)?.state, key).toBe('changed');
        expect(lineOf(0.5, key)?.item?.amount?.value, key).toBeCloseTo((lineOf(1, key)?.item?.amount?.value ?? Number.NaN) / 2, 9);
        // Buried: the signature stays, and nothing waits for the work.
        expect(lineOf(0, key), key).toMatchObject({ item: null, state: 'not-needed', signatures: [{ itemKey: key }] });
      }
      const holds = prepareRoom(wood(0, signed)).holds.map(({ key }) => key);
      expect(ONCE.filter((key) => holds.includes(key))).toEqual([]);
    });

    it('leaves out what the first lift has buried, and asks for the open part of a part', () => {
      const holds = prepareRoom(wood(0)).holds.map(({ key }) => key);
      for (const key of ONCE) expect([stateOf(wood(0), key), holds.includes(key)], key).toEqual([undefined, false]);
      const item = (share: number, key: string) => prepareRoom(wood(share)).lines.find((one) => one.key === key)?.item;
      for (const key of ONCE) {
        const [whole, half] = [item(1, key), item(0.5, key)];
        expect(half?.amount?.value, key).toBeCloseTo((whole?.amount?.value ?? Number.NaN) / 2, 9);
        expect(Math.abs((half?.hours ?? Number.NaN) - (whole?.hours ?? 0) / 2), key).toBeLessThan(0.0051);
      }
      const reason = (share: number) => item(share, 'prime')?.why ?? '';
      expect([reason(1), reason(0)]).toEqual([
        expect.stringContaining('moisture mitigation system'),
        expect.stringContaining('new underlayment'),
      ]);
    });
  });

  it('keeps signatures when an answer changes', () => {
    const signature = {
      itemKey: 'reinforce',
      doneAt: NOW,
      initials: 'RB',
      note: '',
      signedText: 'Lay it',
      photoIds: [],
      withdrawnAt: null,
    };
    const slab = prepare({}, { signed: [signature] });
    expect(slab.lines.find((line) => line.key === 'reinforce')).toMatchObject({ item: null, state: 'not-needed', signatures: [signature] });
    expect(
      prepare({ layers: [...BOARDS.layers], tests: [...BOARDS.tests] }, { signed: [signature] }).lines.find(
        (line) => line.key === 'reinforce',
      )?.state,
    ).toBe('changed');
  });
});
