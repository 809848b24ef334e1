/** The scope of a quote: the work its price holds, no more and no less. */
import { describe, expect, it } from 'vitest';
import type { AddedLine, LineOverride } from '../../../shared-core/book/job.ts';
import type { Layer } from '../../../shared-core/book/layer.ts';
import type { Mark as FloorMark } from '../../../shared-core/book/plan-fields.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { asQuoted, draftQuote } from '../../../shared-core/documents/issue-quote-document.ts';
import { planBlock } from '../../../shared-core/documents/quote-drawings.ts';
import { addedKey } from '../../../shared-core/price/line.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { textOf as text } from './tree-text.ts';
import { sampleJob } from './sample-job.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const wholeOf = (number: string): WholeJob => sampleJob(number, NOW);
const quoteOf = (whole: WholeJob): string => text(draftQuote(readJob(whole, NOW), NOW));

/** A dormant crack of 3 m. */
const crack: FloorMark = {
  ...{ id: 'crack-1', kind: 'crack', moves: 'still', shape: 'line', widthM: null, note: '' },
  points: [
    { xM: 0.5, yM: 0.5 },
    { xM: 3.5, yM: 0.5 },
  ],
};

/** A sound layer of 2005 that stays. */
const made = (material: Layer['material'], change: Partial<Layer> = {}): Layer => ({
  ...{ id: `layer-${material}`, material, thicknessM: null, yearInstalled: 2005, sound: 'sound', fate: 'keep', area: null, note: '' },
  ...change,
});
/** Half of a room, of which the first and third corners are opposite. */
const halfOf = ({ plan }: WholeJob['rooms'][number]): Layer['area'] => {
  const [{ xM: left, yM: top } = { xM: 0, yM: 0 }, , { xM: right, yM: bottom } = { xM: 0, yM: 0 }] = plan.outline;
  const half = (left + right) / 2;
  return [left, half, half, left].map((xM, i) => ({ xM, yM: i < 2 ? top : bottom }));
};

describe('the scope of a quote', () => {
  it('states the same thickness as the first page where the pour follows the floor', () => {
    const whole = wholeOf('26-031');
    const skim = whole.job.estimate.options.find(({ rooms }) => rooms.some(({ level }) => level.mode === 'follow'));
    const level = skim?.rooms.find((room) => room.level.mode === 'follow')?.level;
    // 3/16 in. and the allowance for texture, 1 mm (0.04 in.), are more than 7/32 in.: rounded to sixteenths they would be 1/4 in. By hand.
    expect([level?.followThicknessM, level?.textureM]).toEqual([0.1875 * 0.0254, 0.001]);
    const estimate = { ...whole.job.estimate, suggestedOptionId: skim?.id ?? null };
    const reading = readJob({ ...whole, job: { ...whole.job, estimate } }, NOW);
    const printed = text(draftQuote(reading, NOW));
    expect(printed).toContain('In the hall we pour ³⁄₁₆″ of self-leveling underlayment that follows the floor.');
    expect(printed).toMatch(/Pour an even layer that follows the floor: [\d,]+ sq ft, ³⁄₁₆″ deep\n/);
    const hall = reading.estimate.suggested.rooms.find((room) => room.level.mode === 'follow');
    const plan = JSON.stringify(hall && planBlock(asQuoted(reading), hall, { widthPx: 400, heightPx: 300 }));
    expect(plan).toContain('Plan of the hall with the pour depth, ³⁄₁₆″ at the deepest');
    expect(new Set(plan.match(/(?<=Reading \d+: )[^"]*/g))).toEqual(new Set(['³⁄₁₆″ deep']));
  });

  it('names all priced work in the scope, and offers no moisture mitigation system that is in the price', () => {
    const whole = wholeOf('26-024');
    const system = whole.materials.find(({ kind }) => kind === 'moisture-barrier');
    const primer = whole.materials.find(({ primer: uses }) => uses.some(({ substrate }) => substrate === 'non-porous'));
    if (system === undefined || primer === undefined) throw new Error('The sample lacks a data sheet.');
    const estimate = { ...whole.job.estimate, options: [], suggestedOptionId: null };
    const withSystems = (count: number): string => {
      const rooms = whole.job.rooms.map((room, i) => (i < count ? { ...room, primerId: primer.id, moistureSystemId: system.id } : room));
      return quoteOf({ ...whole, job: { ...whole.job, rooms, estimate } });
    };
    const all = whole.job.rooms.length;
    const [none, one, every] = [withSystems(0), withSystems(1), withSystems(all)];
    // The data sheet is named for what it is, and the quote says that once.
    expect(system.name).toBe('Moisture mitigation system, two-part epoxy');
    const scope = 'Apply a moisture mitigation system, two-part epoxy, to ';
    expect([none, one, every].map((printed) => printed.split(scope).length - 1)).toEqual([0, 1, all]);
    expect(none).toContain('If it is too damp, it dries longer or gets a moisture mitigation system at a price agreed first.');
    expect(one).toContain('it dries longer or, in a room without one, gets a moisture mitigation system at a price agreed first.');
    expect(every).not.toContain('at a price agreed first');
    const scopeOf = (number: string): string => quoteOf(wholeOf(number));
    expect(scopeOf('26-022')).toMatch(/Seal [\d,]+ sq ft once the floor passes its moisture test/);
    expect(scopeOf('26-031')).toMatch(/Fasten reinforcement over [\d,]+ sq ft of wood/);
    const cracked = whole.rooms.map((room, i) => (i > 0 ? room : { ...room, marks: [crack] }));
    // 3 m is 9 ft 10.1 in. Numbers of the inch: NIST Handbook 44, appendix C.
    expect(quoteOf({ ...whole, rooms: cracked, job: { ...whole.job, estimate } })).toContain('Fill 9′ 10⅛″ of cracks, joints, and gaps');
  });

  it('names the adhesive where no flooring is left over it', () => {
    const whole = wholeOf('26-029');
    const printed = (...materials: readonly Layer['material'][]): string => {
      const rooms = whole.rooms.map((room) => ({
        ...room,
        layers: [
          ...materials.map((material, n) => ({
            ...{ id: `layer-${n}`, material, thicknessM: null, yearInstalled: 2005, sound: 'sound' as const, fate: 'remove' as const },
            ...{ area: null, note: '' },
          })),
          ...room.layers.filter(({ fate }) => fate === 'keep'),
        ],
      }));
      return quoteOf({ ...whole, rooms, job: { ...whole.job, estimate: { ...whole.job.estimate, options: [] } } });
    };
    const unharmed = 'The old flooring comes up without damage to the floor below it.';
    expect(printed('adhesive-cutback')).toMatch(/^Remove and dispose of the cutback adhesive/m);
    expect(printed('adhesive-cutback')).not.toMatch(/existing flooring|The old flooring comes up/);
    expect(printed('adhesive-unknown')).toMatch(/^Remove and dispose of the old adhesive/m);
    expect(printed('carpet', 'adhesive-other')).toMatch(/^Remove and dispose of the existing flooring/m);
    expect(printed('carpet', 'adhesive-other')).toContain(unharmed);
  });

  it('names work added by hand in the scope: of a room, and of the whole job', () => {
    const whole = wholeOf('26-031');
    const [hall] = whole.job.rooms;
    const added = (id: string, name: string, roomId: string | null): AddedLine => ({
      ...{ id, name, roomId, kind: 'labor', costMinor: 30_000, taxId: null },
    });
    const lines = [
      added('line-0001', 'Remove and reset baseboards, 70 ft', hall?.roomId ?? ''),
      added('line-0002', 'Protect the stairs', null),
      added('line-0003', 'Carry out the old bath', null),
    ];
    const left: LineOverride = { lineKey: addedKey('line-0003'), costMinor: null, priceMinor: null, leftOut: true, note: 'not ours' };
    const printed = (own: AddedLine[]): string =>
      quoteOf({ ...whole, job: { ...whole.job, estimate: { ...whole.job.estimate, added: own, overrides: [left] } } });
    const quoted = printed(lines);
    expect(quoted.split('Remove and reset baseboards, 70 ft')).toHaveLength(2);
    expect(quoted).toContain('For the whole job, included in the prices above\nProtect the stairs\n');
    expect(quoted).not.toContain('Carry out the old bath');
    expect(printed([])).not.toContain('For the whole job');
  });

  it('names the screwing that the price holds, and new plywood, whose material no line of the price is for', () => {
    const whole = wholeOf('26-031');
    const [first] = whole.rooms;
    if (first === undefined) throw new Error('The job has a room.');
    const plywood: Layer = {
      ...{ id: 'layer-ply', material: 'plywood', thicknessM: 0.0127, yearInstalled: 2026, sound: 'sound', fate: 'keep' },
      ...{ laid: 'after-readings', area: null, note: '' },
    };
    const withPlywood = whole.rooms.map((room) => (room === first ? { ...room, layers: [plywood, ...room.layers] } : room));
    const priced = (added: AddedLine[], overrides: LineOverride[] = [], rooms = withPlywood): string =>
      quoteOf({ ...whole, rooms, job: { ...whole.job, estimate: { ...whole.job.estimate, options: [], added, overrides } } });
    expect(priced([])).toContain('Before we pour: new plywood, ½″ (material not in this price)');
    const both = /^Screw down ([\d,]+ sq ft) of the subfloor and \1 of plywood over it$/m;
    expect(priced([])).toMatch(both);
    expect(quoteOf(whole)).toMatch(/^Screw down [\d,]+ sq ft of the subfloor$/m);
    const left = { lineKey: `${first.id}/labor-prep`, costMinor: null, priceMinor: null, leftOut: true, note: 'the builder' };
    expect(priced([], [left])).toContain('Before we pour: new plywood, ½″ (not in this price)');
    expect(priced([], [left])).not.toContain('Screw down');
    const planks = { ...plywood, id: 'layer-planks', material: 'boards' as const, laid: undefined };
    const onPlanks = whole.rooms.map((room) => (room === first ? { ...room, layers: [planks, ...room.layers] } : room));
    expect(priced([], [], onPlanks)).toMatch(both);
    expect(priced([], [], onPlanks)).toContain('Before we pour: new plywood (material not in this price)');
    const read = whole.rooms.map((room) =>
      room === first ? { ...room, layers: [{ ...plywood, laid: 'before-readings' as const }, ...room.layers] } : room,
    );
    expect(priced([], [], read)).not.toContain('new plywood');
    // Whatever a line is named, what is printed is true.
    const line = (name: string): AddedLine => ({
      ...{ id: 'line-ply1', name, kind: 'other', roomId: null, costMinor: 30_000, taxId: null },
    });
    for (const name of ['Plywood, supplied and screwed down', '1/2 in. ply, supplied', 'Remove the old plywood in the closet'])
      expect(priced([line(name)])).toContain('new plywood, ½″ (material not in this price unless a line below names it)');
  });

  // Common practice, no source: adhesive made up to about 1990 is doubtful, as the trade writes of vinyl tile.
  it('names adhesive that is scraped, and waits for the lab where its year is doubtful', () => {
    const whole = wholeOf('26-024');
    const [first] = whole.rooms;
    if (first === undefined) throw new Error('The job has a room.');
    const quoted = (yearInstalled: number, sound: Layer['sound'] = 'sound', ...over: readonly Layer[]): string => {
      const glue = made('adhesive-other', { yearInstalled, sound });
      const layers = [...over, glue, ...first.layers.filter(({ material }) => material === 'concrete-on-ground')];
      const rooms = whole.rooms.map((room) => (room === first ? { ...room, layers } : room));
      return quoteOf({ ...whole, rooms, job: { ...whole.job, estimate: { ...whole.job.estimate, options: [] } } });
    };
    expect(quoted(2005)).toMatch(/^Scrape the old adhesive on [\d,]+ sq ft down to a thin film$/m);
    expect(quoted(1984)).toMatch(/^Scrape the old adhesive on .* thin film, once a lab finds no asbestos in it$/m);
    const loose = quoted(2005, 'loose');
    expect(loose).toMatch(/^Remove and dispose of the loose old adhesive on [\d,]+ sq ft down to a sound layer$/m);
    expect(loose).not.toContain('Scrape the');
    // 29 CFR 1926.1101: nothing of the floor is scraped beside tile of 1965 that stays and may contain asbestos.
    const beside = quoted(2005, 'sound', made('resilient-tile', { yearInstalled: 1965, area: halfOf(first) }));
    expect(beside).toMatch(/^A licensed abatement contractor takes the old adhesive off [\d,]+ sq ft \(not in this price\)$/m);
    expect(beside).not.toContain('Scrape the');
  });

  // Common practice, no source: no fastener goes near tubes or cables that nobody has located.
  it('fastens wood over radiant heat only once the heat is located, and tells the customer what else there is', () => {
    const whole = wholeOf('26-031');
    const [first] = whole.rooms;
    if (first === undefined) throw new Error('The job has a room.');
    const planks = made('boards', { yearInstalled: 1998 });
    const quoted = (radiantHeat: 'in-floor' | 'none'): string => {
      const circumstances = { ...first.circumstances, radiantHeat };
      const rooms = whole.rooms.map((room) => (room === first ? { ...room, circumstances, layers: [planks, ...room.layers] } : room));
      return quoteOf({ ...whole, rooms, job: { ...whole.job, estimate: { ...whole.job.estimate, options: [] } } });
    };
    const waits = 'clear of the radiant heat once it is located';
    for (const work of [
      'Screw down [\\d,]+ sq ft of the subfloor and [\\d,]+ sq ft of plywood over it',
      'Fasten reinforcement over [\\d,]+ sq ft of wood',
    ])
      expect(quoted('in-floor')).toMatch(new RegExp(`^${work}, ${waits}$`, 'm'));
    expect(quoted('none')).not.toContain(waits);
    expect(quoted('in-floor')).toContain(
      'Planks need plywood. Most data sheets do not allow planks. Choose a product that names planks. Otherwise fasten only clear of the radiant heat, once it is located.',
    );
  });

  // Common practice, no source: resilient flooring is stripped wet. 29 CFR 1926.1101(l)(3) where it may contain asbestos.
  it('names paint that is stripped wet and who strips it, which the price has no labor for', () => {
    const whole = wholeOf('26-031');
    const [first] = whole.rooms;
    if (first === undefined) throw new Error('The job has a room.');
    const printed = (tile: Partial<Layer>): string => {
      const layers = [made('paint-or-sealer'), made('resilient-tile', tile), ...first.layers.filter(({ fate }) => fate === 'keep')];
      const rooms = whole.rooms.map((room) => ({
        ...room,
        layers: room === first ? layers : room.layers.filter(({ material }) => material !== 'paint-or-sealer'),
      }));
      return quoteOf({ ...whole, rooms, job: { ...whole.job, estimate: { ...whole.job.estimate, options: [] } } });
    };
    const strips = /^Strip the paint or sealer off [\d,]+ sq ft, wet \(labor not in this price\)$/m;
    expect(printed({})).toMatch(strips);
    expect(printed({})).not.toMatch(/^Remove .*paint or sealer/m);
    expect(printed({ area: halfOf(first) })).toMatch(strips);
    expect(printed({ area: halfOf(first) })).toMatch(/^Remove and dispose of the rest of the paint or sealer/m);
    const suspect = printed({ yearInstalled: 1965 });
    expect(suspect).toMatch(/^A licensed abatement contractor takes the paint or sealer off [\d,]+ sq ft \(not in this price\)$/m);
    expect(suspect).not.toMatch(/^Strip the paint/m);
  });

  it('does not list work whose line is left out of the price as ours', () => {
    const whole = wholeOf('26-029');
    const [room] = whole.job.rooms;
    const job = { ...whole.job, rooms: whole.job.rooms.map((one) => ({ ...one, flooring: 'bare-sealed' as const })) };
    const without = (...keys: readonly string[]): string => {
      const overrides = keys.map(
        (key): LineOverride => ({
          lineKey: `${room?.roomId}/${key}`,
          costMinor: null,
          priceMinor: null,
          leftOut: true,
          note: 'by the owner',
        }),
      );
      const estimate = { ...job.estimate, options: [], suggestedOptionId: null, overrides };
      return quoteOf({ ...whole, job: { ...job, estimate } });
    };
    const [all, bare] = [without(), without('disposal', 'sealer', 'bags')];
    expect(all).toMatch(/^Remove and dispose of the existing flooring/m);
    expect(all).toMatch(/^Seal [\d,]+ sq ft once the floor passes its moisture test$/m);
    // The labor line still has the hours of both.
    expect(bare).toMatch(/^Remove the existing flooring.* \(disposal not in this price\)$/m);
    expect(bare).toMatch(/^Seal [\d,]+ sq ft once the floor passes its moisture test \(material not in this price\)$/m);
    expect(bare).toMatch(/^Material: .* \(material not in this price\)$/m);
    expect(bare).not.toContain('Remove and dispose of the existing flooring');
    expect(without('disposal', 'labor-prep')).not.toMatch(/^Remove .*the existing flooring/m);
  });

  it('says who sands the high spots, and that left-out strip and dams are still set', () => {
    const whole = wholeOf('26-031');
    const [hall] = whole.job.rooms;
    const without = (...keys: readonly string[]): string => {
      const overrides = keys.map(
        (key): LineOverride => ({
          lineKey: `${hall?.roomId}/${key}`,
          costMinor: null,
          priceMinor: null,
          leftOut: true,
          note: 'the builder',
        }),
      );
      return quoteOf({ ...whole, job: { ...whole.job, estimate: { ...whole.job.estimate, overrides } } });
    };
    const [ours, theirs] = [without(), without('grind', 'edges')];
    expect(ours).toContain('In the hall we sand down the high spots by up to');
    expect(ours).toMatch(/Sanding first saves/);
    expect(theirs).toMatch(/In the hall once the high spots are sanded down by up to .+, we pour /);
    expect(theirs).toContain('High spots are sanded down before we pour (not in this price)');
    expect(theirs).not.toMatch(/Sanding first saves|we sand/);
    expect(theirs).toContain('et isolation strip along the walls (material not in this price)');
  });

  it('names the abrading that is priced', () => {
    const whole = wholeOf('26-022');
    const priced = readJob(whole, NOW).estimate.suggested.price.lines.filter(({ key }) => key.endsWith('/abrade'));
    expect(priced.length).toBeGreaterThan(0);
    for (const { quantityWords } of priced) expect(quoteOf(whole)).toContain(`Abrade ${quantityWords} of the surface`);
  });

  it('calls a floor wood only where wood stays', () => {
    const whole = wholeOf('26-024');
    const quoteWith = (fate: 'keep' | 'remove'): string => {
      const isWood = (material: string) => material === 'wood-flooring';
      const rooms = whole.rooms.map((room) => ({
        ...room,
        layers: room.layers.map((layer) => (isWood(layer.material) ? { ...layer, fate } : layer)),
      }));
      expect(rooms.some(({ layers }) => layers.some(({ material }) => isWood(material)))).toBe(true);
      return quoteOf({ ...whole, rooms });
    };
    expect(quoteWith('keep')).toContain('The wood floor is sound');
    expect(quoteWith('remove')).not.toContain('The wood floor is sound');
  });
});
