import { describe, expect, it } from 'vitest';
import type { Room } from '../../../shared-core/book/room.ts';
import { stagingOf } from '../../../shared-core/documents/staging.ts';
import { lastLines } from '../../../renderer/stages/pour/last-lines.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
import { sampleAt } from '../../sample-at.ts';
import { layer } from '../../shared-core/substrate/a-floor.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const whole = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.id === 'sample-job-lindqvist');
if (whole === undefined) throw new Error('The sample has the job that is poured today.');

function linesOf(update: (room: Room) => Room): readonly string[] {
  const reading = readJob({ ...whole!, pours: [], pourEvents: [], rooms: whole!.rooms.map(update) }, NOW);
  const read = readPour(reading, ['sample-family'], null);
  if (!read.ok) throw new Error('It can be laid out.');
  return lastLines(read.value, 'us', 'en-US').map(({ text }) => text);
}
const heated = (radiantHeat: Room['circumstances']['radiantHeat']) => (room: Room) => ({
  ...room,
  circumstances: { ...room.circumstances, radiantHeat },
});

describe('the pre-pour checklist', () => {
  // Common practice, no source: a warm floor draws water out of the mix.
  it('asks for the radiant heat to be off, whether it was entered as a condition or as a layer', () => {
    expect(linesOf(heated('in-floor'))).toContainEqual(expect.stringMatching(/^Radiant heat off/));
    expect(linesOf(heated('electric-in-pour'))).toContainEqual(expect.stringMatching(/^Radiant heat off/));
    const asLayer = (room: Room) => ({ ...heated(null)(room), layers: [...room.layers, layer('radiant-heating')] });
    expect(linesOf(asLayer)).toContainEqual(expect.stringMatching(/^Radiant heat off/));
    expect(linesOf(heated('none'))).not.toContainEqual(expect.stringMatching(/^Radiant heat/));
  });

  it('counts the buckets of water that the staging list has filled ahead', () => {
    const read = readPour(readJob({ ...whole, pours: [], pourEvents: [] }, NOW), ['sample-family'], null);
    if (!read.ok || !read.value.layout.ok) throw new Error('It can be laid out.');
    const { first, material } = read.value;
    const choice = {
      units: 'us' as const,
      locale: 'en-US',
      bagsOnSite: 40,
      aggregateKg: 0,
      onJoists: false,
      nothingStuckIn: false,
      onGenerator: false,
    };
    const staged = stagingOf(read.value.layout.value, first.crew, material.powder, choice).find(({ key }) => key === 'water');
    expect(staged?.words).toMatch(/^\d+ buckets of measured water/);
    expect(linesOf((room) => room)).toContainEqual(expect.stringMatching(new RegExp(`^${staged?.count} buckets of measured water`)));
  });
});
