/** The calls that save calendar files: into the papers folder, or into a folder the person chose, where a calendar program follows them. */
import { access, constants } from 'node:fs/promises';
import type { CallName } from '../../shared-core/desk/call-names.ts';
import type { Gives, Taken } from '../../shared-core/desk/calls.ts';
import { writeCalendar } from './calendar.ts';
import { keepChoices, readChoices } from './choices.ts';
import { DeskFailure, explainDisk } from './failure.ts';
import { keepFile, readyPlace } from './files.ts';

export type CalendarCall = Extract<CallName, `calendar.${string}`>;
export type CalendarHandlers = { [N in CalendarCall]: (input: Taken<N>) => Promise<Gives<N>> };

export type CalendarPlaces = {
  readonly dataFolder: string;
  readonly papersFolder: string;
  /** Asks in the system's own dialog; null when the person went back. A host without a dialog has no such function. */
  readonly chooseFolder: ((title: string) => Promise<string | null>) | null;
};

const TITLE = 'Folder for the calendar files';

export function createCalendarHandlers({ dataFolder, papersFolder, chooseFolder }: CalendarPlaces): CalendarHandlers {
  const place = async (): Promise<Gives<'calendar.place'>> => {
    const { calendarFolder } = await readChoices(dataFolder);
    return { folder: calendarFolder ?? papersFolder, chosen: calendarFolder !== null, canChoose: chooseFolder !== null };
  };
  return {
    'calendar.place': place,
    'calendar.choose': async ({ choose }) => {
      let chosen: string | null = null;
      if (choose === 'other') {
        if (chooseFolder === null)
          throw new DeskFailure('unsupported', 'This host cannot ask for a folder. The calendar files go on into the papers folder.');
        chosen = await chooseFolder(TITLE);
        if (chosen === null) return { ...(await place()), changed: false };
        await readyPlace(chosen);
        await access(chosen, constants.W_OK).catch((error: unknown) => {
          throw explainDisk(error, 'The folder');
        });
      }
      await keepChoices(dataFolder, { ...(await readChoices(dataFolder)), calendarFolder: chosen });
      return { ...(await place()), changed: true };
    },
    'calendar.keep': async ({ file, ...calendar }) => {
      const { folder, chosen } = await place();
      const bytes = Buffer.from(writeCalendar(calendar), 'utf8');
      // A folder of one's own may lie on a disk that was taken out: it is not made anew in its place.
      if (chosen)
        await access(folder).catch((error: unknown) => {
          throw new DeskFailure(
            'not-found',
            `${file} was not written: the folder ${folder} is not there. Bring it back, or choose another under Business.`,
            error,
          );
        });
      await keepFile(folder, file, bytes);
      return { name: file, folder, bytes: bytes.length };
    },
  };
}
