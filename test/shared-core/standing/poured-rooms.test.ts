/** A floor that is poured whole, as the screens before the pour show it afterward, in the sample's own jobs. */
import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';

const NOW = '2026-05-12T15:05:00.000Z';
const readings = wholeJobsOf(sampleAt(NOW)).map((whole) => readJob(whole, NOW));
const pouredWhole = readings.flatMap((reading) =>
  reading.rooms.flatMap((at) => {
    const standing = reading.standing.rooms.find((r) => r.roomId === at.room.id);
    return standing?.poured === 'whole' ? [{ reading, at, standing }] : [];
  }),
);

describe('a floor poured whole', () => {
  it('is in the sample', () => {
    expect(pouredWhole.length).toBeGreaterThan(3);
  });

  it.each(pouredWhole.map((one) => [one.at.room.name, one] as const))('%s: nothing is on hold, and no primer runs out', (_, { at }) => {
    expect(at.preparation.holds).toEqual([]);
    expect(at.preparation.clock).toBeNull();
    expect(at.assessment.findings.flatMap((f) => (f.verdict === 'hold' ? [f.key] : []))).toEqual([]);
    expect(at.assessment.needs.filter((need) => need.state !== 'enough').map((need) => need.id)).toEqual([]);
  });

  it('asks for no primer again, even where the primer was signed after the pour', () => {
    const [one] = pouredWhole;
    if (one === undefined) throw new Error('The sample has a poured floor.');
    const { whole } = one.reading;
    const rooms = whole.job.rooms.map((room) => ({ ...room, primedAt: NOW }));
    const late = readJob({ ...whole, job: { ...whole.job, rooms } }, NOW);
    const { entries } = agenda([late.bundle], whole.business, null);
    const floors = new Set(late.standing.rooms.filter((r) => r.poured === 'whole').map((r) => r.roomId));
    expect(entries.filter((e) => e.kind === 'primer-window' && e.roomIds.some((id) => floors.has(id)))).toEqual([]);
  });
});

describe('the quote that a pour waits for', () => {
  it('is one with the room in it', () => {
    const quoted = readings.find(({ whole }) => whole.quotes.some((q) => q.state === 'accepted') && whole.job.rooms.length > 1);
    const spare = readings.find((r) => r !== quoted && r.whole.pours.length === 0)?.whole.job.rooms[0];
    const extra = readings.flatMap((r) => r.whole.rooms).find((r) => r.id === spare?.roomId);
    if (quoted === undefined || spare === undefined || extra === undefined) throw new Error('The sample has such jobs.');
    const { whole } = quoted;
    const wider = readJob({ ...whole, rooms: [...whole.rooms, extra], job: { ...whole.job, rooms: [...whole.job.rooms, spare] } }, NOW);
    const held = (roomId: string) =>
      wider.rooms.find((r) => r.room.id === roomId)?.preparation.holds.some((hold) => hold.by === 'quote') ?? false;
    expect(held(extra.id)).toBe(true);
    expect(whole.job.rooms.map((room) => held(room.roomId))).not.toContain(true);
  });
});
