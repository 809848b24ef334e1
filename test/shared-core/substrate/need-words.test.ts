import { describe, expect, it } from 'vitest';
import { needStanding, needWords } from '../../../shared-core/substrate/need-words.ts';
import { findingsOf } from '../../../shared-core/substrate/rules.ts';
import type { NeedId } from '../../../shared-core/substrate/test-kind.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { limitsOf } from '../flooring-limits.ts';
import { BOARDS, factsOf, SLAB, test, without, withTests } from './a-floor.ts';

const wording = wordingFor('us', 'en-US');
const about = (floor: typeof SLAB, id: NeedId) => {
  const facts = factsOf(floor);
  const need = facts.needs.find((n) => n.id === id);
  if (need === undefined) throw new Error(`This floor needs ${id}.`);
  const words = needWords(need, facts, { wording, zone: 'America/New_York', locale: 'en-US' });
  return { ...words, standing: needStanding(need, facts, findingsOf(facts, wording)) };
};
const only = (floor: typeof SLAB, ...tests: Parameters<typeof withTests> extends [unknown, ...infer T] ? T : never) =>
  tests.reduce((rest, test) => withTests(without(rest, test.kind), ...tests.filter((t) => t.kind === test.kind)), floor);

describe('the field of a needed test', () => {
  it('shows the wettest place against its limit (ASTM F710 default, from memory: 75%)', () => {
    const damp = only(
      SLAB,
      test.humidity({ id: 'rh-1' }),
      test.humidity({ id: 'rh-2', relativeHumidity: 0.84 }),
      test.humidity({ id: 'rh-3' }),
    );
    expect(about(damp, 'slab-moisture')).toMatchObject({
      value: '84%',
      limit: 'max 75%',
    });
    expect(about(damp, 'slab-moisture').standing).not.toBe('done');
    const dry = only(SLAB, test.humidity({ id: 'rh-1' }), test.humidity({ id: 'rh-2' }), test.humidity({ id: 'rh-3' }));
    expect(about(dry, 'slab-moisture')).toMatchObject({ value: '70%', standing: 'done' });
  });

  it('shows no reading that this flooring has no limit for', () => {
    const flooringLimits = limitsOf({ slabHumidity: 0.85, statedIn: '' });
    const dishes = only(without(SLAB, 'slab-humidity'), test.dish({ id: 'd1' }), test.dish({ id: 'd2' }), test.dish({ id: 'd3' }));
    expect(about({ ...dishes, flooring: 'tile-large', flooringLimits }, 'slab-moisture')).toMatchObject({
      ...{ value: null, limit: 'max 85%', detail: 'RH probe', standing: 'waiting' },
    });
  });

  it('has no figure for a test that was not made', () => {
    expect(about(without(SLAB, 'slab-humidity'), 'slab-moisture')).toMatchObject({ value: null, standing: 'waiting' });
  });

  it('names no margin over the dew point before the air is measured', () => {
    expect(about({ ...SLAB, air: null }, 'air').limit).toBe('floor above the dew point');
  });

  it('is not done by too few readings', () => {
    expect(about(only(SLAB, test.humidity()), 'slab-moisture').standing).toBe('under-way');
  });

  it('holds wet boards and not the dry joists under them (NWFA, from memory: 12%)', () => {
    const places = [0.11, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1];
    const wet = withTests(without(BOARDS, 'wood-moisture'), test.wood('boards', [...places, 0.14]), test.wood('structure', places));
    expect(about(wet, 'wood-boards')).toMatchObject({
      value: '14%',
      limit: 'max 12%',
      standing: 'held',
    });
    expect(about(wet, 'wood-structure')).toMatchObject({
      value: '11%',
      limit: 'max 19%',
      standing: 'done',
    });
  });

  it('shows the stiffness of joists against L/360 (IRC R301.7)', () => {
    const stiff = withTests(without(BOARDS, 'floor-deflection'), test.deflection());
    expect(about(stiff, 'deflection')).toMatchObject({ value: 'L/576', limit: 'min L/360', standing: 'done' });
    const soft = withTests(without(BOARDS, 'floor-deflection'), test.deflection({ spanM: 5.4864 }));
    expect(about(soft, 'deflection').standing).toBe('held');
  });

  it('uses the weakest scratch', () => {
    const dusty = withTests(without(SLAB, 'scratch'), test.scratch('s1'), test.scratch('s2', 'dusts'), test.scratch('s3'));
    expect(about(dusty, 'surface-strength').value).toBe('dusts');
    expect(about(dusty, 'surface-strength').standing).not.toBe('done');
  });

  it('needs prep where the visual inspection found dust', () => {
    expect(about(withTests(without(SLAB, 'surface-look'), test.look(['dusty'])), 'surface-look')).toMatchObject({
      value: 'dusty',
      standing: 'under-way',
    });
    expect(about(withTests(without(SLAB, 'surface-look'), test.look()), 'surface-look')).toMatchObject({
      value: 'sound and clean',
      standing: 'done',
    });
  });
});
