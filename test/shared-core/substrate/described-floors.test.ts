import { describe, expect, it } from 'vitest';
import { prepChecklist } from '../../../shared-core/prep/checklist.ts';
import { lineHeldBy } from '../../../shared-core/prep/pour-held.ts';
import { signedLines } from '../../../shared-core/prep/signed-lines.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { findingsOf, verdictOf } from '../../../shared-core/substrate/rules.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { factsOf } from './a-floor.ts';
import { DESCRIBED_FLOORS } from './described-floors.ts';
import { RULE_SIDES } from './rule-sides.ts';

const US = wordingFor('us', 'en-US');
const findings = (floor: FloorInput): readonly Finding[] => findingsOf(factsOf(floor), US);
const checklist = (floor: FloorInput) =>
  prepChecklist({
    facts: factsOf(floor),
    findings: findings(floor),
    units: 'us',
    perimeterM: 14,
    grind: null,
    primer: null,
    areasM2: {},
    lengthsM: {},
    bags: 12,
    waterL: 60,
    helpers: 1,
    byCart: true,
  });

/** No finding asks for work that a hazard, radiant heat or resilient flooring rules out on the same floor. */
function contradictions(all: readonly Finding[]): readonly string[] {
  const rulesOut = all.filter((one) => /^(asbestos|lead|radiant|heat-laid|resilient-top|coating)/.test(one.ruleId));
  return all.flatMap((one) =>
    rulesOut
      .filter((other) => other.key !== one.key && one.does.some((task) => other.holds.includes(task)))
      .map((other) => `${one.key} asks for what ${other.key} holds`),
  );
}

describe('the described floors', () => {
  it('are 40 or more', () => {
    expect(DESCRIBED_FLOORS.length).toBeGreaterThanOrEqual(40);
    expect(new Set(DESCRIBED_FLOORS.map(({ name }) => name)).size).toBe(DESCRIBED_FLOORS.length);
  });

  it.each(DESCRIBED_FLOORS)('$name', ({ floor, verdict, rules, lines, not = [] }) => {
    const found = findings(floor);
    const ids = found.map((one) => one.ruleId);
    const keys = checklist(floor).map((line) => line.key);
    expect(verdictOf(found)).toBe(verdict);
    expect(ids).toEqual(expect.arrayContaining([...rules]));
    expect(keys).toEqual(expect.arrayContaining([...lines]));
    for (const absent of not) expect([...ids, ...keys]).not.toContain(absent);
    expect(contradictions(found)).toEqual([]);
  });

  it('never include a line that disturbs a floor that may contain asbestos without a hold on it', () => {
    for (const { name, floor } of DESCRIBED_FLOORS) {
      const found = findings(floor);
      if (!found.some((one) => one.ruleId === 'asbestos-flooring')) continue;
      const all = signedLines(checklist(floor), [], { isAsSigned: ({ what }, text) => what === text, againAfter: null });
      for (const line of all) {
        const disturbs =
          line.item?.tasks.some((task) => ['scrape', 'sand', 'grind', 'drill', 'lift-out', 'pull-up'].includes(task)) === true;
        if (disturbs) expect(lineHeldBy(line, found).length, `${name}: ${line.key}`).toBeGreaterThan(0);
      }
    }
  });
});

describe('instructions for the crew on these floors', () => {
  it('never abrade a surface that may contain asbestos', () => {
    for (const { name, floor } of DESCRIBED_FLOORS) {
      if (!factsOf(floor).surfaceMayHoldAsbestos) continue;
      const found = findings(floor);
      const lines = signedLines(checklist(floor), [], { isAsSigned: ({ what }, text) => what === text, againAfter: null }).filter(
        (line) => lineHeldBy(line, found).length === 0,
      );
      for (const { item } of lines) expect(item?.what ?? '', name).not.toMatch(/^(abrade|grind|sand|scrape|chip|open)\b/i);
      const sentences = found.filter((one) => !/^asbestos|^lead/.test(one.ruleId)).flatMap(({ text }) => text.split(/(?<=[.]) /));
      for (const sentence of sentences)
        if (/\b(abrade|abraded|grind|sand|scrape) (it|the|them)\b/i.test(sentence)) expect(sentence, name).toMatch(/\b(no|not|never)\b/i);
    }
  });

  it('name a respirator with the factor of Table 1 for each tool that raises silica', () => {
    // 29 CFR 1926.1153 Table 1: chipping indoors APF 10 from the first minute; hand grinder up to 4 h none, with shroud and vacuum.
    const tile = DESCRIBED_FLOORS.find(({ name }) => name === 'ceramic tile of 1965 to be chipped out')?.floor;
    if (tile === undefined) throw new Error('no such floor');
    const lines = checklist(tile);
    expect(lines.find(({ key }) => key === 'remove:ceramic')).toMatchObject({
      dust: 'chipping-hammer',
      cautions: ['asbestos', 'silica'],
    });
    expect(lines.find(({ key }) => key === 'abrade')).toMatchObject({ dust: 'hand-grinder', cautions: ['silica'] });
  });
});

/** Two floors in one: the layers of both over the slab, and site conditions, marks and tests of both. */
function both(one: FloorInput, other: FloorInput, base: FloorInput): FloorInput {
  const differs = <K extends keyof FloorInput['circumstances']>(key: K) =>
    other.circumstances[key] === base.circumstances[key] ? one.circumstances[key] : other.circumstances[key];
  const keys = Object.keys(base.circumstances) as (keyof FloorInput['circumstances'])[];
  const extra = other.layers.filter((layer) => !one.layers.some(({ id }) => id === layer.id));
  return {
    ...one,
    layers: [...extra, ...one.layers],
    tests: [...one.tests.filter(({ id }) => !other.tests.some((test) => test.id === id)), ...other.tests],
    marks: [...one.marks, ...other.marks],
    circumstances: { ...base.circumstances, ...Object.fromEntries(keys.map((key) => [key, differs(key)])) },
    yearBuilt: Math.min(one.yearBuilt ?? 1900, other.yearBuilt ?? 1900),
    hasMoistureSystem: one.hasMoistureSystem || other.hasMoistureSystem,
  };
}

describe('every pair of findings that can occur together', () => {
  it('has no contradiction', () => {
    const sides = Object.values(RULE_SIDES).map(({ speaks }) => speaks);
    const base = DESCRIBED_FLOORS[0]?.floor;
    if (base === undefined) throw new Error('no base floor');
    let met = 0;
    for (const one of sides) {
      for (const other of sides) {
        const found = findings(both(one, other, base));
        met += found.length;
        expect(contradictions(found)).toEqual([]);
      }
    }
    expect(met).toBeGreaterThan(10_000);
  });
});
