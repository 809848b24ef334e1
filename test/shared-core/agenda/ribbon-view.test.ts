import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { ribbonView, todayList } from '../../../shared-core/agenda/today.ts';
import type { JobBundle } from '../../../shared-core/standing/job-bundle.ts';
import { BUSINESS, bundle, pour, quote, summary } from './bundle-fixture.ts';

const NOW = '2026-05-12T11:05:00.000Z'; // 7:05 am in New York.
const accepted = (of: JobBundle): JobBundle => ({ ...of, quotes: [quote(of, 'accepted', '2026-05-01')] });
const read = (...bundles: JobBundle[]) => agenda(bundles, BUSINESS, null);

describe('the ribbon', () => {
  it('has the bars of a planned pour in days from Monday, dashed until agreed, with the letters of the list', () => {
    const plan = bundle({
      id: 'a',
      rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: '2026-05-12T16:00:00.000Z' }],
      job: { prepVisitAt: '2026-05-11T12:00:00.000Z' },
    });
    const whole = read(plan);
    const view = ribbonView(whole, todayList(whole, NOW), NOW, 'America/New_York', 42);
    const row = view.rows[0];
    expect(view.today).toBeCloseTo(1 + 7 / 24 + 5 / 1440, 9);
    expect(row?.lanes.map((s) => s.kind)).toEqual(['prep', 'pour', 'drying', 'ready']);
    expect(row?.lanes[0]).toMatchObject({ fromDay: 0, toDay: 1.5, agreed: false });
    expect(row?.lanes[1]?.fromDay).toBeCloseTo(1.5, 9);
    expect(row?.letters).toEqual(['A']);
    const agreed = read(accepted(plan));
    expect(ribbonView(agreed, [], NOW, 'America/New_York', 42).rows[0]?.lanes.every((s) => s.agreed)).toBe(true);
  });

  it('has a bar for each pour of a room, the next one that is planned included', () => {
    const lifts = bundle({
      id: 'a',
      rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: '2026-05-15T16:00:00.000Z' }],
      pours: [
        pour('pour0001', ['room-a'], '2026-05-11T16:00:00.000Z', '2026-05-11T18:00:00.000Z', 1, 3),
        pour('pour0002', ['room-a'], '2026-05-13T16:00:00.000Z', '2026-05-13T18:00:00.000Z', 2, 3),
      ],
    });
    const row = ribbonView(read(lifts), [], NOW, 'America/New_York', 42).rows[0];
    // Noon on Monday, Wednesday and Friday.
    expect(row?.lanes.map(({ kind, fromDay }) => [kind, fromDay])).toEqual([
      ['pour', 0.5],
      ['pour', 2.5],
      ['pour', 4.5],
    ]);
  });

  it('cuts what began before the weeks shown and says so', () => {
    const old = bundle({
      id: 'a',
      rooms: [{ roomId: 'room-a', name: 'Hall' }],
      pours: [pour('pour0001', ['room-a'], '2026-05-05T13:00:00.000Z', '2026-05-05T16:00:00.000Z')],
    });
    const row = ribbonView(read(old), [], NOW, 'America/New_York', 42).rows[0];
    const drying = row?.lanes.find((s) => s.kind === 'drying');
    expect(drying).toMatchObject({ fromDay: 0, began: true, goesOn: false });
    expect(row?.lanes.some((s) => s.kind === 'pour')).toBe(false);
  });

  it('draws a hold until the day it may clear, with its reason as the label', () => {
    const held = bundle({
      id: 'h',
      summaries: [summary('room-h', { holds: [{ key: 'x', why: 'suspected asbestos', liftsOn: '2026-05-15' }] })],
    });
    const row = ribbonView(read(held), [], NOW, 'America/New_York', 42).rows[0];
    expect(row).toMatchObject({ standing: { state: 'held' }, label: 'on hold: suspected asbestos' });
    expect(row?.lanes[0]).toMatchObject({ kind: 'held', fromDay: 0, toDay: 4, began: true });
  });
});
