/**
 * What is found on every described floor, and what it asks to be done, as last approved: a guard against a change that nobody meant.
 * Limits are checked against their sources in the other tests. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/substrate/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import { prepChecklist } from '../../../shared-core/prep/checklist.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { findingsOf } from '../../../shared-core/substrate/rules.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { factLines } from '../fact-lines.ts';
import { BOARDS, CALM, doorsOf, factsOf, layer, mark, opening, SLAB } from './a-floor.ts';
import { DESCRIBED_FLOORS } from './described-floors.ts';
import { DESCRIBED_OVERLAYS } from './described-overlays.ts';
import { RULE_SIDES } from './rule-sides.ts';

function told(floor: FloorInput, units: 'us' | 'metric' = 'us'): readonly string[] {
  const facts = factsOf(floor);
  const findings = findingsOf(facts, wordingFor(units, 'en-US'));
  const lines = prepChecklist({
    facts,
    findings,
    units,
    perimeterM: 14,
    grind: { areaM2: 2, spots: 2, deepestM: 0.006 },
    primer: null,
    areasM2: Object.fromEntries([...floor.layers, ...floor.marks].map(({ id }) => [id, 3])),
    lengthsM: Object.fromEntries(floor.marks.map(({ id }) => [id, 2])),
    bags: 12,
    waterL: 60,
    helpers: 1,
    byCart: true,
  });
  return [
    ...findings.flatMap((finding, i) => factLines({ [`finding ${i + 1}`]: finding })),
    ...lines.flatMap((line, i) => factLines({ [`line ${i + 1}`]: line })),
  ];
}

const around = {
  ...CALM,
  fixtures: ['dishwasher', 'toilet', 'floor-drain', 'floor-register', 'floor-outlet', 'hatch'] as (typeof CALM)['fixtures'],
};
const MARKS = (['crack', 'joint', 'expansion-joint', 'hollow', 'contaminated', 'loose', 'pipe', 'drain', 'gap'] as const).map((kind, i) =>
  mark(kind, { id: `mark-${kind}`, moves: i % 3 === 0 ? 'moving' : i % 3 === 1 ? 'still' : 'unknown' }),
);
const DOORS = (['dam', 'feather', 'stop'] as const).map((edge) => opening({ id: `door-${edge}`, edge, adjoiningM: 0.01 }));
const FULL: Readonly<Record<string, FloorInput>> = {
  'slab with every mark and door': { ...SLAB, marks: MARKS, ...doorsOf(...DOORS), circumstances: around },
  'boards with every mark and door': { ...BOARDS, marks: MARKS, ...doorsOf(...DOORS), circumstances: around },
  'everything out': {
    ...SLAB,
    layers: [
      ...(['carpet', 'foam-pad', 'ceramic-tile', 'thinset', 'resilient-tile', 'wood-flooring', 'particleboard', 'gypsum'] as const).map(
        (material) => layer(material, { id: `layer-${material}`, fate: 'remove', sound: 'loose', thicknessM: 0.01, yearInstalled: 2010 }),
      ),
      ...SLAB.layers,
    ],
  },
};

/** Floors of the rules and the described ones have much in common: a line is told where it is said first. */
async function compare(name: string, floors: readonly (readonly [string, FloorInput])[]): Promise<void> {
  const said = new Set<string>();
  const text = floors.map(([floorName, floor]) => {
    const lines = told(floor).map((line) => line.replace(/^(finding|line) \d+/, '$1'));
    const news = lines.filter((line) => !said.has(line));
    for (const line of lines) said.add(line);
    return `= ${floorName}, ${lines.length} lines\n${news.join('\n')}`;
  });
  await expect(`${text.join('\n')}\n`).toMatchFileSnapshot(`./approved/${name}.txt`);
}

describe('floors', () => {
  it('as described', () =>
    compare(
      'described',
      [...DESCRIBED_FLOORS, ...DESCRIBED_OVERLAYS].map(({ name, floor }) => [name, floor]),
    ));
  it('on both sides of each rule', () =>
    compare(
      'rules',
      Object.entries(RULE_SIDES).flatMap(([id, { speaks, silent }]) => [[id, speaks] as const, [`not ${id}`, silent] as const]),
    ));
  it('with everything on them', () => compare('full', Object.entries(FULL)));
});
