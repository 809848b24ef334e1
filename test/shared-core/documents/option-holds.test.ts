/** The open points of a quote with options. That a level floor holds water where it sloped to a drain is common practice, no source. */
import { expect, it } from 'vitest';
import type { EstimateChoices, JobRoom } from '../../../shared-core/book/job.ts';
import type { Circumstances, Layer } from '../../../shared-core/book/layer.ts';
import { draftQuote, issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import { openPoints } from '../../../shared-core/documents/open-holds.ts';
import { capital } from '../../../shared-core/measure/first-letter.ts';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { layer } from '../substrate/a-floor.ts';
import { family, NOW, ROOM } from './poured-family.ts';
import { sampleJob } from './sample-job.ts';
import { textOf } from './tree-text.ts';

const hall = sampleJob('26-031', NOW);
type Mode = JobRoom['level']['mode'];

/** The family room, which slopes to a drain, with an option beside its own way. */
function sloping(own: Mode, others: Readonly<Record<string, Mode>>, overrides: JobRoom['overrides'] = []): JobReading {
  const options = Object.entries(others).map(([name, mode], i): EstimateChoices['options'][number] => ({
    ...{ id: `option-${i}`, name },
    rooms: family.job.rooms.map(({ roomId, level }) => ({ roomId, level: { ...level, mode }, materialId: null })),
  }));
  const rooms = family.rooms.map((room) => ({ ...room, circumstances: { ...room.circumstances, slopeToDrain: true } }));
  const job = {
    ...family.job,
    rooms: family.job.rooms.map((room) => ({ ...room, overrides, level: { ...room.level, mode: own } })),
    estimate: { ...family.job.estimate, options },
  };
  return readJob({ ...family, rooms, job }, NOW);
}
const drainPoints = (reading: JobReading): readonly string[] =>
  openPoints(reading, NOW).holds.flatMap(({ roomId, text }) => (roomId === ROOM && /slope to drain/i.test(text) ? [text] : []));
const STANDS =
  'Slope to drain. A level floor would hold water. Follow the floor or use a ramp to keep the slope to the drain or the vehicle door, as local code asks.';

it('says which option would hold water, on the quote too', () => {
  const reading = sloping('follow', { 'Level without grinding': 'level' });
  expect(drainPoints(reading)).toEqual([`If you choose “Level without grinding”: ${STANDS}`]);
  expect(textOf(draftQuote(reading, NOW))).toContain(`If you choose “Level without grinding”: ${STANDS}`);
  // The job's own way is judged alike, and an option that keeps the slope has no open point.
  expect(drainPoints(sloping('level', { 'Keep the slope': 'follow' }))).toEqual([
    expect.stringMatching(/^If you choose “(?!Keep the slope)/),
  ]);
  expect(drainPoints(sloping('follow', { Thicker: 'follow' }))).toEqual([]);
});

it('says it once where every option would, and of an override which option it is for', () => {
  expect(drainPoints(sloping('level', { Thicker: 'level' }))).toEqual([STANDS]);
  const override = { key: 'fall-leveled', initials: 'RT', instant: NOW, why: 'The drain is abandoned.' };
  expect(drainPoints(sloping('follow', { Level: 'level' }, [override]))).toEqual([
    'We go ahead despite this: slope to drain, with “Level”. Our reason: The drain is abandoned.',
  ]);
});

// 1/8 in. on a slab and 3/8 in. over wood, typical of a fine underlayment: common practice, no source.
it('of an option thinner than the data sheet allows are no matter of the customer: the quote waits', () => {
  const [room] = hall.job.rooms;
  if (room === undefined) throw new Error('The job has the hall.');
  const thick = { ...room.level, leastThicknessM: 0.375 * 0.0254 };
  const thin: EstimateChoices['options'][number] = {
    ...{ id: 'option-thin', name: 'Thin' },
    rooms: [{ roomId: room.roomId, level: { ...thick, mode: 'follow', followThicknessM: 0.25 * 0.0254 }, materialId: null }],
  };
  const withOptions = (options: EstimateChoices['options'], overrides: JobRoom['overrides'] = []): JobReading => {
    const rooms = hall.job.rooms.map((one) => (one === room ? { ...one, level: thick, overrides } : one));
    return readJob({ ...hall, quotes: [], job: { ...hall.job, rooms, estimate: { ...hall.job.estimate, options } } }, NOW);
  };
  const issued = (reading: JobReading) => issueQuoteWithDocument(reading, { id: 'quote-one', instant: NOW, by: 'Owner', note: '' });
  expect(issued(withOptions([])).ok).toBe(true);
  const reading = withOptions([thin]);
  const { holds, stops } = openPoints(reading, NOW);
  expect(stops).toContainEqual('Hall, option “Thin”: too thin for the data sheet over this floor. Delete the option, then add it again.');
  expect(holds.filter(({ text }) => /at its thinnest|thicker/.test(text))).toEqual([]);
  expect(issued(reading)).toEqual({ ok: false, message: stops[0] });
});

// Common practice, no source: a customer is told what work cannot begin yet, whether or not it holds the pour itself.
it('says what holds work that the pour waits for, and nothing of what holds no work of this job', () => {
  const openOn = (title: string, change: Partial<Circumstances>, ...layers: readonly Layer[]): readonly string[] => {
    const rooms = hall.rooms.map((room) => ({
      ...{ ...room, layers: [...layers, layer('concrete-on-ground')], marks: [] },
      circumstances: { ...room.circumstances, ...change },
    }));
    const reading = readJob({ ...hall, rooms, property: { ...hall.property, yearBuilt: 1950 } }, NOW);
    expect(reading.rooms.flatMap(({ assessment }) => assessment.findings).some((one) => capital(one.title) === title)).toBe(true);
    return openPoints(reading, NOW).holds.flatMap(({ text }) => (text.startsWith(title) ? [text] : []));
  };
  expect(openOn('Paint on the floor', {}, layer('paint-or-sealer', { yearInstalled: null }))).toHaveLength(hall.rooms.length);
  // The baseboard is no line that the pour waits for.
  expect(openOn('Painted baseboard and trim', { paintedTrim: 'to-be-disturbed', baseboardHeightM: 0.3 })).toEqual([]);
});
