import { expect, it } from 'vitest';
import { signedWhen } from '../../../renderer/stages/prep/prep-words.ts';

it('a signature has its time today and its date on any other day, by the clock of the property', () => {
  const at = (now: string): string => signedWhen('2026-12-08T13:30:00.000Z', now, 'America/New_York', 'en-US');
  expect([at('2026-12-08T15:00:00.000Z'), at('2026-12-09T04:59:00.000Z'), at('2026-12-09T14:00:00.000Z')]).toEqual([
    '8:30 am',
    '8:30 am',
    'Dec 8',
  ]);
});
