/** The stage of a room from an empty record to a floor handed over and cleared. Invented jobs. */
import { describe, expect, it } from 'vitest';
import type { JobBundle, RoomSummary } from '../../../shared-core/standing/job-bundle.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import { jobStanding, roomQuote, roomStanding } from '../../../shared-core/standing/room-standing.ts';
import { roomCure } from '../../../shared-core/standing/room-cure.ts';
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import { BUSINESS, bundle, pour, promised, quote, summary } from '../agenda/bundle-fixture.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const HALL = 'room-hall';

type Over = Partial<Omit<JobRoom, 'roomId'>>;
const hall = (over: Over = {}, sum: Partial<RoomSummary> = {}): JobBundle =>
  bundle({ id: 'a', rooms: [{ roomId: HALL, name: 'Hall', ...over }], summaries: [summary(HALL, sum)] });
const quoted = (b: JobBundle, state: 'issued' | 'accepted' | 'declined', until = '2026-06-01'): JobBundle => ({
  ...b,
  quotes: [quote(b, state, until)],
});
const placed = (b: JobBundle, lift = 1, lifts = lift): JobBundle => ({
  ...b,
  pours: [pour('pour0001', [HALL], '2026-05-01T13:00:00.000Z', '2026-05-01T16:00:00.000Z', lift, lifts)],
});
const stageOf = (b: JobBundle, now = NOW) => {
  const found = roomStanding(b, HALL, BUSINESS, now);
  if (found === null) throw new Error('The job has no hall.');
  return found;
};
const states = (b: JobBundle, now = NOW) => Object.fromEntries(stageOf(b, now).stages.map(({ stage, state }) => [stage, state]));
const step = (b: JobBundle, now = NOW) => nextStep(b, HALL, BUSINESS, now);

describe('the stage of a room', () => {
  it('has nothing done while nothing is on record, whatever screens were opened', () => {
    const empty: JobBundle = {
      ...hall({ flooring: null, materialId: null }, { planDrawn: false, readingsTaken: 0, prepTotal: 0, bags: null, lifts: null }),
    };
    const bare = { ...empty, rooms: empty.rooms.map((r) => ({ ...r, layers: [] })) };
    expect(stageOf(bare)).toMatchObject({ stage: 'assess', state: 'waiting', assessed: false, poured: 'none', quoted: 'none' });
    expect(stageOf(bare).assessGaps).toEqual(['outline', 'readings', 'layers', 'flooring']);
    expect(Object.values(states(bare))).not.toContain('done');
  });

  it('is not assessed while a test the floor needs is missing', () => {
    expect(stageOf(hall({}, { testsWanting: 1 }))).toMatchObject({ assessed: false, stage: 'assess', assessGaps: ['tests'] });
  });

  it('has no finished estimate while a reading in doubt holds it', () => {
    expect(states(hall({}, { unsettled: 'doubt' }))).toMatchObject({ estimate: 'held', quote: 'waiting' });
    expect(step(hall({}, { unsettled: 'doubt' }))?.sentence).toContain('in doubt');
    expect(states(hall({}, { unsettled: 'missing' }))).toMatchObject({ estimate: 'under-way' });
    expect(states(placed(hall({}, { unsettled: 'doubt' })))).toMatchObject({ estimate: 'done' });
  });

  it('needs an estimate and a quote before the prep is signed', () => {
    expect(stageOf(hall({}, { bags: null, prepOpen: 3 })).stage).toBe('estimate');
    expect(stageOf(hall({}, { prepOpen: 3 })).stage).toBe('quote');
    expect(stageOf(quoted(hall({}, { prepOpen: 3 }), 'accepted')).stage).toBe('prep');
    expect(stageOf(quoted(hall(), 'accepted')).stage).toBe('pour');
  });

  it('is quoted only by a quote that includes the room', () => {
    const two = bundle({
      id: 'a',
      rooms: [
        { roomId: HALL, name: 'Hall' },
        { roomId: 'room-den', name: 'Den' },
      ],
    });
    const onlyDen = quote({ ...two, job: { ...two.job, rooms: two.job.rooms.slice(1) } }, 'accepted', '2026-06-01');
    const rooms = jobStanding({ ...two, quotes: [onlyDen] }, BUSINESS, NOW).rooms;
    expect(rooms.map((r) => [r.name, r.quoted, r.stage])).toEqual([
      ['Hall', 'none', 'quote'],
      ['Den', 'accepted', 'pour'],
    ]);
  });

  it('lets a quote expire after its last valid day', () => {
    const q = quote(hall(), 'issued', '2026-05-12');
    // Midnight in New York.
    expect([roomQuote(q, HALL, '2026-05-13T03:59:00.000Z'), roomQuote(q, HALL, '2026-05-13T04:00:00.000Z')]).toEqual(['issued', 'expired']);
  });

  it('says of a job that was reopened whether its quote was declined or its contract canceled', () => {
    const sentenceOf = (...states: readonly ('accepted' | 'declined')[]) => {
      const history = states.map((state) => ({ state, instant: NOW, by: 'C', note: '' }));
      return step({ ...hall(), quotes: [{ ...quote(hall(), 'declined', '2026-06-01'), history }] })?.sentence;
    };
    expect(sentenceOf('declined')).toBe('The customer declined the quote.');
    expect(sentenceOf('accepted', 'declined')).toBe('The contract was canceled.');
  });

  it('is on hold by a finding at assess, prep and pour, never once poured', () => {
    const holds = [{ key: 'x', why: 'suspected asbestos', liftsOn: null }];
    const held = quoted(hall({}, { holds, prepOpen: 2 }), 'accepted');
    expect(states(held)).toMatchObject({ assess: 'held', prep: 'held', pour: 'held', quote: 'done', cure: 'waiting' });
    expect(step(held)).toMatchObject({ sentence: 'On hold: suspected asbestos.', action: { opens: 'assess' } });
    expect(stageOf(placed(held)).holds).toEqual([]);
  });

  it('stays at pour after lift 1 of 2, with no date for flooring', () => {
    const first = placed(quoted(hall({}, { lifts: 2 }), 'accepted'), 1, 2);
    expect(stageOf(first)).toMatchObject({ stage: 'pour', poured: 'part', curing: false, lifts: { placed: 1, planned: 2 } });
    expect(step(first)?.sentence).toBe('Lift 1 of 2 is placed. No pour date is set.');
    const facts = roomsOf(first)[0];
    const schedule = facts === undefined ? undefined : roomCure(first, facts, BUSINESS)?.schedule;
    expect(schedule?.milestones.map((m) => m.kind)).not.toContain('cover');
    expect(schedule?.cover).toBeNull();
    expect(schedule?.clearedFrom).toBeNull();
    expect(stageOf(placed(first, 2))).toMatchObject({ stage: 'cure', poured: 'whole' });
    // A date set for the day of the first pour was for that pour, even where the pour ended before its hour.
    const dated = (pourAt: string) => placed(quoted(hall({ pourAt }, { lifts: 2 }), 'accepted'), 1, 2);
    expect(step(dated('2026-05-01T19:00:00.000Z'))?.sentence).toContain('No pour date is set.');
    expect(step(dated('2026-05-14T19:00:00.000Z'))?.sentence).toContain('Pour planned for');
  });

  it('is cleared by a passed test and not by a date; handed over it still cures until then', () => {
    const cured = placed(quoted(hall({ handedOverAt: '2026-05-03T12:00:00.000Z' }), 'accepted'));
    const late = '2027-05-12T12:00:00.000Z';
    expect(stageOf(cured, late)).toMatchObject({ stage: 'cure', curing: true, cleared: false });
    expect(states(cured, late)).toMatchObject({ cure: 'under-way', handover: 'done' });
  });

  it('without flooring is cleared at the latest of its strength dates', () => {
    const bare = placed(quoted(hall({ flooring: null }), 'accepted'));
    const from = stageOf(bare).clearedFrom ?? '';
    expect(from > '2026-05-01T16:00:00.000Z').toBe(true);
    expect(stageOf(bare, from)).toMatchObject({ cleared: true, stage: 'handover' });
  });

  it('is complete for the job when every room is handed over and cleared', () => {
    const done = placed(quoted(hall({ flooring: null, handedOverAt: '2026-08-01T12:00:00.000Z' }), 'accepted'));
    expect(jobStanding(done, BUSINESS, '2026-09-01T12:00:00.000Z')).toMatchObject({
      complete: true,
      rooms: [{ stage: 'done', state: 'done' }],
    });
    expect(jobStanding(done, BUSINESS, '2026-05-02T12:00:00.000Z').complete).toBe(false);
  });
});

describe('the next step', () => {
  it('asks for outline, readings, tests in that order', () => {
    expect(step(hall({}, { planDrawn: false }))?.action?.label).toBe('Draw the room');
    expect(step(hall({}, { readingsTaken: 2 }))?.action?.label).toBe('Add readings');
    expect(step(hall({}, { testsWanting: 2 }))?.action?.label).toBe('Enter a test');
  });

  it('waits for open prep, a drying primer, a primer past its limit', () => {
    const stepWith = (over: Over, sum = {}) => step(quoted(hall({ pourAt: '2026-05-12T13:40:00.000Z', ...over }, sum), 'accepted'));
    expect(stepWith({}, { prepOpen: 2, prepNext: 'seal the gaps' })?.sentence).toBe('2 of 8 prep lines not signed. Next: seal the gaps.');
    expect(stepWith({ primedAt: '2026-05-12T10:40:00.000Z' })).toMatchObject({ sentence: 'The primer is dry at 8:40 am.', action: null });
    expect(stepWith({ primedAt: '2026-05-10T10:40:00.000Z' })?.sentence).toBe('The primer is past its limit.');
    expect(stepWith({})?.sentence).toBe('Pour planned for Tuesday, May 12, 9:40 am.');
  });

  it('does not read the primer under a placed lift', () => {
    const lift2 = (primedAt: string) =>
      step(placed(quoted(hall({ pourAt: '2026-05-12T13:40:00.000Z', primedAt }, { lifts: 2 }), 'accepted'), 1, 2))?.sentence;
    expect(lift2('2026-05-01T12:00:00.000Z')).toBe('Lift 1 of 2 is placed. Pour planned for Tuesday, May 12, 9:40 am.');
    expect(lift2('2026-05-10T12:00:00.000Z')).toBe('Lift 1 of 2 is placed. The primer is past its limit.');
  });

  it('follows the quote', () => {
    const label = (b: JobBundle) => step(b)?.action?.label;
    expect(label(hall())).toBe('Issue the quote');
    expect(label(quoted(hall(), 'issued', '2026-05-12'))).toBe('Record the decision');
    expect(label(quoted(hall(), 'issued', '2026-05-11'))).toBe('Issue a revision');
    expect(label(quoted(hall(), 'accepted'))).toBe('Set the pour date');
  });

  it('offers a new promised date when the cure breaks one, then the test', () => {
    const cured = (promisedFor: string): JobBundle => ({
      ...placed(quoted(hall(), 'accepted')),
      promises: [promised('prom0001', HALL, promisedFor)],
    });
    expect(step(cured('2026-05-10T16:00:00.000Z'))?.action?.label).toMatch(/^Promise May \d+$/);
    const inTime = cured('2026-06-10T16:00:00.000Z');
    expect(step(inTime, '2026-05-02T12:00:00.000Z')?.action?.label).toBe('Enter a reading');
    expect(step(inTime, '2026-05-15T12:00:00.000Z')?.sentence).toBe('Test the hall before glued wood.');
  });

  it('is null for a room the job does not have', () => {
    expect(nextStep(hall(), 'room-z', BUSINESS, NOW)).toBeNull();
  });
});
