/** What runs in the page of the kill test: tells what the log holds, then writes entries until it is killed, telling each. */
import { logPourEvent } from '../../renderer/book/pour-log.ts';
import { book } from '../../renderer/book/database.ts';

const POUR = 'a-pour';
const tell = (path: string, body: unknown): Promise<Response> => fetch(path, { method: 'POST', body: JSON.stringify(body) });

async function run(): Promise<void> {
  const rows = await book().rowsOf('pourEvents').where('pourId').equals(POUR).sortBy('seq');
  await tell(
    '/kept',
    rows.map((row) => ({ seq: row.seq, text: row.kind === 'note' ? row.text : '' })),
  );
  for (let next = rows.length + 1; ; next++) {
    const written = await logPourEvent({
      id: crypto.randomUUID(),
      pourId: POUR,
      instant: new Date().toISOString(),
      estimated: false,
      kind: 'note',
      text: `entry ${next}`,
      photoIds: [],
    });
    if (!written.ok) {
      await tell('/trouble', written.message);
      return;
    }
    await tell('/written', next);
  }
}

void run().catch((error: unknown) => tell('/trouble', String(error)));
