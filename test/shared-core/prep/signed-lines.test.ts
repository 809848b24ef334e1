import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SignedItem } from '../../../shared-core/book/job.ts';
import { item } from '../../../shared-core/prep/prep-input.ts';
import { documentFor, overridesInForce, PRIMER_HOLD, withDocuments } from '../../../shared-core/assess/overrides.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { lineHeldBy, type PourHoldInput, pourHeldBy, QUOTE_HOLD } from '../../../shared-core/prep/pour-held.ts';
import { signedLines } from '../../../shared-core/prep/signed-lines.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';

const lineOf = (key: string, text = `do ${key}`) => item({ key, phase: 'surface', what: text, why: 'because' });
const context = { isAsSigned: (one: { readonly what: string }, text: string): boolean => one.what === text, againAfter: null };
const sign = (itemKey: string, change: Partial<SignedItem> = {}): SignedItem => ({
  itemKey,
  doneAt: '2026-05-04T12:00:00Z',
  initials: 'RB',
  note: '',
  signedText: `do ${itemKey}`,
  photoIds: [],
  withdrawnAt: null,
  ...change,
});
const state = (signed: readonly SignedItem[], key: string, items = [lineOf('vacuum'), lineOf('prime')]) =>
  signedLines(items, signed, context).find((line) => line.key === key)?.state;

describe('signatures of the checklist', () => {
  it('are open, signed, changed since, or no longer needed', () => {
    expect(state([], 'vacuum')).toBe('open');
    expect(state([sign('vacuum')], 'vacuum')).toBe('signed');
    expect(state([sign('vacuum', { signedText: 'do something else' })], 'vacuum')).toBe('changed');
    expect(state([sign('dams')], 'dams')).toBe('not-needed');
  });

  it('reopen a line when voided, and stay on record', () => {
    const back = sign('vacuum', { withdrawnAt: '2026-05-04T13:00:00Z' });
    const line = signedLines([lineOf('vacuum')], [back], context)[0];
    expect(line).toMatchObject({ state: 'open', signature: null, signatures: [back] });
    expect(state([back, sign('vacuum', { doneAt: '2026-05-04T14:00:00Z' })], 'vacuum')).toBe('signed');
  });

  it('count the newest in force, whatever their order, and of one minute the last by initials', () => {
    const at = (minute: number, initials: string, change: Partial<SignedItem> = {}) =>
      sign('vacuum', { doneAt: `2026-05-04T12:0${minute}:00Z`, initials, ...change });
    const [old, bob, ann, voided] = [at(1, 'ZZ'), at(2, 'RB'), at(2, 'AN'), at(3, 'MP', { withdrawnAt: '2026-05-04T13:00:00Z' })];
    for (const signed of [
      [old, ann, bob, voided],
      [voided, bob, ann, old],
      [bob, voided, old, ann],
    ]) {
      const [kept] = signedLines([lineOf('vacuum')], signed, context);
      expect(kept?.signatures.map(({ initials }) => initials)).toEqual(['ZZ', 'AN', 'RB', 'MP']);
      expect(kept?.signature).toBe(bob);
      // The same of a line that is no longer needed.
      const [dropped] = signedLines([], signed, context);
      expect(dropped?.signatures).toEqual(kept?.signatures);
      expect(dropped?.signature).toBe(bob);
    }
  });

  it('are asked again after the pour that covers the work, and not at its minute', () => {
    const again = item({ key: 'vacuum', phase: 'surface', what: 'do vacuum', why: 'because', afterLift: 'again' });
    const open = (doneAt: string, one = again) =>
      signedLines([one], [sign('vacuum', { doneAt })], { ...context, againAfter: '2026-05-04T12:00:00Z' })[0]?.state;
    expect(open('2026-05-04T11:59:59Z')).toBe('open');
    expect(open('2026-05-04T12:00:00Z')).toBe('open');
    expect(open('2026-05-04T12:00:01Z')).toBe('signed');
    expect(open('2026-05-04T11:00:00Z', { ...again, afterLift: 'stays' })).toBe('signed');
  });

  it('never disappear, whatever the list becomes and in any order', () => {
    const key = fc.constantFrom('vacuum', 'prime', 'dams', 'lane', 'grind');
    const signature = fc
      .record({ itemKey: key, minute: fc.integer({ min: 0, max: 59 }), back: fc.boolean(), same: fc.boolean() })
      .map(({ itemKey, minute, back, same }) =>
        sign(itemKey, {
          doneAt: `2026-05-04T12:${String(minute).padStart(2, '0')}:00Z`,
          withdrawnAt: back ? '2026-05-04T14:00:00Z' : null,
          signedText: same ? `do ${itemKey}` : 'what it said before',
        }),
      );
    fc.assert(
      fc.property(fc.array(signature, { maxLength: 20 }), fc.uniqueArray(key), (signed, keys) => {
        const lines = signedLines(
          keys.map((one) => lineOf(one)),
          signed,
          context,
        );
        const signatures = lines.flatMap((line) => line.signatures);
        expect(signatures).toHaveLength(signed.length);
        for (const one of signed) expect(signatures).toContain(one);
        expect(lines.slice(0, keys.length).map((line) => line.key)).toEqual(keys);
        expect(new Set(lines.map((line) => line.key)).size).toBe(lines.length);
      }),
    );
  });
});

const findingOf = (key: string, holds: Finding['holds']): Finding => ({
  key,
  ruleId: key,
  verdict: 'hold',
  title: key,
  text: 'It waits.',
  holds,
  clearedBy: 'reason',
  does: [],
  lifts: 'room.layers',
  source: 'common practice',
  testId: null,
});
const override = (key: string) => ({
  key,
  why: 'The owner insists and has signed for it.',
  instant: '2026-05-04T12:00:00Z',
  initials: 'RB',
});

const held = (of: Partial<PourHoldInput>) =>
  pourHeldBy({
    findings: [],
    lines: [],
    overrides: [],
    clock: null,
    freshLift: null,
    isQuoted: true,
    waitingOrders: [],
    deposit: null,
    ...of,
  });

describe('what blocks the pour', () => {
  const lines = signedLines([lineOf('vacuum'), { ...lineOf('baseboard'), holdsPour: false }], [], context);

  it('is every finding with a hold on it, every open line it needs, and the primer’s window', () => {
    const holds = held({
      findings: [findingOf('slab-humid', ['pour']), findingOf('lead-paint', ['disturb-paint'])],
      lines,
      clock: { state: 'drying', earliestAt: '2026-05-04T15:00:00Z', latestAt: '2026-05-04T19:00:00Z' },
    });
    expect(holds.map((hold) => [hold.by, hold.key])).toEqual([
      ['finding', 'slab-humid'],
      ['line', 'vacuum'],
      ['primer', PRIMER_HOLD],
    ]);
  });

  it('is nothing once all is signed and the primer is ready', () => {
    const done = signedLines([lineOf('vacuum')], [sign('vacuum')], context);
    const holds = held({
      lines: done,
      clock: { state: 'ready', earliestAt: '2026-05-04T10:00:00Z', latestAt: '2026-05-04T19:00:00Z' },
    });
    expect(holds).toEqual([]);
  });

  it('blocks again on a line that has changed since it was signed', () => {
    const changed = signedLines([lineOf('vacuum')], [sign('vacuum', { signedText: 'half of it' })], context);
    expect(held({ lines: changed })[0]?.text).toContain('changed since it was signed');
  });

  it('is cleared only by a written reason for each hold, which stays visible', () => {
    const findings = [findingOf('slab-humid', ['pour'])];
    const one = held({ findings, lines, overrides: [override('slab-humid')] });
    expect(one.map((hold) => [hold.key, hold.overridden === null])).toEqual([
      ['slab-humid', false],
      ['vacuum', true],
    ]);
    const both = held({ findings, lines, overrides: [override('slab-humid'), override('vacuum')] });
    expect(both.map((hold) => hold.overridden?.why)).toEqual([
      'The owner insists and has signed for it.',
      'The owner insists and has signed for it.',
    ]);
  });

  it('waits for a quote that is issued or accepted', () => {
    expect(held({ isQuoted: false }).map((hold) => [hold.by, hold.key])).toEqual([['quote', QUOTE_HOLD]]);
    expect(held({ isQuoted: true })).toEqual([]);
  });

  // The program's own rule: asbestos, lead, load and structure need a document, never a typed reason.
  it('never clears a hold on a hazard or the structure by a reason', () => {
    for (const clearedBy of ['lab-result', 'clearance', 'lead-firm', 'engineer-letter'] as const) {
      const findings = [{ ...findingOf('load-over', ['pour']), clearedBy }];
      const holds = held({ findings, overrides: [override('load-over')] });
      expect(
        holds.map((hold) => hold.overridden),
        clearedBy,
      ).toEqual([null]);
    }
  });

  it('clears such a hold by its own document, with issuer, number and date, and by no other', () => {
    const letter = { ...findingOf('load-over', ['pour']), clearedBy: 'engineer-letter' as const };
    const recorded = (kind: 'engineer-letter' | 'clearance') => ({
      ...override('load-over'),
      document: { kind, issuedBy: 'Quarry Row Engineers', number: '2214', datedOn: '2026-05-02' },
    });
    expect(documentFor(letter, [recorded('clearance')])).toBeNull();
    const [cleared] = withDocuments(
      [letter],
      [recorded('engineer-letter')],
      { isSuspended: false, addedLoadPa: null },
      { wording: wordingFor('us', 'en-US'), locale: 'en-US' },
    );
    expect(cleared).toMatchObject({ verdict: 'go', holds: [] });
    expect(cleared?.text).toContain('2214 by Quarry Row Engineers');
    expect(held({ findings: cleared === undefined ? [] : [cleared] })).toEqual([]);
  });

  it('limits an override to its own lift, and one about the day to 12 hours', () => {
    const [slab, cold] = [override('slab-humid'), override('too-cold')];
    const keys = (lastPouredAt: string | null, now: string) => overridesInForce([slab, cold], { lastPouredAt, now }).map((one) => one.key);
    expect(keys(null, '2026-05-04T18:00:00Z')).toEqual(['slab-humid', 'too-cold']);
    expect(keys(null, '2026-05-05T00:00:01Z')).toEqual(['slab-humid']);
    expect(keys('2026-05-04T16:00:00Z', '2026-05-06T12:00:00Z')).toEqual([]);
  });

  it('requires priming and pour-day lines again before the next lift, and no others', () => {
    const once = { phase: 'prime', what: 'do lath', why: 'because', afterLift: 'buried' } as const;
    const items = [
      lineOf('vacuum'),
      item({ key: 'prime', phase: 'prime', what: 'do prime', why: 'because' }),
      item({ key: 'lath', ...once }),
    ];
    const lines = signedLines(items, [sign('vacuum'), sign('prime'), sign('lath')], { ...context, againAfter: '2026-05-04T16:00:00Z' });
    expect(lines.map((line) => [line.key, line.state, line.signatures.length])).toEqual([
      ['vacuum', 'signed', 1],
      ['prime', 'open', 1],
      ['lath', 'signed', 1],
    ]);
  });

  it('blocks a single line by its kind of work', () => {
    const [scraping] = signedLines([{ ...lineOf('remove:glue'), tasks: ['scrape'] }], [], context);
    if (scraping === undefined) throw new Error('no line');
    expect(
      lineHeldBy(scraping, [findingOf('asbestos-flooring', ['scrape', 'pour']), findingOf('x', ['pour'])]).map((one) => one.key),
    ).toEqual(['asbestos-flooring']);
  });
});
