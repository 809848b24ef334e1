/** Timeline in a job, in order of time, each entry with who and when; and every document given out with its hash. */
import type { Sent } from '../book/papers.ts';
import type { QuoteState } from '../book/quote.ts';
import { valueText } from '../cure/clearance-tests.ts';
import { milestoneName } from '../cure/cure-schedule.ts';
import { formatInstant, formatInstantDay } from '../measure/moment.ts';
import { formatMoney } from '../price/money.ts';
import { placedFloor } from '../pour/placed-floor.ts';
import { listed } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import { headingBlock, tableBlocks } from './blocks.ts';
import type { HandoverPlace } from './handover-tables.ts';
import type { Block } from './tree.ts';

type Entry = { readonly instant: string; readonly text: string; readonly by: string };

const STATE_WORDS: Readonly<Record<QuoteState, string>> = {
  issued: 'issued',
  accepted: 'accepted',
  declined: 'declined',
  expired: 'expired',
  superseded: 'superseded',
};
const SENT_WORDS: Readonly<Record<Sent['by'], string>> = {
  email: 'by email',
  text: 'by text message',
  print: 'on paper',
  'in-person': 'in person',
};

function agreementEntries({ whole }: JobReading, { locale }: HandoverPlace): Entry[] {
  return whole.quotes.flatMap((quote) =>
    quote.history.map((step) => ({
      instant: step.instant,
      text: `Quote revision ${quote.revision} ${STATE_WORDS[step.state]}${step.state === 'issued' ? `: ${formatMoney(quote.totalMinor, quote.currency, locale)}` : ''}${step.note === '' ? '' : `. ${step.note}`}`,
      by: step.by,
    })),
  );
}

function floorEntries({ whole }: JobReading): Entry[] {
  const roomOf = (id: string): string => whole.rooms.find((room) => room.id === id)?.name ?? '';
  const measured = whole.rooms.flatMap((room) =>
    [room.survey, room.surveyRest, room.surveyAfter].flatMap((survey, which) =>
      survey === null || survey.takenAt === null
        ? []
        : [
            {
              instant: survey.takenAt,
              text: `${room.name}: ${survey.readings.length} readings ${['before the pour', 'before the rest was poured', 'after the pour'][which] ?? ''}`,
              by: '',
            },
          ],
    ),
  );
  const signed = whole.job.rooms.flatMap((jobRoom) => {
    const standing = jobRoom.signed.filter((item) => item.withdrawnAt === null).toSorted((a, b) => a.doneAt.localeCompare(b.doneAt));
    const last = standing.at(-1);
    const by = [...new Set(standing.map((item) => item.initials))];
    return last === undefined
      ? []
      : [{ instant: last.doneAt, text: `${roomOf(jobRoom.roomId)}: ${standing.length} prep lines signed`, by: listed(by) }];
  });
  const overridden = whole.job.rooms.flatMap((jobRoom) =>
    jobRoom.overrides.map((o) => ({ instant: o.instant, text: `${roomOf(jobRoom.roomId)}: hold overridden. ${o.why}`, by: o.initials })),
  );
  const poured = whole.pours
    .filter((pour) => pour.deletedAt === null)
    .flatMap((pour): Entry[] => {
      const rooms = listed(pour.roomIds.map(roomOf));
      const isWhole = placedFloor(pour, whole.pourEvents).every((room) => room.extent === 'whole');
      const end = isWhole ? 'pour finished' : 'pour ended, part of the floor not placed';
      const hand = pour.fromPaper ? ' (times from a handwritten log)' : '';
      return [
        ...(pour.startedAt === null ? [] : [{ instant: pour.startedAt, text: `${rooms}: pour started${hand}`, by: '' }]),
        ...(pour.finishedAt === null ? [] : [{ instant: pour.finishedAt, text: `${rooms}: ${end}${hand}`, by: '' }]),
      ];
    });
  const handed = whole.job.rooms.flatMap((jobRoom) =>
    jobRoom.handedOverAt === null
      ? []
      : [{ instant: jobRoom.handedOverAt, text: `${roomOf(jobRoom.roomId)}: handed over`, by: jobRoom.handedOverTo ?? '' }],
  );
  return [...measured, ...signed, ...overridden, ...poured, ...handed];
}

function laterEntries({ whole }: JobReading, { zone, locale }: HandoverPlace): Entry[] {
  const roomOf = (id: string): string => whole.rooms.find((room) => room.id === id)?.name ?? '';
  const here = <R extends { readonly deletedAt: string | null }>(rows: readonly R[]): R[] => rows.filter((row) => row.deletedAt === null);
  return [
    ...here(whole.promises).map((p) => ({
      instant: p.madeAt,
      text: `${roomOf(p.roomId)}, ${milestoneName(p.milestone, p.flooring)}: promised for ${formatInstantDay(p.promisedFor, zone, 'dated', locale)}`,
      by: p.to === '' ? '' : `to ${p.to}`,
    })),
    ...here(whole.clearanceTests).map((test) => ({
      instant: test.takenAt,
      text: `${roomOf(test.roomId)}: moisture test ${valueText(test)}${test.note === '' ? '' : `. ${test.note}`}`,
      by: test.by,
    })),
    ...here(whole.visits).flatMap((visit) =>
      visit.doneAt === null ? [] : [{ instant: visit.doneAt, text: `${visit.title}${visit.fix === '' ? '' : `. ${visit.fix}`}`, by: '' }],
    ),
    ...here(whole.documents).flatMap((document) => [
      { instant: document.madeAt, text: `${document.title} saved`, by: '' },
      ...document.sent.map((sent) => ({
        instant: sent.instant,
        text: `${document.title} sent ${SENT_WORDS[sent.by]}`,
        by: sent.to === '' ? '' : `to ${sent.to}`,
      })),
      ...document.signatures.map((signature) => ({ instant: signature.instant, text: `${document.title} signed`, by: signature.name })),
    ]),
  ];
}

/** All events, oldest first. */
export function timeline(reading: JobReading, place: HandoverPlace): Block[] {
  const { zone, locale } = place;
  const entries = [...agreementEntries(reading, place), ...floorEntries(reading), ...laterEntries(reading, place)].toSorted((a, b) =>
    a.instant.localeCompare(b.instant),
  );
  if (entries.length === 0) return [];
  return [
    headingBlock(2, 'Timeline'),
    ...tableBlocks(
      'Timeline',
      [
        ['Date', 0.22],
        ['Event', null],
        ['By', 0.25],
      ],
      entries.map((entry) => [formatInstant(entry.instant, zone, 'dated', locale), entry.text, entry.by]),
    ),
  ];
}

/** Documents given out, each with the SHA-256 of its PDF and the program version that made it. */
export function givenOut({ whole }: JobReading, { zone, locale }: HandoverPlace): Block[] {
  const documents = whole.documents.filter((d) => d.deletedAt === null).toSorted((a, b) => a.madeAt.localeCompare(b.madeAt));
  if (documents.length === 0) return [];
  return [
    headingBlock(2, 'Documents'),
    ...tableBlocks(
      'Documents',
      [
        ['Made', 0.15],
        ['Document', 0.3],
        ['Changes', 0.2],
        ['SHA-256 of the PDF', null],
      ],
      documents.map((d) => [
        formatInstantDay(d.madeAt, zone, 'dated', locale),
        d.programVersion === '' ? d.title : `${d.title} (version ${d.programVersion})`,
        d.changes.join(' '),
        d.sha256 ?? 'Not printed',
      ]),
    ),
  ];
}
