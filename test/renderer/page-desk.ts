import { vi } from 'vitest';
import { findDesk } from '../../renderer/desk/desk-client.ts';
import { CALL_NAMES } from '../../shared-core/desk/call-names.ts';
import { pageLocks } from './page-locks.ts';
import { workingDesk, type WorkingDesk } from '../main/desk/working-desk.ts';

/** Gives the page a working desk and locks. `answer` sees each call first; what it returns is the answer. */
export function pageDesk(answer: (name: string, input: unknown) => unknown = () => undefined): WorkingDesk {
  const desk = workingDesk();
  const calls = CALL_NAMES.map((name) => [name, async (input: unknown) => (await answer(name, input)) ?? desk.dispatch(name, input)]);
  vi.stubGlobal('window', { straightedgeDesk: Object.fromEntries(calls) });
  vi.stubGlobal('navigator', { locks: pageLocks() });
  findDesk();
  return desk;
}
