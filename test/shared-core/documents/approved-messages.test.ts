/**
 * Log entries of every kind, messages, and the documents of a pour that stopped, as last read and approved: a guard against a change that
 * nobody meant. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/documents/approved -u` and read the difference.
 */
import { expect, it } from 'vitest';
import {
  incidentKindSchema,
  markedStateSchema,
  defectSchema,
  type Pour,
  type PourEvent,
  pourEventSchema,
} from '../../../shared-core/book/pour-record.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { changeOrderSheet } from '../../../shared-core/documents/change-order-sheet.ts';
import { signedCopyOf } from '../../../shared-core/documents/signed-copy.ts';
import { extentWords, liftsWords, openWords, watchWords } from '../../../shared-core/documents/floor-words.ts';
import { noticeMessage } from '../../../shared-core/documents/floor-notice.ts';
import { folderIndex } from '../../../shared-core/documents/folder-index.ts';
import { entryInFull, noticeWords } from '../../../shared-core/documents/log-words.ts';
import { pourDaySheet, stationsOf } from '../../../shared-core/documents/pour-day-sheet.ts';
import { paymentMessage } from '../../../shared-core/documents/payment-message.ts';
import { jobMoney } from '../../../shared-core/standing/job-money.ts';
import type { FloorRegion } from '../../../shared-core/pour/pour-regions.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
import { NOW, wholeOf } from '../job-variants.ts';
import { points } from '../../outlines.ts';
import { jobPapers } from './paper-set.ts';
import { nextPour, placed, ROOM } from './poured-family.ts';
import { treeDump } from './tree-dump.ts';

const approve = (name: string, lines: readonly string[]): Promise<void> =>
  expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${name}.txt`);

const at = (min: number): string => new Date(Date.parse('2026-11-12T14:00:00.000Z') + min * 60_000).toISOString();
const correction = { by: 'RB', why: 'Counted again' };
const stampsOf = (i: number) => ({ id: `entry-${i}`, pourId: 'pour-1', seq: i + 1, estimated: false, instant: at(90 + i) });
const logOf = (entries: readonly object[]): PourEvent[] => entries.map((entry, i) => pourEventSchema.parse({ ...stampsOf(i), ...entry }));
const [a, b, c] = [
  { xM: 0.2, yM: 0.2 },
  { xM: 1.2, yM: 0.2 },
  { xM: 1.2, yM: 1.2 },
];
const marked = { kind: 'marked', roomId: ROOM, outline: [a, b, c], ...correction };
const nothing = { airTempC: null, surfaceTempC: null, waterTempC: null, powderTempC: null, relativeHumidity: null, spreadM: null };

it('every kind of log entry', async () => {
  const events = logOf([
    { kind: 'started' },
    { kind: 'mixed', batch: 1, bags: 2, waterL: 9.6 },
    { kind: 'mixed', batch: 2, bags: 1, waterL: null },
    { kind: 'placed', batch: 1, roomId: ROOM, lane: 1, bags: 2 },
    { kind: 'placed', batch: 2, roomId: null, lane: null, bags: 1.5 },
    { kind: 'lane-finished', roomId: ROOM, lane: 1 },
    ...incidentKindSchema.options.map((what, i) => ({
      kind: 'incident',
      what,
      note: i % 2 === 0 ? '' : 'a note',
      batch: i % 3 === 0 ? 2 : null,
    })),
    { kind: 'discarded', batch: 3, by: '', why: 'lumps' },
    { kind: 'corrected', eventId: 'entry-1', toAt: at(5), toBags: 3, ...correction },
    { kind: 'corrected', eventId: 'entry-3', toAt: null, toBags: 1, by: '', why: '' },
    { kind: 'counted', bags: 12, ...correction },
    ...markedStateSchema.options.map((state) => ({ ...marked, state })),
    ...defectSchema.options.map((defect) => ({ ...marked, state: 'suspect', defect, by: '', why: '' })),
    { kind: 'joint', roomId: ROOM, from: a, to: b, note: 'at the door' },
    { kind: 'reading', ...nothing },
    { kind: 'reading', airTempC: 20, surfaceTempC: 18, waterTempC: 12, powderTempC: 19, relativeHumidity: 0.45, spreadM: 0.13 },
    { kind: 'lot', lot: '7A-114' },
    { kind: 'bags-added', bags: 1 },
    { kind: 'note', text: 'Said to the owner', photoIds: [] },
    { kind: 'note', text: '', photoIds: ['photo-1'] },
    { kind: 'undone', eventId: 'entry-4' },
    { kind: 'undone', eventId: 'not-there', ...correction },
    { kind: 'finished', bagsLeft: 4, floor: 'whole' },
    { kind: 'finished', bagsLeft: null, floor: 'partly' },
    { kind: 'finished', bagsLeft: null },
    { kind: 'resumed', ...correction },
  ]);
  const place = {
    units: 'us',
    locale: 'en-US',
    zone: 'America/New_York',
    layout: null,
    roomName: (id: string | null) => (id === null ? '' : 'Family room'),
  } as const;
  const notices = [
    ...(['clock-back', 'long-gap', 'asleep'] as const).flatMap((kind) => [1, 12].map((minutes) => ({ kind, minutes }))),
    ...(['placed-twice', 'same-key'] as const).map((kind) => ({ kind, batch: 4 })),
    { kind: 'more-than-on-site' as const },
    { kind: 'stack-low' as const },
  ];
  await approve('log', [...events.map((event) => entryInFull(event, events, place)), ...notices.map(noticeWords)]);
});

it('what a pour placed', async () => {
  const place = { units: 'us', locale: 'en-US' } as const;
  const room = { openLanes: [], extent: 'partly', notPlacedM2: 0, takenOutM2: 0, regions: [] } as unknown as Parameters<
    typeof openWords
  >[0];
  const floor = [{ outline: points('0,0 2,0 2,1 0,1'), holes: [] }];
  const suspect = {
    state: 'suspect',
    mark: null,
    batch: null,
    placedAt: null,
    areaM2: 2,
    thicknessM: null,
    floor,
  } as unknown as FloorRegion;
  const hollow = { id: 'mark-1', defect: 'hollow' as const, instant: NOW };
  const joint = (olderBatch: number) => ({ olderBatch }) as never;
  await approve('floor-words', [
    ...(['whole', 'partly', 'none'] as const).map(extentWords),
    ...[
      room,
      { ...room, notPlacedM2: 4, openLanes: [3] },
      { ...room, notPlacedM2: 4, openLanes: [3, 4, 5], takenOutM2: 1, regions: [suspect] },
      { ...room, extent: 'whole' as const, regions: [suspect, { ...suspect, mark: hollow }] },
      { ...room, notPlacedM2: 4, extent: 'whole' as const },
      { ...room, notPlacedM2: 4 },
    ].map((one) => openWords(one, place).join(' ')),
    ...[1, 2, 3].flatMap((liftsPlanned) => [0, 1, 2, 3].map((liftsWhole) => liftsWords({ liftsPlanned, liftsWhole }))),
    ...[0, 1, 2].map((placed) => watchWords({ placed, timed: placed, timedJoints: Math.max(0, placed - 1), toWatch: [], noPlace: 0 })),
    ...[9, 6].flatMap((timed) =>
      [[joint(4)], [joint(4), joint(4), joint(6)]].map((toWatch) => watchWords({ placed: 9, timed, timedJoints: 8, toWatch, noPlace: 0 })),
    ),
    ...[
      [6, 5],
      [6, 0],
      [1, 0],
      [0, 0],
      [9, 0],
    ].map(([timed = 0, timedJoints = 0]) => watchWords({ placed: 9, timed, timedJoints, toWatch: [], noPlace: 0 })),
    ...[1, 2].map((noPlace) => watchWords({ placed: 9, timed: 9, timedJoints: 8, toWatch: [], noPlace })),
  ]);
});

it('messages and the index of a folder', async () => {
  const whole = wholeOf('26-024');
  const { account } = jobMoney(whole, NOW);
  const [balance] = account.invoices;
  if (balance === undefined) throw new Error('Job 26-024 has an invoice.');
  const silent = {
    ...whole,
    business: {
      ...whole.business,
      phone: '',
      ownerName: whole.business.name,
      contract: { ...whole.business.contract, paymentMethods: '' },
    },
  };
  const messages = [
    paymentMessage(whole, { ...balance, daysOverdue: 0, settledMinor: 0 }),
    paymentMessage(whole, { ...balance, daysOverdue: 0, settledMinor: 5_000 }),
    paymentMessage(whole, { ...balance, daysOverdue: 1, overdueMinor: balance.dueMinor }),
    paymentMessage(silent, { ...balance, daysOverdue: 9, overdueMinor: balance.dueMinor, settledMinor: 5_000 }),
  ].flatMap(({ subject, body, text }) => [`= ${subject}`, body, text]);
  const index = folderIndex('Job <1> & "2"', 'en-US', [
    { heading: 'Documents', files: [{ name: 'Quote & terms.pdf', about: 'The <quote>', when: 'May 12, 2026' }] },
    { heading: 'Photos', files: [] },
  ]);
  await approve('messages', [...messages, index]);
});

it('a pour that stopped, with every kind of mark', async () => {
  const sample = wholeOf('26-028');
  const unpoured = { ...sample, pours: [], pourEvents: [] };
  const pour: Pour = {
    ...nextPour(readJob(unpoured, NOW), 'pour-1', '13'),
    ...{ createdAt: at(0), changedAt: at(90), startedAt: at(0), finishedAt: at(200), notes: 'Stopped for the night.' },
  };
  const square = (xM: number, yM: number) => [a, b, c, { xM: 0.2, yM: 1.2 }].map((p) => ({ xM: p.xM + xM, yM: p.yM + yM }));
  const log = (more: readonly object[]): PourEvent[] =>
    logOf([
      ...Array.from({ length: 8 }, (_, i) => placed(at(i < 5 ? 3 * i : 40 + 3 * i), i + 1)),
      { kind: 'incident', what: 'power-lost', note: '', instant: at(80) },
      { kind: 'finished', bagsLeft: null, floor: 'partly', instant: at(90) },
      ...more.map((one, i) => ({ ...one, instant: at(200 + i) })),
    ]);
  const stopped = (more: readonly object[], change: Partial<WholeJob> = {}): readonly string[] => {
    const whole: WholeJob = { ...unpoured, pours: [pour], pourEvents: log(more), ...change };
    const reading = readJob(whole, NOW);
    const message = noticeMessage(reading, NOW);
    const papers = jobPapers(reading, NOW).filter(({ kind }) =>
      ['floor-notice', 'handover-sheet', 'job-record', 'pour-record'].includes(kind),
    );
    return [
      message === null ? 'no message' : `${message.subject}\n${message.body}`,
      ...papers.map(({ name, tree }) => `= ${name}\n${treeDump(tree)}`),
    ];
  };
  const whole = stopped([]);
  const repaired = stopped(
    [
      { ...marked, state: 'suspect', outline: square(0, 0) },
      { ...marked, state: 'suspect', defect: 'pinholes', outline: square(1.2, 0) },
      { ...marked, state: 'taken-out', outline: square(0, 1.2) },
      { kind: 'note', text: 'Said to the owner', photoIds: [] },
    ],
    {
      business: { ...unpoured.business, phone: '', email: '' },
      job: { ...unpoured.job, notes: 'Ask for the key at the office.', defectsUntil: '2027-11-12' },
    },
  );
  const said = new Set(whole.join('\n').split('\n'));
  await approve('stopped', [
    ...whole,
    '= with marks',
    ...repaired
      .join('\n')
      .split('\n')
      .filter((line) => !said.has(line)),
  ]);
});

it('the pour-day sheet of other crews', async () => {
  const sample = wholeOf('26-031');
  const ids = sample.job.rooms.map(({ roomId }) => roomId);
  const planned = readPour(readJob(sample, NOW), ids);
  if (!planned.ok) throw new Error('Hall and laundry can be poured.');
  const [first, second] = planned.value.plans;
  if (first === undefined || second === undefined) throw new Error('The job has two rooms.');
  const doorway = { roomId: ids[0] ?? '', openingId: 'a', toRoomId: ids[1] ?? '', toOpeningId: 'b' };
  const sheetOf = (crew: Partial<typeof first.crew>, change: Partial<WholeJob> = {}): readonly string[] => {
    const plan = { ...first, crew: { ...first.crew, ...crew }, openDoorways: [doorway] };
    const rooms = sample.job.rooms.map((room, i) => ({ ...room, pourPlan: i === 0 ? plan : { ...second, crew: plan.crew } }));
    const sheet = pourDaySheet({
      reading: readJob({ ...sample, ...change, job: { ...sample.job, rooms } }, NOW),
      roomIds: ids,
      madeAt: NOW,
      revision: 1,
    });
    return sheet.ok ? treeDump(sheet.value).split('\n') : [JSON.stringify(sheet)];
  };
  const abroad = { ...sample.property, address: { ...sample.property.address, country: 'DE' } };
  const sheets = [
    sheetOf({}),
    sheetOf({ carry: 'cart', carriers: 0, cartBatches: 2 }),
    sheetOf({ carry: 'cart', carriers: 1, cartBatches: 4, mixers: 2, spreaders: 3, bagsPerBatch: 1 }, { property: abroad }),
    sheetOf({ carriers: 2, stations: [] }, { customer: { ...sample.customer, phone: '' }, business: { ...sample.business, phone: '' } }),
  ];
  const said = new Set<string>();
  const news = sheets.map((lines) => {
    const fresh = lines.filter((line) => !said.has(line));
    for (const line of lines) said.add(line);
    return [`= ${lines.length} lines`, ...fresh];
  });
  await approve('pour-day', news.flat());
});

it('the stations of a crew', () => {
  const crew = { mixers: 2, carriers: 1, spreaders: 1, bagsPerBatch: 2, carry: 'by-hand', cartBatches: 1 } as Parameters<
    typeof stationsOf
  >[0];
  const who = (change: Partial<typeof crew>, ...names: readonly string[]): readonly string[] =>
    stationsOf({ ...crew, ...change }, names, 'en-US').map((line) => line.who);
  expect(who({})).toEqual(['Mixing: 2 people', 'Carrying: 1 person', 'Spreading: 1 person']);
  expect(who({ carriers: 0 })).toContain('Carrying: mixers');
  expect(who({ carry: 'cart', carriers: 0 })).toContain('Cart: spreader');
  expect(who({ carry: 'cart' })).toContain('Cart: 1 person');
  // Two of four have a name and none a station.
  expect(who({}, 'Ann', 'Ben')).toContain('On site: Ann, Ben, and 2 more');
  const stations = [{ name: 'Ann', station: 'mixing' as const }];
  expect(who({ stations }, 'Ann')).toEqual(['Mixing: Ann and 1 more', 'Carrying: 1 person', 'Spreading: 1 person']);
  expect(who({ stations }, 'Ann', 'Ben').at(-1)).toBe('No station: Ben');
  expect(who({ mixers: 1, stations }, 'Ann')[0]).toBe('Mixing: Ann');
});

it('change orders that add and that take away', async () => {
  const quote = wholeOf('26-024').quotes.find(({ orders }) => orders.length > 0);
  const [order] = quote?.orders ?? [];
  if (quote === undefined || order === undefined) throw new Error('Job 26-024 has a change order.');
  const earlier = { ...order, id: 'earlier', number: 1 };
  const declined = { ...order, id: 'declined', number: 2, state: 'declined' as const };
  const sheetOf = (change: Partial<typeof order>): readonly string[] => {
    const own = { ...order, id: 'own', number: 3, state: 'issued' as const, ...change };
    const photo = {
      id: 'photo-1',
      caption: 'The broken slab',
      takenAt: null,
      createdAt: NOW,
      roomId: null,
      sha256: 'a',
      mediaType: 'image/jpeg' as const,
    };
    const photos = [
      { photo, picture: 'data:image/jpeg;base64,AAAA' },
      { photo: { ...photo, id: 'photo-2' }, picture: 'data:image/jpeg;base64,BBBBBB' },
    ];
    return treeDump(changeOrderSheet({ quote: { ...quote, orders: [earlier, declined, own] }, order: own, photos, ledger: [] })).split(
      '\n',
    );
  };
  const added = sheetOf({ addedDays: 2, work: 'Cut back the slab.\nPatch it.', photoIds: ['photo-1'] });
  const said = new Set(added);
  const less = [
    sheetOf({ addedDays: 0, work: ' ' }),
    sheetOf({ addedDays: -1, netMinor: -order.netMinor, totalMinor: -order.totalMinor, withdrawnIds: order.roomIds, taxes: [] }),
    sheetOf({ roomIds: ['sample-living', 'not-there'], withdrawnIds: ['sample-dining'] }),
  ].flatMap((lines) => [`= ${lines.length} lines`, ...lines.filter((line) => !said.has(line))]);
  await approve('change-orders', [...added, ...less]);
});

it('finds the newest signed copy of a document', () => {
  const copy = (revision: number, signedSha256: string, kind = 'signed-copy') =>
    ({ kind, revision, signatures: [{ signedSha256 }] }) as unknown as Parameters<typeof signedCopyOf>[0][number];
  const copies = [copy(1, 'a'), copy(3, 'a'), copy(2, 'a'), copy(4, 'b'), copy(5, 'a', 'quote')];
  expect(signedCopyOf(copies, { sha256: 'a' })?.revision).toBe(3);
  expect(signedCopyOf(copies, { sha256: 'c' })).toBeNull();
});
