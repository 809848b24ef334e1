import { describe, expect, it } from 'vitest';
import { EN_CLASSES, parseEnDesignation } from '../../../shared-core/measure/designation.ts';
import { EN_13813_C, EN_13813_F } from '../../reference/material-facts.ts';

describe('the designation of EN 13813', () => {
  it('has the classes that are published', () => {
    expect([...EN_CLASSES.C]).toEqual(EN_13813_C);
    expect([...EN_CLASSES.F]).toEqual(EN_13813_F);
  });
  it('reads CT-C25-F5 (V1)', () => {
    expect(parseEnDesignation('CT-C25-F5')).toEqual({ ok: true, value: 25e6 });
    expect(parseEnDesignation('SR-B1.5')).toEqual({ ok: true, value: null });
  });
  it('refuses C22 and names the neighboring classes (V2)', () => {
    const read = parseEnDesignation('CT-C22-F5');
    expect(read.ok ? '' : read.message).toMatch(/C22 is not a class.*C20 and C25/);
  });
  it('accepts F6 (V3)', () => expect(parseEnDesignation('CT-C30-F6').ok).toBe(true));
  it('requires both classes of a cement screed, and a known binder', () => {
    expect(parseEnDesignation('CT-C25').ok).toBe(false);
    expect(parseEnDesignation('XX-C25-F5').ok).toBe(false);
  });
});
