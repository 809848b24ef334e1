import { describe, expect, it } from 'vitest';
import { isFlooringPresumed, isSurfacingPresumed, labAnswer, unfinishedLabResult } from '../../../shared-core/substrate/asbestos.ts';
import { CAUTIONS, cautionText } from '../../../shared-core/substrate/cautions.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { isLeadPresumed, isMinorRepair } from '../../../shared-core/substrate/lead-paint.ts';
import { slabHumidity } from '../../../shared-core/substrate/moisture-kinds.ts';
import { silicaAnswer } from '../../../shared-core/substrate/silica.ts';
import { ASBESTOS_CASES, LEAD_CASES, TABLE_1 } from '../../reference/hazards.ts';
import { test } from './a-floor.ts';

const TODAY = '2026-05-04';

describe('asbestos (29 CFR 1926.1101)', () => {
  it.each(ASBESTOS_CASES)('is presumed by the two dates ($id)', ({ built, laid, flooring, surfacing }) => {
    expect(isFlooringPresumed({ material: 'resilient-tile', yearInstalled: laid }, built)).toBe(flooring);
    expect(isFlooringPresumed({ material: 'adhesive-cutback', yearInstalled: laid }, built)).toBe(flooring);
    expect(isSurfacingPresumed(built)).toBe(surfacing);
  });

  it('does not presume concrete or boards', () => {
    expect(isFlooringPresumed({ material: 'concrete-on-ground', yearInstalled: 1950 }, 1950)).toBe(false);
    expect(isFlooringPresumed({ material: 'boards', yearInstalled: null }, null)).toBe(false);
  });

  it('is cleared only by a result with lab, sample and date', () => {
    const answer = (change: Parameters<typeof test.lab>[0]) =>
      labAnswer([test.lab({ layerId: 'tile', ...change })], 'asbestos', 'tile', TODAY);
    expect(answer({})).toBe('none-found');
    expect(answer({ lab: ' ' })).toBe('incomplete');
    expect(answer({ sample: '' })).toBe('incomplete');
    expect(answer({ resultOn: null })).toBe('incomplete');
    expect(answer({ resultOn: '2026-05-05' })).toBe('incomplete');
    expect(answer({ resultOn: TODAY })).toBe('none-found');
    expect(answer({ state: 'sent' })).toBe('sent');
    expect(answer({ layerId: 'other' })).toBe('not-asked');
    expect(answer({ question: 'lead-paint' })).toBe('not-asked');
  });

  it('stays detected when another sample shows none', () => {
    const samples = [test.lab({ id: 'labA', layerId: 'tile', state: 'found' }), test.lab({ id: 'labB', layerId: 'tile' })];
    expect(labAnswer(samples, 'asbestos', 'tile', TODAY)).toBe('found');
    expect(labAnswer(samples.toReversed(), 'asbestos', 'tile', TODAY)).toBe('found');
  });
});

describe('the lab result that the next entry completes', () => {
  const unfinished = (...tests: Parameters<typeof test.lab>[0][]) =>
    unfinishedLabResult(
      tests.map((change, i) => test.lab({ id: `lab-${i}`, layerId: 'tile', ...change })),
      'asbestos',
      'tile',
      TODAY,
    )?.id ?? null;

  it('is a pending or incomplete one', () => {
    expect(unfinished({ state: 'sent', lab: '', sample: '', resultOn: null })).toBe('lab-0');
    expect(unfinished({ sample: ' ' })).toBe('lab-0');
    expect(unfinished({ state: 'found', resultOn: '2026-05-05' })).toBe('lab-0');
    expect(unfinished({ state: 'sent' }, { state: 'found' })).toBe('lab-0');
  });

  it('is never one that is complete, or of another layer or substance', () => {
    expect(unfinished({ state: 'found' })).toBeNull();
    expect(unfinished({})).toBeNull();
    expect(unfinished({ state: 'sent', layerId: null })).toBeNull();
    expect(unfinished({ state: 'sent', question: 'lead-paint' })).toBeNull();
  });
});

describe('lead (40 CFR 745)', () => {
  it.each(LEAD_CASES)('$id', ({ built, ft2, presumed, minor }) => {
    expect(isLeadPresumed(built)).toBe(presumed);
    expect(isMinorRepair(ft2 * 0.09290304)).toBe(minor);
  });

  it('counts an unknown area as more than minor', () => {
    expect(isMinorRepair(null)).toBe(false);
  });
});

describe('silica (29 CFR 1926.1153 Table 1)', () => {
  it.each(TABLE_1)('requires what row $entry prints', ({ task, entry, apf }) => {
    const hazardAt = (hours: number) => {
      const answer = silicaAnswer(task, hours);
      return answer.inTable ? answer.apf : null;
    };
    expect([hazardAt(4), hazardAt(4.1)]).toEqual(apf);
    expect(silicaAnswer(task, 1)).toMatchObject({ entry });
  });

  it('requires no respirator of a floor grinder indoors for 6 h, but still controls (H1)', () => {
    const answer = silicaAnswer('walk-behind-grinder', 6);
    expect(answer.inTable && answer.apf).toBe(0);
    expect(answer.inTable && answer.controls).toContain('Between passes, HEPA vacuum');
  });

  it('does not cover mixing bags (H4)', () => {
    const answer = silicaAnswer('mix-bags', 1);
    expect(answer.inTable).toBe(false);
    expect(!answer.inTable && answer.text).toContain('25 µg/m³');
  });
});

describe('cautions', () => {
  // Common practice, no source: what lies in a slab is located before a hole is drilled for a moisture test.
  it('name heat and tendons where a moisture test is drilled', () => {
    expect(slabHumidity.form.source).toMatch(/radiant heat and post-tensioning tendons.* located/);
  });

  it('are listed under their own name, short, with a source', () => {
    for (const [id, caution] of Object.entries(CAUTIONS)) {
      expect(caution.id).toBe(id);
      expect(cautionText(caution.id, wordingFor('us', 'en-US')).length).toBeLessThan(260);
      expect(caution.source).not.toBe('');
    }
  });
});
