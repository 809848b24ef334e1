/** The ballpark is a range with its basis, on one page, without promises. */
import { describe, expect, it } from 'vitest';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { ballparkSheet, missingForBallpark } from '../../../shared-core/documents/ballpark-sheet.ts';
import { documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const found = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.id === 'sample-job-odell');
if (found === undefined) throw new Error('The sample has this job.');
const rough = { kind: 'gap', gapM: 0.0095, levelLengthM: 1.8288 } as const;
const unread = (whole: WholeJob): WholeJob => ({
  ...whole,
  rooms: whole.rooms.map((room) => ({ ...room, ballpark: rough, survey: { ...room.survey, readings: [] } })),
});
const whole = unread(found);
const textOf = (of: WholeJob): string =>
  JSON.stringify(ballparkSheet({ reading: readJob(of, NOW), photos: [], now: NOW, revision: 1, changes: [] }));

describe('a ballpark', () => {
  it('gives the range of the estimate, its basis, and no fixed price', () => {
    const reading = readJob(whole, NOW);
    const { price } = reading.estimate.base;
    const text = textOf(whole);
    expect(documentTreeSchema.safeParse(JSON.parse(text)).error).toBeUndefined();
    const dollars = (minor: number): string => `$${Math.round(minor / 100).toLocaleString('en-US')}`;
    expect(text).toContain(`${dollars(price.range.leastMinor)} to ${dollars(price.range.mostMinor)}`);
    expect(text).toContain('gap under a level 6′ 0″ long');
    expect(text).toContain('It is not an offer.');
    for (const claim of ['We measured', 'We promise', 'Valid until', 'signature']) expect(text).not.toContain(claim);
    expect(price.range.mostMinor).toBeGreaterThan(1.1 * price.range.leastMinor);
  });

  it('is still given for floors with readings in one corner, and says how many', () => {
    const corner: WholeJob = {
      ...found,
      rooms: found.rooms.map((room) => {
        const readings = [...room.survey.readings].sort((a, b) => a.xM + a.yM - b.xM - b.yM).slice(0, 6);
        return { ...room, survey: { ...room.survey, readings } };
      }),
    };
    expect(missingForBallpark(readJob(found, NOW))).toBe('Every room is measured. Issue a quote instead.');
    expect(missingForBallpark(readJob(corner, NOW))).toBeNull();
    expect(textOf(corner)).toContain('6 readings on part of the floor');
    expect(textOf(corner)).toContain('not fully measured yet.');
  });

  it('starts at the minimum charge, and is that one figure where the work does not reach it', () => {
    const { range } = readJob(whole, NOW).estimate.base.price;
    const { pricing } = whole.business;
    const charging = (minimumChargeMinor: number): WholeJob => ({
      ...whole,
      business: { ...whole.business, pricing: { ...pricing, minimumChargeMinor } },
    });
    const rangeAt = (minimumChargeMinor: number) => readJob(charging(minimumChargeMinor), NOW).estimate.base.price.range;
    expect(pricing.minimumChargeMinor).toBeLessThan(range.leastMinor);
    const between = Math.round((range.leastMinor + range.mostMinor) / 2);
    expect(rangeAt(between)).toEqual({ leastMinor: between, mostMinor: range.mostMinor });
    const above = Math.ceil(range.mostMinor / 100_00 + 1) * 100_00;
    expect(rangeAt(above)).toEqual({ leastMinor: above, mostMinor: above });
    expect(textOf(charging(above))).toContain(`"figure":"$${(above / 100).toLocaleString('en-US')}"`);
  });

  it('lists primer and removal as not included only while they are not priced', () => {
    const rest = 'asbestos, lead, structural or plumbing work, and new flooring.';
    const withRooms = (primerId: string | null, fate: 'keep' | 'remove'): WholeJob => ({
      ...whole,
      materials: whole.materials.map((m) => (m.kind === 'primer' ? { ...m, typical: true } : m)),
      job: { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, primerId })) },
      rooms: whole.rooms.map((room) => ({
        ...room,
        tests: [],
        layers: (['carpet', 'plywood'] as const).map((material, i) => ({
          ...{ id: `layer-000${i}`, material, thicknessM: null, yearInstalled: null, sound: 'unknown' as const },
          ...{ fate: i === 0 ? fate : ('keep' as const), area: null, note: '' },
        })),
      })),
    });
    const wood = whole.materials.find(({ primer }) => primer.some(({ substrate }) => substrate === 'wood'));
    if (wood === undefined) throw new Error('The sample has a primer for wood.');
    const priced = textOf(withRooms(wood.id, 'remove'));
    expect(priced).toContain(`Not included: ${rest}`);
    expect(priced).toContain('Primer: typical for the surface of the floor.');
    expect(priced).toContain('Removal and disposal of the old carpet.');
    const bare = textOf(withRooms(null, 'keep'));
    expect(bare).toContain(`Not included: primer, removal of old flooring, ${rest}`);
    for (const words of ['Primer:', 'Removal and disposal']) expect(bare).not.toContain(words);
  });

  it('says which floors are measured, and asks nobody about flooring that is not there', () => {
    const [first, second] = found.rooms;
    if (first === undefined || second === undefined) throw new Error('The job has two rooms.');
    const slab = { ...{ id: 'layer-0000', thicknessM: null, yearInstalled: null, sound: 'unknown' as const }, area: null, note: '' };
    const text = textOf({
      ...found,
      rooms: found.rooms.map((room) => ({
        ...(room.id === first.id ? { ...room, ballpark: rough, survey: { ...room.survey, readings: [] } } : room),
        ...{ tests: [], layers: [{ ...slab, material: 'concrete-on-ground' as const, fate: 'keep' as const }] },
      })),
    });
    expect(text).toContain(`It is not an offer. The ${first.name.toLowerCase()} is not measured yet.`);
    expect(text).toContain('"Measured"');
    expect(text).not.toContain('removal of old flooring');
    expect(text).not.toMatch(/"(\d+) to \1"/);
  });

  it('names what is missing: a name, a material, or that the floor is already measured', () => {
    expect(missingForBallpark(readJob(whole, NOW))).toBeNull();
    expect(missingForBallpark(readJob({ ...whole, business: { ...whole.business, name: '', ownerName: '' } }, NOW))).toBe(
      'Enter your business name.',
    );
    const bare = { ...whole, job: { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, materialId: null })) } };
    expect(missingForBallpark(readJob(bare, NOW))).toContain('choose a material');
    expect(missingForBallpark(readJob(found, NOW))).toContain('Issue a quote');
  });
});
