/** Edits on the quote screen, each one step of undo. */
import type { EstimateChoices, Job, LineOverride } from '../../../shared-core/book/job.ts';
import type { CutWords } from '../../../shared-core/survey/cut-words.ts';
import { addedKey } from '../../../shared-core/price/line.ts';

type Edit = (estimate: EstimateChoices) => EstimateChoices;

/** Adds an option: follow the floor, or level without taking down high spots. */
export function withOption(job: Job, id: string, mode: 'follow' | 'fill', cut: CutWords): Edit {
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
              ? { ...r.level, mode: 'follow' as const }
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
