import { describe, expect, it } from 'vitest';
import type { ClearanceTest } from '../../../shared-core/book/cure-record.ts';
import { type ClearanceFinding, type ClearanceMethod, flooringRequirement } from '../../../shared-core/cure/clearance-tests.ts';
import { clearanceWords, promiseWords, requirementWords, whoseLimit } from '../../../shared-core/standing/cure-words.ts';

const ASKED = {
  limits: null,
  materialKind: 'cement-underlayment',
  heated: false,
  overWood: false,
  drilling: 'allowed',
  country: 'US',
} as const;
const OWN = {
  slabHumidity: 0.65,
  emissionLb: null,
  woodMoisture: null,
  withoutHoles: null,
  flatnessGapM: null,
  flatnessSpanM: null,
  statedIn: 'leaflet of March',
};
const wood = flooringRequirement({ ...ASKED, flooring: 'wood-glued' });
const usualOf = (question: Parameters<typeof flooringRequirement>[0]): ClearanceMethod => {
  const usual = flooringRequirement(question).methods[0];
  if (usual === undefined) throw new Error('no method');
  return usual;
};

const WOOD_WORDS =
  'Required before glued wood: in-slab relative humidity (RH) test, ASTM F2170. Max 75% RH, typical: the flooring manufacturer’s limit applies.';

describe('requirementWords', () => {
  it.each([
    [{ flooring: 'wood-glued' }, WOOD_WORDS],
    [{ flooring: 'tile-small' }, 'No moisture test is required for tile. The data sheet’s hours decide.'],
    [
      { flooring: 'wood-glued', limits: OWN },
      'Required before glued wood: in-slab relative humidity (RH) test, ASTM F2170; limit: leaflet of March. Max 65% RH.',
    ],
    [{ flooring: 'bare-sealed' }, 'Required before sealer: test named on the sealer data sheet. Limit on the sealer data sheet.'],
    [
      { flooring: 'wood-glued', country: 'DE' },
      'Required before glued wood: carbide test on a sample from the full depth, DIN 18560-1. Max 2.0 CM-%.',
    ],
    [
      { flooring: 'wood-glued', drilling: 'never' },
      'Required before glued wood: test without holes, by a method the flooring manufacturer accepts. Limit on the flooring data sheet. Do not drill this floor.',
    ],
    [
      { flooring: 'wood-glued', drilling: 'over-system' },
      'Required before glued wood: test without holes, by a method the flooring manufacturer accepts. Limit on the flooring data sheet. Do not drill: a hole goes through the moisture mitigation system, and the slab under it stays damp. Its data sheet must allow the test too.',
    ],
    [{ flooring: 'wood-glued', drilling: 'heat-located' }, `${WOOD_WORDS} Locate any radiant heat before any hole.`],
    [
      { flooring: 'wood-glued', country: 'DE', drilling: 'never' },
      'Required before glued wood: test without holes, by a method the flooring manufacturer accepts. Limit on the flooring data sheet. Do not drill this floor.',
    ],
    [
      { flooring: 'bare-sealed', drilling: 'never' },
      'Required before sealer: test named on the sealer data sheet. Limit on the sealer data sheet. Do not drill this floor.',
    ],
    [{ flooring: 'tile-small', drilling: 'never' }, 'No moisture test is required for tile. The data sheet’s hours decide.'],
    [{ flooring: 'bare-sealed', limits: OWN }, 'Required before sealer: test named on the sealer data sheet. Max 65% RH.'],
    [
      { flooring: 'carpet', overWood: true, drilling: 'heat-located' },
      'Required before carpet: wood moisture content (MC) test, NWFA installation guidelines. Max 12% MC, typical: the flooring manufacturer’s limit applies.',
    ],
  ] as const)('names the usual test of %o', (over, words) =>
    expect(requirementWords(flooringRequirement({ ...ASKED, ...over }))).toBe(words),
  );
});

describe('whoseLimit', () => {
  it('is typical, the manufacturer’s, the standard’s, or that of the data sheet', () => {
    const own = [
      usualOf({ ...ASKED, flooring: 'wood-glued' }),
      usualOf({ ...ASKED, flooring: 'wood-glued', limits: OWN }),
      usualOf({ ...ASKED, flooring: 'wood-glued', country: 'DE' }),
      usualOf({ ...ASKED, flooring: 'bare-sealed' }),
    ];
    const withoutHoles = usualOf({ ...ASKED, flooring: 'wood-glued', drilling: 'never' });
    expect(whoseLimit(withoutHoles)).toBe('the flooring data sheet');
    expect(own.map(whoseLimit)).toEqual(['typical', 'leaflet of March', 'DIN 18560-1', 'the sealer data sheet']);
  });
});

describe('clearanceWords', () => {
  it('speaks of the sealer where the floor is sealed', () => {
    const test = { value: 0.71, unit: 'share', by: 'R. T.' } as ClearanceTest;
    const requirement = flooringRequirement({ ...ASKED, flooring: 'bare-sealed' });
    expect(clearanceWords({ passed: false, finding: { kind: 'no-limit', test }, test, requirement })).toBe(
      'Not cleared for its sealer. Enter the limit from the sealer data sheet to judge the result of 71%.',
    );
  });

  const test = { value: 0.71, unit: 'share', by: 'R. T.' } as ClearanceTest;
  const method = usualOf({ ...ASKED, flooring: 'wood-glued' });
  const said: readonly (readonly [ClearanceFinding, string])[] = [
    [{ kind: 'untested' }, `Not cleared for flooring. ${WOOD_WORDS}`],
    [
      { kind: 'vapor-emission' },
      `Not cleared for flooring. A calcium chloride test does not apply over an underlayment or gypsum (ASTM F1869). ${WOOD_WORDS}`,
    ],
    [{ kind: 'other-method' }, `Not cleared for flooring. The test on record is not one this flooring takes. ${WOOD_WORDS}`],
    [
      { kind: 'too-soon', hours: 22, hoursNeeded: 72 },
      'Not cleared for flooring. The test was taken 22 hours after the pour. It counts from 72 hours on.',
    ],
    [
      { kind: 'first-check', test: { ...test, value: 0.042, method: 'meter' } },
      `Not cleared for flooring. A reading of 4.2% by moisture meter is a first check only. ${WOOD_WORDS}`,
    ],
    [{ kind: 'no-limit', test }, 'Not cleared for flooring. Enter the limit from the flooring data sheet to judge the result of 71%.'],
    [
      { kind: 'over', test: { ...test, value: 0.8 }, method },
      'Not cleared for flooring. 80% by R. T. Max 75% RH (typical), ASTM F2170. Wait, then test again by the same method.',
    ],
    [
      { kind: 'over', test: { ...test, value: 0.754, by: 'Ada' }, method },
      'Not cleared for flooring. 75.4% by Ada. Max 75% RH (typical), ASTM F2170. Wait, then test again by the same method.',
    ],
    [{ kind: 'passed', test, method }, 'Cleared for glued wood: 71% by R. T. Max 75% RH (typical), ASTM F2170.'],
    [{ kind: 'by-hours' }, WOOD_WORDS],
  ];
  it.each(said)('says %o', (finding, words) =>
    expect(clearanceWords({ passed: finding.kind === 'passed', finding, test: null, requirement: wood })).toBe(words),
  );
});

const HOUR = 3_600_000;

it.each([
  ['on-track', -HOUR, 'On track'],
  ['at-risk', 0, 'At risk'],
  ['on-hold', null, 'On hold: no date'],
  ['late', 1, 'Likely 1 hour late'],
  ['late', 2.1 * HOUR, 'Likely 3 hours late'],
  ['late', 47 * HOUR, 'Likely 47 hours late'],
  ['late', 47.1 * HOUR, 'Likely 2 days late'],
  ['late', 49 * HOUR, 'Likely 3 days late'],
] as const)('a promise that is %s by %s ms never understates the delay', (state, lateByMs, words) =>
  expect(promiseWords({ state, lateByMs })).toBe(words),
);
