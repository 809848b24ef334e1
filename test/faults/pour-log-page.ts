/** Runs in the page of the kill test: reports the log, then writes entries until it is killed, reporting each. */
import { type NewPourEvent, logPourEvent } from '../../renderer/book/pour-log.ts';
import { book } from '../../renderer/book/database.ts';
import { points } from '../outlines.ts';

const POUR = 'a-pour';
const postTo = (path: string, body: unknown): Promise<Response> => fetch(path, { method: 'POST', body: JSON.stringify(body) });

const square = points('0,0 1,0 1,1');
const reason = { by: 'MP', why: 'seen on the floor' };

/** The entries of each problem in turn: a leak, wrong water scraped out, power lost with its dam, short of bags, stopped and resumed. */
function entry(number: number): NewPourEvent {
  const stamp = { id: `entry-${number}`, pourId: POUR, instant: new Date().toISOString(), estimated: false };
  const turns = [
    (): NewPourEvent => ({ ...stamp, kind: 'note', text: `entry ${number}`, photoIds: [] }),
    (): NewPourEvent => ({ ...stamp, kind: 'placed', batch: number, roomId: null, lane: null, bags: 2 }),
    (): NewPourEvent => ({ ...stamp, kind: 'incident', what: 'leak', note: '' }),
    (): NewPourEvent => ({ ...stamp, kind: 'incident', what: 'wrong-water', batch: 5, note: '' }),
    (): NewPourEvent => ({ ...stamp, kind: 'discarded', batch: 5, ...reason }),
    (): NewPourEvent => ({ ...stamp, kind: 'incident', what: 'power-lost', note: '' }),
    (): NewPourEvent => ({ ...stamp, kind: 'joint', roomId: 'room-hall', from: { xM: 0, yM: 0 }, to: { xM: 0, yM: 3 }, note: '' }),
    (): NewPourEvent => ({ ...stamp, kind: 'incident', what: 'short-of-bags', note: '' }),
    (): NewPourEvent => ({ ...stamp, kind: 'counted', bags: 7, ...reason }),
    (): NewPourEvent => ({ ...stamp, kind: 'corrected', eventId: 'entry-1', toAt: null, toBags: 1.5, ...reason }),
    (): NewPourEvent => ({ ...stamp, kind: 'marked', roomId: 'room-hall', state: 'suspect', defect: 'hollow', outline: square, ...reason }),
    (): NewPourEvent => ({ ...stamp, kind: 'undone', eventId: 'entry-1' }),
    (): NewPourEvent => ({ ...stamp, kind: 'finished', bagsLeft: 3, floor: 'partly' }),
    (): NewPourEvent => ({ ...stamp, kind: 'resumed', ...reason }),
  ] as const;
  return (turns[number % turns.length] ?? turns[0])();
}

/** Whether a row is its complete entry, except for its time. */
function isWhole({ seq, instant: _, ...row }: { readonly seq: number; readonly instant: string }): boolean {
  const { instant: __, ...expected } = entry(seq);
  const sorted = (record: object): string => JSON.stringify(Object.entries(record).sort(([a], [b]) => a.localeCompare(b)));
  return sorted(row) === sorted(expected);
}

async function run(): Promise<void> {
  const rows = await book().rowsOf('pourEvents').where('pourId').equals(POUR).sortBy('seq');
  await postTo(
    '/kept',
    rows.map((row) => ({ seq: row.seq, text: isWhole(row) ? `entry ${row.seq}` : JSON.stringify(row) })),
  );
  for (let next = rows.length + 1; ; next++) {
    const written = await logPourEvent(entry(next));
    if (!written.ok) {
      await postTo('/trouble', written.message);
      return;
    }
    await postTo('/written', next);
  }
}

void run().catch((error: unknown) => postTo('/trouble', String(error)));
