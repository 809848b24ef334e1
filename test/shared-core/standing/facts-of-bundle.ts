/** What follows from the records of a job: its state, next steps, agenda, money and hours. */
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { whatBecame } from '../../../shared-core/agenda/became.ts';
import { conflicts } from '../../../shared-core/agenda/conflicts.ts';
import { dayList } from '../../../shared-core/agenda/day-list.ts';
import { remindersOf } from '../../../shared-core/agenda/reminders.ts';
import { ribbonView, summarySentence, todayList } from '../../../shared-core/agenda/today.ts';
import type { Business } from '../../../shared-core/book/business.ts';
import { depositHold } from '../../../shared-core/ledger/deposit-hold.ts';
import { loggedHours } from '../../../shared-core/learn/logged-hours.ts';
import { jobReview } from '../../../shared-core/learn/job-review.ts';
import type { JobBundle } from '../../../shared-core/standing/job-bundle.ts';
import { jobMoney } from '../../../shared-core/standing/job-money.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import { jobStanding } from '../../../shared-core/standing/room-standing.ts';
import { factLines } from '../fact-lines.ts';
import { NOW } from '../job-variants.ts';

type Asked = readonly { readonly key: string; readonly startAt: string }[];

/** What a job comes to, from its records and what was worked out of each room before. */
export function bundleFacts(bundle: JobBundle, business: Business, asked: Asked): readonly string[] {
  const { rooms, complete } = jobStanding(bundle, business, NOW);
  const all = agenda([bundle], business, null);
  const list = todayList(all, NOW);
  const whole = { ...bundle, business };
  const { contract, isPaid } = jobMoney(whole, NOW);
  return factLines({
    ...Object.fromEntries(rooms.map((room) => [`${room.name} state`, room])),
    ...Object.fromEntries(rooms.map((room) => [`${room.name} next`, nextStep(bundle, room.roomId, business, NOW)?.sentence])),
    complete: [complete, contract === null ? null : isPaid],
    ...Object.fromEntries(all.entries.map((entry) => [`entry ${entry.key}`, entry])),
    list: list.map(({ letter, entry, late, when }) => [letter, entry.key, late, when]),
    days: dayList(all, NOW, 21, 40).groups.map(({ called, lines }) => [called, ...lines.map(({ time }) => time)]),
    ribbon: ribbonView(all, list, NOW, business.timeZone, 60).rows.map(({ label, lanes }) => [label, lanes]),
    summary: summarySentence(all, [], NOW),
    conflicts: conflicts(all, NOW, '2027-03-01T12:00:00.000Z').map(({ sentence }) => sentence),
    reminders: remindersOf(all).map(({ key }) => key),
    became: asked.map((one) => whatBecame(bundle, business, one, NOW)),
    deposit: depositHold(bundle.quotes, bundle.ledger, business),
    ...jobMoney(whole, NOW),
    hours: loggedHours(whole),
    review: jobReview(whole),
  });
}
