/** Asking for a folder in the system's own dialog, opened from here: the page never names a path. */
import { execFile } from 'node:child_process';
import { basename } from 'node:path';
import { findProgram } from './app-window.ts';

const TITLE = 'Folder for the copies of the book';
const ON_WINDOWS = [
  'Add-Type -AssemblyName System.Windows.Forms',
  '$d = New-Object System.Windows.Forms.FolderBrowserDialog',
  `$d.Description = '${TITLE}'`,
  "if ($d.ShowDialog() -eq 'OK') { [Console]::Out.Write($d.SelectedPath) }",
].join('; ');

const dialogOf = (pathVariable: string): { readonly program: string; readonly flags: readonly string[] } | null => {
  if (process.platform === 'win32') return { program: 'powershell.exe', flags: ['-NoProfile', '-STA', '-Command', ON_WINDOWS] };
  if (process.platform === 'darwin') return { program: 'osascript', flags: ['-e', `POSIX path of (choose folder with prompt "${TITLE}")`] };
  const program = findProgram(['zenity', 'kdialog'], pathVariable);
  if (program === null) return null;
  return basename(program) === 'zenity'
    ? { program, flags: ['--file-selection', '--directory', `--title=${TITLE}`] }
    : { program, flags: ['--getexistingdirectory', '--title', TITLE] };
};

/** A function that asks, giving null when the person went back; or null where the system has no dialog to ask with. */
export function folderDialog(pathVariable: string): (() => Promise<string | null>) | null {
  const found = dialogOf(pathVariable);
  if (found === null) return null;
  return () =>
    new Promise((resolve) => {
      execFile(found.program, [...found.flags], { encoding: 'utf8' }, (error, out) => {
        const path = out.trim();
        resolve(error !== null || path === '' ? null : path);
      });
    });
}
