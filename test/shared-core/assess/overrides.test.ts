import { describe, expect, it } from 'vitest';
import {
  documentAsked,
  documentFor,
  isDocument,
  overridesInForce,
  PRIMER_HOLD,
  withDocuments,
} from '../../../shared-core/assess/overrides.ts';
import type { HoldDocument, Override } from '../../../shared-core/book/job.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';

const GIVEN = '2026-05-04T12:00:00Z';
const override = (key: string, change: Partial<Override> = {}): Override => ({
  key,
  why: 'The customer was told and agreed.',
  instant: GIVEN,
  initials: 'RB',
  ...change,
});
const paper = (kind: HoldDocument['kind'], number = 'L-7'): HoldDocument => ({
  kind,
  issuedBy: 'Weir & Sons',
  number,
  datedOn: '2026-05-01',
});
const finding = (key: string, clearedBy: Finding['clearedBy']): Finding => ({
  key,
  ruleId: key,
  verdict: 'hold',
  title: 'a title',
  text: 'A hold.',
  holds: ['pour'],
  clearedBy,
  does: ['grind'],
  lifts: 'room.layers',
  source: 'common practice',
  testId: null,
});
const counts = (key: string, now: string, lastPouredAt: string | null = null, change: Partial<Override> = {}): boolean =>
  overridesInForce([override(key, change)], { lastPouredAt, now }).length === 1;

describe('an override', () => {
  // A reading of the day's conditions counts for 12 hours: common practice, no source.
  it.each(['dew-close', 'too-cold', 'too-hot', 'dries-too-fast', 'water-settles', 'air-on-the-day', PRIMER_HOLD])(
    'of %s counts for 12 hours',
    (key) => {
      expect(counts(key, '2026-05-05T00:00:00Z')).toBe(true);
      expect(counts(key, '2026-05-05T00:00:01Z')).toBe(false);
    },
  );

  it('of the floor itself counts until the floor is poured, and not for the next lift', () => {
    expect(counts('slab-humid', '2027-05-04T12:00:00Z')).toBe(true);
    expect(counts('slab-humid', '2026-05-06T12:00:00Z', '2026-05-04T11:59:59Z')).toBe(true);
    expect(counts('slab-humid', '2026-05-06T12:00:00Z', GIVEN)).toBe(false);
    expect(counts('slab-humid', '2026-05-06T12:00:00Z', '2026-05-05T12:00:00Z')).toBe(false);
  });

  it('with a document is the document’s, not a reason', () => {
    expect(counts('load', GIVEN, null, { document: paper('engineer-letter') })).toBe(false);
    expect((['reason', 'lab-result', 'signature'] as const).map(isDocument)).toEqual([false, false, false]);
    expect((['clearance', 'lead-firm', 'engineer-letter'] as const).map(isDocument)).toEqual([true, true, true]);
  });
});

const words = { wording: wordingFor('us', 'en-US'), locale: 'en-US' };
/** 1 psf, pascals: 4.4482216 N on 0.09290304 m². */
const PSF = 4.4482216 / 0.09290304;

describe('a document', () => {
  const overrides = [
    override('load', { document: paper('engineer-letter', 'L-7') }),
    override('load', { document: paper('engineer-letter', 'L-9') }),
    override('load', { document: paper('clearance', 'C-1') }),
    override('lead-paint', { document: paper('lead-firm', 'NAT-12') }),
  ];

  it('clears the hold of its kind that it was recorded for, the last one first', () => {
    expect(documentFor(finding('load', 'engineer-letter'), overrides)?.document?.number).toBe('L-9');
    expect(documentFor(finding('span', 'engineer-letter'), overrides)).toBeNull();
    expect(documentFor(finding('load', 'lead-firm'), overrides)).toBeNull();
    expect(documentFor(finding('load', 'reason'), [override('load')])).toBeNull();
  });

  it('is named in the finding it clears, and lead-safe work stays', () => {
    const open = finding('span', 'engineer-letter');
    const [load, lead, span] = withDocuments(
      [finding('load', 'engineer-letter'), finding('lead-paint', 'lead-firm'), open],
      overrides,
      { isSuspended: false, addedLoadPa: 12 * PSF },
      words,
    );
    expect(load).toMatchObject({
      verdict: 'go',
      text: 'Structural engineer’s letter L-9 by Weir & Sons, May 1, 2026. It clears this hold.',
      holds: [],
      does: [],
      title: 'a title',
    });
    expect(lead).toMatchObject({
      verdict: 'go-with-work',
      text: 'EPA firm certification NAT-12 by Weir & Sons, May 1, 2026. Follow the lead-safe lines of Prep.',
      holds: [],
      does: [],
    });
    expect(span).toBe(open);
  });

  it('of an engineer clears a hold up to the load it was recorded for', () => {
    const hold = finding('load', 'engineer-letter');
    const cleared = (recordedPa: number | null | undefined, addedLoadPa: number | null, isSuspended = true) => {
      const letter = { ...paper('engineer-letter'), ...(recordedPa !== undefined && { loadPa: recordedPa }) };
      return withDocuments([hold], [override('load', { document: letter })], { isSuspended, addedLoadPa }, words)[0];
    };
    expect(cleared(12 * PSF, 12 * PSF)).toMatchObject({ verdict: 'go', holds: [] });
    expect(cleared(12 * PSF, 12 * PSF)?.text).toContain('It clears this hold up to 12 psf. At its deepest the pour adds 12 psf.');
    expect(cleared(12 * PSF, 8 * PSF)?.text).toContain('At its deepest the pour adds 8 psf.');
    expect(cleared(12 * PSF, 42 * PSF)).toMatchObject({
      ...{ verdict: 'hold', holds: ['pour'] },
      text: 'A hold. The structural engineer’s letter L-7 was recorded for 12 psf, and the pour adds 42 psf. Record a letter for this load.',
    });
    expect(cleared(12 * PSF, 12.5 * PSF)?.verdict).toBe('hold');
    // A letter from before the estimate names no load.
    for (const unknown of [null, undefined]) expect(cleared(unknown, 4 * PSF)?.text).toContain('was recorded before the load was known');
    expect(cleared(null, null)?.verdict).toBe('go');
    expect(cleared(undefined, 42 * PSF, false)).toMatchObject({ verdict: 'go', holds: [] });
  });

  it('is asked for with the load of now, where it is an engineer’s and the floor is suspended', () => {
    const asked = (kind: Finding['clearedBy'], isSuspended: boolean) =>
      documentAsked(kind, { isSuspended, addedLoadPa: 600 }, '2026-05-04');
    expect(asked('engineer-letter', true)).toEqual({ kind: 'engineer-letter', today: '2026-05-04', loadPa: 600 });
    expect(asked('engineer-letter', false)).toEqual({ kind: 'engineer-letter', today: '2026-05-04' });
    expect(asked('lead-firm', true)).toEqual({ kind: 'lead-firm', today: '2026-05-04' });
    expect(asked('reason', true)).toBeNull();
  });
});
