/** Edits on the quote screen, each one step of undo. */
import type { EstimateChoices, LineOverride } from '../../../shared-core/book/job.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { followingLevel } from '../../../shared-core/material/minimum-thickness.ts';
import type { CutWords } from '../../../shared-core/survey/cut-words.ts';
import { addedKey } from '../../../shared-core/price/line.ts';

type Priced = Pick<WholeJob, 'job' | 'rooms' | 'materials'>;
type Edit = (estimate: EstimateChoices) => EstimateChoices;

/** Adds an option: follow the floor at a thickness its data sheet allows there, or level without taking down high spots. */
export function withOption({ job, rooms, materials }: Priced, id: string, mode: 'follow' | 'fill', cut: CutWords): Edit {
  return (e) => ({
    ...e,
    options: [
      ...e.options,
      {
        id,
        name: mode === 'follow' ? 'Follow the floor' : `No ${cut.noun}`,
        rooms: job.rooms.map((r) => ({
          roomId: r.roomId,
          level:
            mode === 'follow'
              ? followingLevel(
                  r.level,
                  materials.find((m) => m.id === r.materialId) ?? null,
                  rooms.find((room) => room.id === r.roomId) ?? null,
                )
              : { ...r.level, mode: 'level' as const, grindMostM: 0, levelM: null },
          materialId: null,
        })),
      },
    ],
  });
}

/** Deletes an option. If it was recommended, the job's own becomes recommended. */
export function withoutOption(id: string): Edit {
  return (e) => ({
    ...e,
    options: e.options.filter((other) => other.id !== id),
    suggestedOptionId: e.suggestedOptionId === id ? null : e.suggestedOptionId,
  });
}

export function withOptionName(id: string, name: string): Edit {
  return (e) => ({ ...e, options: e.options.map((o) => (o.id === id ? { ...o, name } : o)) });
}

/** Overrides a line's figures; null restores the calculated ones. */
export function withOverride(lineKey: string, override: LineOverride | null): Edit {
  return (e) => ({
    ...e,
    overrides: [...e.overrides.filter((o) => o.lineKey !== lineKey), ...(override === null ? [] : [override])],
  });
}

export function withoutLine(lineKey: string): Edit {
  return (e) => ({
    ...e,
    added: e.added.filter((line) => addedKey(line.id) !== lineKey),
    overrides: e.overrides.filter((o) => o.lineKey !== lineKey),
  });
}
