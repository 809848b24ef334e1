/** Asking for a folder in the system's own dialog, opened from here: the page never names a path. */
import { execFile } from 'node:child_process';
import { basename } from 'node:path';
import { findProgram } from './app-window.ts';

/** The title comes in by the environment, so that nothing in it is read as a command. */
const ON_WINDOWS = [
  'Add-Type -AssemblyName System.Windows.Forms',
  '$d = New-Object System.Windows.Forms.FolderBrowserDialog',
  '$d.Description = $env:STRAIGHTEDGE_TITLE',
  "if ($d.ShowDialog() -eq 'OK') { [Console]::Out.Write($d.SelectedPath) }",
].join('; ');

const dialogOf = (pathVariable: string): { readonly program: string; readonly flags: (title: string) => string[] } | null => {
  if (process.platform === 'win32') return { program: 'powershell.exe', flags: () => ['-NoProfile', '-STA', '-Command', ON_WINDOWS] };
  if (process.platform === 'darwin')
    return { program: 'osascript', flags: (title) => ['-e', `POSIX path of (choose folder with prompt "${title}")`] };
  const program = findProgram(['zenity', 'kdialog'], pathVariable);
  if (program === null) return null;
  return basename(program) === 'zenity'
    ? { program, flags: (title) => ['--file-selection', '--directory', `--title=${title}`] }
    : { program, flags: (title) => ['--getexistingdirectory', '--title', title] };
};

/** A function that asks, giving null when the person went back; or null where the system has no dialog to ask with. */
export function folderDialog(pathVariable: string): ((title: string) => Promise<string | null>) | null {
  const found = dialogOf(pathVariable);
  if (found === null) return null;
  return (title) =>
    new Promise((resolve) => {
      execFile(
        found.program,
        found.flags(title),
        { encoding: 'utf8', env: { ...process.env, STRAIGHTEDGE_TITLE: title } },
        (error, out) => {
          const path = out.trim();
          resolve(error !== null || path === '' ? null : path);
        },
      );
    });
}
