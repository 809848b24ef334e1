/** The desk calls that save calendar files, in the documents folder or in a chosen folder that a calendar program subscribes to. */
import { access, constants } from 'node:fs/promises';
import type { CallName } from '../../shared-core/desk/call-names.ts';
import type { Gives, Taken } from '../../shared-core/desk/calls.ts';
import { writeCalendar } from './calendar.ts';
import { saveChoices, readChoices } from './choices.ts';
import { DeskFailure, explainDisk } from './failure.ts';
import { readyPlace, replaceOwnFile } from './files.ts';

export type CalendarCall = Extract<CallName, `calendar.${string}`>;
export type CalendarHandlers = { [N in CalendarCall]: (input: Taken<N>) => Promise<Gives<N>> };

export type CalendarPlaces = {
  readonly dataFolder: string;
  readonly papersFolder: string;
  /** Opens the system's dialog; null when it is canceled. Null in a host without a dialog. */
  readonly chooseFolder: ((title: string) => Promise<string | null>) | null;
};

const TITLE = 'Calendar folder';

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
          throw new DeskFailure(
            'unsupported',
            'Straightedge cannot ask for a folder here. Calendar files are still saved in the documents folder.',
          );
        chosen = await chooseFolder(TITLE);
        if (chosen === null) return { ...(await place()), changed: false };
        await readyPlace(chosen);
        await access(chosen, constants.W_OK).catch((error: unknown) => {
          throw explainDisk(error, 'The folder');
        });
      }
      await saveChoices(dataFolder, { ...(await readChoices(dataFolder)), calendarFolder: chosen });
      return { ...(await place()), changed: true };
    },
    'calendar.save': async ({ file, ...calendar }) => {
      const { folder, chosen } = await place();
      const bytes = Buffer.from(writeCalendar(calendar), 'utf8');
      // A chosen folder may be on a disk that is not connected, so it is not created again.
      if (chosen)
        await access(folder).catch((error: unknown) => {
          throw new DeskFailure(
            'not-found',
            `${file} was not saved because the folder ${folder} was not found. Reconnect its disk, or choose another folder under Settings.`,
            error,
          );
        });
      // Two sets of data may share the folder; each replaces only the file it wrote.
      return { name: await replaceOwnFile(dataFolder, folder, file, bytes), folder, bytes: bytes.length };
    },
  };
}
