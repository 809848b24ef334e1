/** Timeline in a job, in order of time, each entry with who and when; and every document given out with its hash. */
import { inTestOrder } from '../cure/clearance-tests.ts';
import { countWords } from '../measure/count-words.ts';
import { type Override, roomsOnRecord } from '../book/job.ts';
import { DOCUMENT_WORDS } from '../assess/overrides.ts';
import { stateWord } from '../price/quote-state.ts';
import { milestoneName, valueText } from '../standing/cure-words.ts';
import { formatDay } from '../measure/day.ts';
import { dayOfInstant, formatInstantDay, formatLogInstant, instantAt } from '../measure/moment.ts';
import { formatMoney } from '../price/money.ts';
import { nameOf } from '../learn/logged-hours.ts';
import { placedFloor } from '../pour/placed-floor.ts';
import { listed } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import { filledTable, headingBlock } from './blocks.ts';
import { statementLine } from './money-papers.ts';
import { type HandoverPlace, promisedFor } from './handover-tables.ts';
import { sentWords, toWords } from './sent-words.ts';
import type { Block } from './tree.ts';
import { lowerFirst } from '../measure/first-letter.ts';

type Entry = {
  readonly instant: string;
  readonly text: string;
  readonly by: string;
  /** Where only the day is on record, `YYYY-MM-DD`. */
  readonly day?: string;
};

/** The person who keeps the business's records: every entry that names nobody else is theirs. */
const keeperOf = ({ business }: JobReading['whole']): string => (business.ownerName === '' ? business.name : business.ownerName);

/** The name of a room by its id, also of one withdrawn from the job. */
const roomNamesOf =
  ({ rooms, houseRooms }: JobReading['whole']) =>
  (id: string): string =>
    [...rooms, ...houseRooms].find((room) => room.id === id)?.name ?? '';

/** The first sentence of an overridden hold, after a colon; empty where it is not on record. */
const holdTitle = ({ hold = '' }: Override): string => (hold === '' ? '' : `: ${lowerFirst(hold.split(/\.(?:\s|$)/)[0] ?? '')}`);

/** Names that initials may stand for. */
export const peopleOf = ({ business, job }: JobReading['whole']): readonly string[] => [business.ownerName, ...job.crewNames];

function agreementEntries({ whole }: JobReading, { locale }: HandoverPlace): Entry[] {
  return whole.quotes.flatMap((quote) =>
    quote.history
      .map((step) => ({
        instant: step.instant,
        text: `Quote revision ${quote.revision} ${stateWord(quote, step.state)}${step.state === 'issued' ? `: ${formatMoney(quote.totalMinor, quote.currency, locale)}` : ''}${step.note === '' ? '' : `. ${step.note}`}`,
        by: step.by,
      }))
      .concat(
        quote.orders.flatMap(({ number, state, decidedAt, decidedBy }) =>
          decidedAt === null ? [] : [{ instant: decidedAt, text: `Change order ${number} ${state}`, by: decidedBy }],
        ),
      ),
  );
}

function floorEntries({ whole }: JobReading, { locale }: HandoverPlace): Entry[] {
  const keeper = keeperOf(whole);
  const named = (initials: string): string => nameOf(initials, peopleOf(whole));
  const roomOf = roomNamesOf(whole);
  const measured = whole.rooms.flatMap((room) =>
    [room.survey, room.surveyRest, room.surveyAfter].flatMap((survey, which) =>
      survey === null || survey.takenAt === null
        ? []
        : [
            {
              instant: survey.takenAt,
              text: `${room.name}: ${lowerFirst(countWords(survey.readings.length, 'reading', locale))} ${['before the pour', 'before the rest was poured', 'after the pour'][which] ?? ''}`,
              by: keeper,
            },
          ],
    ),
  );
  const jobRooms = roomsOnRecord(whole.job);
  const signed = jobRooms.flatMap((jobRoom) => {
    const standing = jobRoom.signed.filter((item) => item.withdrawnAt === null).toSorted((a, b) => a.doneAt.localeCompare(b.doneAt));
    const last = standing.at(-1);
    const signers = [...new Set(standing.map((item) => named(item.initials)))];
    return last === undefined
      ? []
      : [
          {
            instant: last.doneAt,
            text: `${roomOf(jobRoom.roomId)}: ${countWords(standing.length, 'prep line', locale)} signed`,
            by: listed(signers),
          },
        ];
  });
  const decided = jobRooms.flatMap((jobRoom) =>
    jobRoom.overrides.map((o) => ({
      room: roomOf(jobRoom.roomId),
      instant: o.instant,
      words: `${o.document === undefined ? `hold overridden${holdTitle(o)}` : `${DOCUMENT_WORDS[o.document.kind]} recorded`}. ${o.why}`,
      by: named(o.initials),
    })),
  );
  // One document may clear the holds of several rooms: one line names them all.
  const isSame = (a: (typeof decided)[number], b: (typeof decided)[number]): boolean =>
    a.instant === b.instant && a.words === b.words && a.by === b.by;
  const overridden = decided
    .filter((one, i) => decided.findIndex((other) => isSame(one, other)) === i)
    .map((one) => ({ ...one, text: `${listed(decided.filter((other) => isSame(one, other)).map(({ room }) => room))}: ${one.words}` }));
  const poured = whole.pours
    .filter((pour) => pour.deletedAt === null)
    .flatMap((pour): Entry[] => {
      const rooms = listed(pour.roomIds.map(roomOf));
      const isWhole = placedFloor(pour, whole.pourEvents).every((room) => room.extent === 'whole');
      const end = isWhole ? 'pour finished' : 'pour ended, part of the floor not placed';
      const hand = pour.fromPaper ? ' (times from a handwritten log)' : '';
      return [
        ...(pour.startedAt === null ? [] : [{ instant: pour.startedAt, text: `${rooms}: pour started${hand}`, by: keeper }]),
        ...(pour.finishedAt === null ? [] : [{ instant: pour.finishedAt, text: `${rooms}: ${end}${hand}`, by: keeper }]),
      ];
    });
  const handed = jobRooms.flatMap((jobRoom) =>
    jobRoom.handedOverAt === null
      ? []
      : [
          {
            instant: jobRoom.handedOverAt,
            text: `${roomOf(jobRoom.roomId)}: handed over${toWords(jobRoom.handedOverTo ?? '')}`,
            by: keeper,
          },
        ],
  );
  return [...measured, ...signed, ...overridden, ...poured, ...handed];
}

function laterEntries({ whole }: JobReading, { zone, locale }: HandoverPlace): Entry[] {
  const keeper = keeperOf(whole);
  const roomOf = roomNamesOf(whole);
  const inUse = <R extends { readonly deletedAt: string | null }>(rows: readonly R[]): R[] => rows.filter((row) => row.deletedAt === null);
  return [
    ...inUse(whole.promises)
      .toSorted((a, b) => a.promisedFor.localeCompare(b.promisedFor))
      .map((p) => ({
        instant: p.madeAt,
        text: `${roomOf(p.roomId)}, ${milestoneName({ kind: p.milestone, flooring: p.flooring })}: promised${toWords(p.to)} for ${promisedFor(p, { zone, locale })}`,
        by: keeper,
      })),
    ...inUse(whole.clearanceTests)
      .toSorted(inTestOrder)
      .map((test) => ({
        instant: test.takenAt,
        text: `${roomOf(test.roomId)}: moisture test ${valueText(test)}${test.note === '' ? '' : `. ${test.note}`}`,
        by: test.by,
      })),
    ...inUse(whole.visits).flatMap((visit) =>
      visit.doneAt === null
        ? []
        : [{ instant: visit.doneAt, text: `${visit.title}${visit.fix === '' ? '' : `. ${visit.fix}`}`, by: keeper }],
    ),
    ...inUse(whole.documents).flatMap((document) => [
      // A document sent as it was saved has one line.
      ...(document.sent.some(({ instant }) => instant === document.madeAt)
        ? []
        : [{ instant: document.madeAt, text: `Saved: ${document.title}`, by: keeper }]),
      ...document.sent.map((sent) => ({
        instant: sent.instant,
        text: `Sent ${sentWords(sent)}: ${document.title}`,
        by: keeper,
      })),
      ...document.signatures.map((signature) => ({ instant: signature.instant, text: `Signed: ${document.title}`, by: signature.name })),
    ]),
  ];
}

/** Invoices, payments, refunds and credits on their days, and what was voided. */
function moneyEntries({ whole }: JobReading, { zone, locale }: HandoverPlace): Entry[] {
  const by = keeperOf(whole);
  return whole.ledger
    .filter((entry) => entry.deletedAt === null)
    .flatMap((entry): Entry[] => {
      const line = statementLine(entry, locale);
      if (line === null) return [];
      const text = `${line.text}, ${formatMoney(Math.abs(line.minor), whole.business.currency, locale)}`;
      // An entry made on another day stands at the end of its own.
      const isSameDay = dayOfInstant(entry.createdAt, zone) === entry.onDay;
      return [
        { instant: isSameDay ? entry.createdAt : endOfDay(entry.onDay, zone), day: entry.onDay, text, by },
        ...(entry.voidedAt === null ? [] : [{ instant: entry.voidedAt, text: `Voided: ${text}. ${entry.voidReason}`, by }]),
      ];
    });
}

const endOfDay = (day: string, zone: string): string => {
  const last = instantAt(day, '23:59', zone, 'second');
  return last.ok ? last.value.instant : `${day}T23:59:00.000Z`;
};

/** All events, oldest first. */
export function timeline(reading: JobReading, place: HandoverPlace): Block[] {
  const { zone, locale } = place;
  const entries = [
    ...agreementEntries(reading, place),
    ...floorEntries(reading, place),
    ...moneyEntries(reading, place),
    ...laterEntries(reading, place),
  ].toSorted((a, b) => a.instant.localeCompare(b.instant));
  if (entries.length === 0) return [];
  return [
    headingBlock(2, 'Timeline'),
    ...filledTable('Timeline', entries, [
      [
        'Date',
        0.3,
        ({ instant, day }) => (day === undefined ? formatLogInstant(instant, zone, 'dated', locale) : formatDay(day, 'dated', locale)),
      ],
      ['Event', null, ({ text }) => text],
      ['By', 0.19, ({ by }) => by],
    ]),
  ];
}

/** Documents given out as PDFs, each with its SHA-256 and the program version that made it. */
export function givenOut({ whole }: JobReading, { zone, locale }: HandoverPlace): Block[] {
  const documents = whole.documents
    .filter((d) => d.deletedAt === null && d.sha256 !== null)
    .toSorted((a, b) => a.madeAt.localeCompare(b.madeAt));
  if (documents.length === 0) return [];
  return [
    headingBlock(2, 'Documents'),
    ...filledTable('Documents', documents, [
      ['Made', 0.2, ({ madeAt }) => formatInstantDay(madeAt, zone, 'dated', locale)],
      ['Document', 0.36, ({ title, programVersion }) => (programVersion === '' ? title : `${title} (version ${programVersion})`)],
      ['Changes', 0.18, ({ changes }) => changes.join(' ')],
      ['SHA-256 of the PDF', null, ({ sha256 }) => sha256 ?? ''],
    ]),
  ];
}
