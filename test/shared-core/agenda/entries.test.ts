import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import type { JobBundle } from '../../../shared-core/standing/job-bundle.ts';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { dayList } from '../../../shared-core/agenda/day-list.ts';
import { remindersDue, remindersOf } from '../../../shared-core/agenda/reminders.ts';
import type { ClearanceTest, Promised } from '../../../shared-core/book/cure-record.ts';
import { newCustomer, newLead } from '../../../shared-core/book/new-records.ts';
import { leadList } from '../../../shared-core/agenda/lead-list.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import { summarySentence, todayList } from '../../../shared-core/agenda/today.ts';
import { cover, SHEET } from '../cure/sheet-fixture.ts';
import { BUSINESS, bundle, pour, POWDER, promised, quote, room, summary, visit } from './bundle-fixture.ts';
import { threeTests } from '../cure/sheet-fixture.ts';

const NOW = '2026-05-12T11:05:00.000Z'; // 7:05 am in New York.
const accepted = (of: JobBundle): JobBundle => ({ ...of, quotes: [quote(of, 'accepted', '2026-05-01')] });
const read = (...bundles: JobBundle[]) => agenda(bundles, BUSINESS, null);
const lines = (...bundles: JobBundle[]) =>
  todayList(read(...bundles), NOW).map((l) => `${l.letter} ${l.entry.verb} ${l.entry.rest} [${l.when}]`);

describe('today', () => {
  const pouring = accepted(
    bundle({
      id: 'a',
      rooms: [{ roomId: 'room-a', name: 'Family room', pourAt: '2026-05-12T13:40:00.000Z', primedAt: '2026-05-12T11:40:00.000Z' }],
    }),
  );

  it('puts the pour first, with its hours, its primer, its bags and helpers', () => {
    const list = todayList(read(pouring), NOW);
    expect(lines(pouring)[0]).toBe('A Pour the Lindqvists’ family room, 9:40 am to 2:15 pm. [9:40 am]');
    expect(list[0]?.entry.note).toBe(
      'Primer is dry from Tue, May 12, 9:40 am and past its limit from Wed, May 13, 7:40 am. 50 bags. 2 helpers. Arrive by 8:45 am.',
    );
    expect(list[0]?.entry.opens).toEqual({ jobId: 'job-a', roomId: 'room-a', stage: 'pour' });
  });

  it('says at the pour how many prep lines are not signed, and nothing once they are or it runs', () => {
    const ROOMS = [
      { roomId: 'room-a', name: 'Den', pourAt: '2026-05-13T13:00:00.000Z' },
      { roomId: 'room-b', name: 'Kitchen', pourAt: '2026-05-13T13:00:00.000Z' },
    ];
    const unsigned = (den: number, kitchen: number, pours: JobBundle['pours'] = []) => {
      const summaries = [summary('room-a', { prepOpen: den }), summary('room-b', { prepOpen: kitchen })];
      return todayList(read(accepted(bundle({ id: 'a', rooms: ROOMS, pours, summaries }))), NOW)[0]?.entry.note ?? '';
    };
    // Eight lines in each room of the fixture.
    expect(unsigned(6, 0)).toMatch(/Arrive by 8:05 am\. 6 of 16 prep lines not signed\.$/);
    expect(unsigned(6, 3)).toContain('9 of 16 prep lines not signed.');
    expect(unsigned(0, 0)).not.toContain('prep');
    expect(unsigned(6, 0, [pour('pour0001', ['room-a', 'room-b'], '2026-05-12T11:00:00.000Z', null)])).not.toContain('prep');
  });

  it('names the next prep line at the prep visit, also once some are signed', () => {
    const job = { prepVisitAt: '2026-05-13T13:00:00.000Z' };
    const summaries = [summary('room-a', { prepOpen: 2, prepNext: 'stage bags' })];
    const entries = read(accepted(bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Den' }], job, summaries }))).entries;
    expect(entries.find(({ kind }) => kind === 'prep-visit')?.note).toBe('Next: stage bags.');
  });

  it('asks for a pour date in an accepted room that has none and nothing holds, on Today alone and never late', () => {
    const rooms = (over: object = {}) => [
      { roomId: 'room-a', name: 'Den', ...over },
      { roomId: 'room-b', name: 'Kitchen', pourAt: '2026-05-15T13:00:00.000Z' },
    ];
    const job = bundle({ id: 'a', rooms: rooms() });
    const dated = (of: JobBundle, at: string): JobBundle => {
      const history = [{ state: 'accepted' as const, instant: at, by: 'Ida', note: '' }];
      return { ...of, quotes: [{ ...quote(of, 'accepted', '2026-05-20'), history }] };
    };
    const asked = (of: JobBundle) => lines(of).filter((line) => line.includes('pour date'));
    const waiting = dated(job, '2026-05-09T16:00:00.000Z');
    expect(asked(waiting)).toEqual(['A Set a pour date for the Lindqvists’ den. [since Saturday]']);
    expect(asked(dated(job, '2026-05-12T11:00:00.000Z'))[0]).toContain('[today]');
    expect(asked({ ...job, quotes: [quote(job, 'issued', '2026-05-20')] })).toEqual([]);
    expect(asked(accepted(bundle({ id: 'a', rooms: rooms({ pourAt: '2026-05-14T13:00:00.000Z' }) })))).toEqual([]);
    const holds = [{ key: 'deposit', why: 'the deposit is not received', liftsOn: null }];
    const held = bundle({ id: 'a', rooms: rooms(), summaries: [summary('room-a', { holds }), summary('room-b')] });
    expect(asked(accepted(held))).toEqual([]);
    // A room that the contract does not have.
    const [base] = waiting.quotes;
    const added = {
      ...bundle({ id: 'a', rooms: [...rooms(), { roomId: 'room-c', name: 'Hall' }] }),
      quotes: base === undefined ? [] : [base],
    };
    expect(asked(added)).toEqual(['A Set a pour date for the Lindqvists’ den. [since Saturday]']);

    const whole = read(waiting);
    // It waits since Saturday, so it is on the list and not due today.
    expect(summarySentence(whole, [], NOW)).toBe('Nothing is due today.');
    const titles = dayList(whole, NOW, 1, 100).groups.map(({ called, lines: all }) => [called, ...all.map(({ entry }) => entry.kind)]);
    expect(titles).toEqual([['Today, Tuesday, May 12', 'pour-date']]);
    expect(remindersOf(whole).some(({ entry }) => entry.kind === 'pour-date')).toBe(false);
    const { events } = calendarFeed(whole.entries, [], () => null, NOW);
    expect(events.length).toBeGreaterThan(0);
    expect(events.some(({ summary: title }) => title.includes('pour date'))).toBe(false);
  });

  it('says nothing of the primer under the lift placed before', () => {
    const first = pour('pour0001', ['room-a'], '2026-05-11T14:00:00.000Z', '2026-05-11T16:00:00.000Z', 1, 2);
    const note = (primedAt: string) =>
      todayList(
        read(
          accepted(
            bundle({
              id: 'a',
              rooms: [{ roomId: 'room-a', name: 'Family room', pourAt: '2026-05-12T13:40:00.000Z', primedAt }],
              pours: [first],
              summaries: [summary('room-a', { lifts: 2 })],
            }),
          ),
        ),
        NOW,
      ).find(({ entry }) => entry.kind === 'pour')?.entry.note;
    expect(note('2026-05-11T12:00:00.000Z')).toMatch(/^\d+ bags\. 2 helpers\./);
    expect(note('2026-05-12T11:40:00.000Z')).toContain('Primer is dry from Tue, May 12, 9:40 am');
  });

  it('orders the pour, then the hours of today, then what is late, then the days to come', () => {
    const handover = accepted(
      bundle({
        id: 'b',
        customer: 'Adaeze Abara, Jonas Finch',
        line: '117 Sallow Lane',
        rooms: [{ roomId: 'room-b', name: 'Hall', pourAt: '2026-06-25T13:00:00.000Z' }],
        job: { handoverAt: '2026-05-12T21:30:00.000Z' },
      }),
    );
    const late = bundle({
      id: 'c',
      customer: 'Odell',
      rooms: [{ roomId: 'room-c', name: 'Hall' }],
      job: { quotePromisedOn: '2026-05-11' },
      summaries: [summary('room-c', { bags: null })],
    });
    const ringing = bundle({ id: 'd', customer: 'Dale Tremaine' });
    const ring = { ...ringing, quotes: [quote(ringing, 'issued', '2026-05-15')] };
    const kitchen = {
      ...room('room-e', 'prop-e', 'Kitchen'),
      tests: [
        {
          id: 'labo0001',
          kind: 'lab' as const,
          takenAt: '2026-05-05T12:00:00.000Z',
          by: 'RT',
          point: null,
          note: '',
          question: 'asbestos' as const,
          layerId: null,
          state: 'sent' as const,
          lab: '',
          sample: '',
          resultOn: null,
          dueOn: '2026-05-15',
        },
      ],
    };
    const lab = {
      ...bundle({ id: 'e', customer: 'Rusk', rooms: [{ roomId: 'room-e', name: 'Kitchen' }] }),
      rooms: [kitchen],
    };
    expect(lines(lab, late, ring, handover, pouring)).toEqual([
      'A Pour the Lindqvists’ family room, 9:40 am to 2:15 pm. [9:40 am]',
      'B Hand over the floors at 117 Sallow Lane to Adaeze Abara, Jonas Finch. [5:30 pm]',
      'C Finish Odell’s quote. Not priced yet: hall. [late, promised Monday]',
      'D Call Dale Tremaine. The quote expires at the end of the day. [Friday]',
      'E Enter the lab result for Rusk’s kitchen. [Friday]',
    ]);
  });

  it('lists a promise that will be late before what is late already, because its customer can still be told in time', () => {
    const hall = 'room-p';
    const curing = bundle({
      id: 'p',
      rooms: [{ roomId: hall, name: 'Hall' }],
      pours: [pour('pour-p', [hall], '2026-05-12T08:00:00.000Z', '2026-05-12T10:00:00.000Z')],
      promises: [promised('prom-p', hall, '2026-05-14T20:00:00.000Z')],
      summaries: [summary(hall)],
    });
    const late = bundle({
      id: 'q',
      customer: 'Odell',
      rooms: [{ roomId: 'room-q', name: 'Hall' }],
      job: { quotePromisedOn: '2026-05-11' },
    });
    const lateLines = lines(late, accepted(curing));
    expect(lateLines[0]).toMatch(/^A Call about the Lindqvists’ promised date for .*\. Likely .* late\. \[promised Thursday, in 2 days\]$/);
    expect(lateLines[1]).toContain('[late, promised Monday]');
  });

  it('drops a lab that has replied and a quote that was issued', () => {
    const base = bundle({ id: 'f', job: { quotePromisedOn: '2026-05-11' } });
    expect(lines({ ...base, quotes: [quote(base, 'accepted', '2026-06-01')] })).toEqual([
      'A Set a pour date for the Lindqvists’ family room. [since May 1]',
    ]);
  });

  it('leaves out an archived or declined job, and keeps a finished one until its return visits', () => {
    const when = '2026-05-13T14:00:00.000Z';
    const with_ = (state: 'declined' | 'finished') =>
      bundle({
        id: 'g',
        rooms: [{ roomId: 'room-g', name: 'Hall', pourAt: when }],
        job: { state, handoverAt: when },
        visits: [visit('visi0001', 'thirty-days', when, ['room-g'])],
      });
    expect(lines(with_('declined'))).toEqual([]);
    expect(lines(with_('finished'))).toEqual(['A Revisit the Lindqvists’ hall after the pour. [tomorrow]']);
  });

  it('lists a promise that the cure can no longer meet, and a test that is due', () => {
    const done = accepted(
      bundle({
        id: 'a',
        rooms: [{ roomId: 'room-a', name: 'Hall' }],
        pours: [pour('pour0001', ['room-a'], '2026-05-01T13:00:00.000Z', '2026-05-01T16:00:00.000Z')],
        promises: [promised('prom0001', 'room-a', '2026-05-10T16:00:00.000Z')],
      }),
    );
    expect(lines(done)).toEqual([
      'A Call about the Lindqvists’ promised date for glued wood. Likely 4 days late. [late, promised Sunday]',
      'B Test the Lindqvists’ hall before glued wood. Start it by Fri, May 15, read it by Tue, May 19. [Friday]',
    ]);
  });

  it('keeps asking about a promise between two lifts, by the date of the second where it has one', () => {
    const lift = (pourAt: string | null) =>
      accepted(
        bundle({
          id: 'a',
          rooms: [{ roomId: 'room-a', name: 'Hall', pourAt }],
          pours: [pour('pour0001', ['room-a'], '2026-05-11T13:00:00.000Z', '2026-05-11T16:00:00.000Z', 1, 2)],
          promises: [promised('prom0001', 'room-a', '2026-06-03T11:00:00.000Z')],
          summaries: [summary('room-a', { lifts: 2 })],
        }),
      );
    const calls = (pourAt: string | null) => lines(lift(pourAt)).filter((line) => line.includes('Call about'));
    expect(calls(null)[0]).toContain('promised date for glued wood. There is no date until the rest of the floor is planned.');
    expect(calls('2026-06-05T13:00:00.000Z')[0]).toMatch(/promised date for glued wood\. Likely \d+ days late\./);
    expect(calls('2026-05-14T13:00:00.000Z')).toEqual([]);
  });

  const HALL = { roomId: 'room-a', name: 'Hall' };
  const POURED = [pour('pour0001', ['room-a'], '2026-05-01T13:00:00.000Z', '2026-05-01T16:00:00.000Z')];
  const passedOn = (takenAt: string): ClearanceTest[] => threeTests({ jobId: 'a', roomId: 'room-a', takenAt });

  it('owes no promised date once the floor has passed its test, and says on that day that it is cleared', () => {
    const late = accepted(
      bundle({ id: 'a', rooms: [HALL], pours: POURED, promises: [promised('prom0001', 'room-a', '2026-05-10T16:00:00.000Z')] }),
    );
    expect(lines(late)[0]).toContain('Call about');
    const cleared = { ...late, clearanceTests: passedOn('2026-05-11T14:00:00.000Z') };
    expect(lines(cleared)).toEqual(['A Set a handover date for the Lindqvists’ hall. [since Monday]']);
    const covers = read(cleared).entries.filter((entry) => entry.kind === 'cover');
    expect(covers.map(({ title, verb, rest }) => `${title} | ${verb} ${rest}`)).toEqual([
      'Hall, Lindqvist: cleared for glued wood | Cleared the Lindqvists’ hall for glued wood.',
    ]);
    expect(dayOfInstant(covers[0]?.instant ?? '', 'America/New_York')).toBe('2026-05-11');
    expect(dayList(read(cleared), NOW, 30, 100).groups.flatMap(({ lines: days }) => days.map(({ entry }) => entry.kind))).toEqual([
      'handover-date',
    ]);
  });

  it('owes no promised foot traffic once the floor is open to it, though it was late', () => {
    const walkOn: Promised = { ...promised('prom0001', 'room-a', '2026-05-01T17:00:00.000Z'), milestone: 'walk-on', flooring: null };
    const late = accepted(bundle({ id: 'a', rooms: [HALL], pours: POURED, promises: [walkOn] }));
    const promiseAt = (now: string) => {
      const listed = todayList(read(late), now).filter(({ entry }) => entry.kind === 'promise');
      const due = remindersDue(remindersOf(read(late)), '', now, new Set()).filter(({ entry }) => entry.kind === 'promise');
      return [listed.length, due.length, nextStep(late, 'room-a', BUSINESS, now)?.action?.label];
    };
    // The fixture's data sheet: 4 to 6 hours at 20 °C, so an hour was too soon.
    expect(promiseAt('2026-05-01T18:00:00.000Z')).toEqual([1, 1, 'Promise May 2, 7 am']);
    expect(promiseAt('2026-05-02T14:00:00.000Z')).toEqual([0, 0, 'Enter a reading']);
    // A planned pour reaches nothing.
    const planned = {
      ...late,
      pours: [],
      job: { ...late.job, rooms: late.job.rooms.map((r) => ({ ...r, pourAt: '2026-05-01T13:00:00.000Z' })) },
    };
    expect(todayList(read(planned), '2026-05-04T14:00:00.000Z').some(({ entry }) => entry.kind === 'promise')).toBe(true);
  });

  it('opens a floor to foot traffic at an hour, and asks for its readings while it has none after the pour', () => {
    const poured = accepted(
      bundle({
        id: 'a',
        rooms: [{ roomId: 'room-a', name: 'Hall' }],
        pours: [pour('pour0001', ['room-a'], '2026-05-12T09:00:00.000Z', '2026-05-12T10:00:00.000Z')],
      }),
    );
    const of = (one: JobBundle, kind: string) => read(one).entries.filter((entry) => entry.kind === kind);
    const [walkOn] = of(poured, 'walk-on');
    expect(walkOn).toMatchObject({
      verb: 'Open',
      rest: 'the Lindqvists’ hall to foot traffic.',
      note: 'Flatness readings can start then.',
      toDo: false,
    });
    // The data sheet of the fixture: 4 to 6 hours at 20 °C; nothing is open before the shortest.
    expect(Date.parse(walkOn?.instant ?? '') - Date.parse('2026-05-12T10:00:00.000Z')).toBeGreaterThanOrEqual(4 * 3_600_000);
    const after = { method: 'height' as const, takenAt: '2026-05-12T17:00:00.000Z', readings: [], readingErrorM: 0.0015 };
    const surveyed = { ...poured, rooms: poured.rooms.map((one) => ({ ...one, surveyAfter: after })) };
    expect(of(surveyed, 'walk-on')[0]?.note).toBeNull();
    const planned = accepted(bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: '2026-05-13T13:00:00.000Z' }] }));
    expect(of(planned, 'walk-on')[0]?.note).toBeNull();
    // A test is asked for once there is a floor to test.
    expect(of(planned, 'clearance-test')).toEqual([]);
    expect(of(planned, 'cover')).toHaveLength(1);
    expect(of(poured, 'clearance-test')).toHaveLength(1);
  });

  it('starts a moisture test on a working day after the pour, never on its day', () => {
    const quick = { ...POWDER, powder: { ...SHEET, milestones: [...SHEET.milestones, cover('resilient', 0.01, 0.5, 0.7)] } };
    const poured = accepted(
      bundle({
        id: 'a',
        rooms: [{ roomId: 'room-a', name: 'Hall', flooring: 'resilient' }],
        // Friday before Labor Day, September 7, 2026 (5 U.S.C. 6103).
        pours: [pour('pour0001', ['room-a'], '2026-09-04T14:00:00.000Z', '2026-09-04T17:00:00.000Z')].map((one) => ({
          ...one,
          asPoured: { ...one.asPoured, material: quick },
        })),
      }),
    );
    const days = read(poured).entries.flatMap(({ kind, instant }) =>
      kind === 'clearance-test' || kind === 'cover' ? [`${kind} ${dayOfInstant(instant, 'America/New_York')}`] : [],
    );
    expect(days).toEqual(['clearance-test 2026-09-08', 'cover 2026-09-11']);
  });

  it('summarizes the company', () => {
    const held = bundle({
      id: 'h',
      summaries: [summary('room-h', { holds: [{ key: 'x', why: 'suspected asbestos', liftsOn: '2026-05-15' }] })],
    });
    const curing = bundle({
      id: 'a',
      rooms: [{ roomId: 'room-a', name: 'Hall' }],
      pours: [pour('pour0001', ['room-a'], '2026-05-11T13:00:00.000Z', '2026-05-11T16:00:00.000Z')],
    });
    expect(summarySentence(read(held, curing), [], NOW)).toBe('1 room is curing. 1 room is on hold.');
    expect(summarySentence(read(), [], NOW)).toBe('Nothing is due.');
    const pourOn = (pourAt: string) => read(bundle({ id: 'p', rooms: [{ roomId: 'room-p', name: 'Den', pourAt }] }));
    expect(summarySentence(pourOn('2026-05-12T18:00:00.000Z'), [], NOW)).toBe('1 item is due today.');
    expect(summarySentence(pourOn('2026-05-13T18:00:00.000Z'), [], NOW)).toBe('Nothing is due today.');
  });

  it('counts the leads whose next step is late or within the week', () => {
    const customer = newCustomer({ id: 'customer-1', now: NOW }, 'Dana Wicklow');
    type Step = readonly [day: string, clock: string | null] | null;
    const listed = (...steps: Step[]) =>
      leadList({
        leads: steps.map((step, i) => ({
          ...newLead({ id: `lead-${i}`, now: NOW }, customer.id),
          next: step === null ? null : { step: 'visit' as const, day: step[0], clock: step[1] },
        })),
        ...{ customers: [customer], properties: [], timeZone: 'America/New_York', locale: 'en-US', now: NOW },
      });
    const summed = (...steps: Step[]) => summarySentence(read(), listed(...steps), NOW);
    expect(listed(['2026-05-11', null], ['2026-05-19', null], ['2026-05-20', null], null).map(({ due }) => due)).toEqual([
      true,
      true,
      false,
      false,
    ]);
    expect(summed(['2026-05-20', null], null)).toBe('Nothing is due.');
    expect(summed(['2026-05-13', '16:00'])).toBe('1 lead is due this week.');
    // A visit of today is due until the day is over.
    expect(summed(['2026-05-11', '06:00'], ['2026-05-12', '06:00'], ['2026-05-19', null])).toBe(
      '2 leads are due this week. 1 item is late.',
    );
  });
});
