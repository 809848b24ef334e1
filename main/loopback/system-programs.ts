/** Uses the system's programs to open a file, ask for a folder, and show a notification. */
import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { posix, win32 } from 'node:path';
import { DeskFailure } from '../desk/failure.ts';
import { findProgram, type Surroundings } from './find-browser.ts';

/** A program to run. User text is passed through the environment or as an argument, never in a script. */
export type Command = { readonly program: string; readonly args: readonly string[]; readonly environment: NodeJS.ProcessEnv };

const POWERSHELL = ['-NoProfile', '-STA', '-NonInteractive', '-Command'];
const powershell = (script: readonly string[], environment: NodeJS.ProcessEnv): Command => ({
  program: 'powershell.exe',
  args: [...POWERSHELL, script.join('; ')],
  environment,
});
const appleScript = (lines: readonly string[], words: readonly string[]): Command => ({
  program: 'osascript',
  args: [...['on run argv', ...lines, 'end run'].flatMap((line) => ['-e', line]), '--', ...words],
  environment: {},
});

/** Opens a file or folder. PowerShell is used on Windows, because `explorer` exits with 1 on success. */
export function openCommand(path: string, { platform }: Pick<Surroundings, 'platform'>): Command {
  if (platform === 'win32')
    return powershell(["$ErrorActionPreference = 'Stop'", 'Invoke-Item -LiteralPath $env:STRAIGHTEDGE_PATH'], { STRAIGHTEDGE_PATH: path });
  return { program: platform === 'darwin' ? 'open' : 'xdg-open', args: [path], environment: {} };
}

/** Asks for a folder; null where the system has no dialog. */
export function folderCommand(title: string, machine: Surroundings): Command | null {
  if (machine.platform === 'win32')
    return powershell(
      [
        '[Console]::OutputEncoding = [Text.Encoding]::UTF8',
        'Add-Type -AssemblyName System.Windows.Forms',
        '$d = New-Object System.Windows.Forms.FolderBrowserDialog',
        '$d.Description = $env:STRAIGHTEDGE_TITLE',
        "if ($d.ShowDialog() -eq 'OK') { [Console]::Out.Write($d.SelectedPath) }",
      ],
      { STRAIGHTEDGE_TITLE: title },
    );
  if (machine.platform === 'darwin') return appleScript(['return POSIX path of (choose folder with prompt (item 1 of argv))'], [title]);
  const program = findProgram(['zenity', 'kdialog'], machine);
  if (program === null) return null;
  const args =
    posix.basename(program) === 'zenity'
      ? ['--file-selection', '--directory', `--title=${title}`]
      : ['--getexistingdirectory', '--title', title];
  return { program, args, environment: {} };
}

/** Some desktops interpret markup in the body. */
const withoutMarkup = (text: string): string => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');

/** Shows a notification; null where the system has no program for it. */
export function notificationCommand(title: string, body: string, machine: Surroundings): Command | null {
  if (machine.platform === 'win32')
    return powershell(
      [
        'Add-Type -AssemblyName System.Windows.Forms, System.Drawing',
        '$n = New-Object System.Windows.Forms.NotifyIcon',
        '$n.Icon = [System.Drawing.SystemIcons]::Information',
        '$n.Visible = $true',
        '$n.ShowBalloonTip(10000, $env:STRAIGHTEDGE_TITLE, $env:STRAIGHTEDGE_BODY, [System.Windows.Forms.ToolTipIcon]::None)',
        'Start-Sleep -Seconds 10',
        '$n.Dispose()',
      ],
      { STRAIGHTEDGE_TITLE: title, STRAIGHTEDGE_BODY: body },
    );
  if (machine.platform === 'darwin')
    return appleScript(['display notification (item 2 of argv) with title (item 1 of argv)'], [title, body]);
  const program = findProgram(['notify-send'], machine);
  return program === null ? null : { program, args: ['--app-name=Straightedge', '--', title, withoutMarkup(body)], environment: {} };
}

const withEnvironment = ({ environment }: Command): NodeJS.ProcessEnv => ({ ...process.env, ...environment });

/** The output of a command; null when it fails. No timeout where a person answers. */
const printed = (command: Command, timeout?: number): Promise<string | null> =>
  new Promise((resolve) => {
    execFile(command.program, [...command.args], { encoding: 'utf8', env: withEnvironment(command), timeout }, (error, out) =>
      resolve(error === null ? out : null),
    );
  });

/** Time in which an opener can fail, ms; later it counts as running, because some openers stay with the file. */
const REFUSE_MS = 2000;

/** The exit code of a started program, or null if it is still running. @throws when it could not be started */
export function watchStart(child: ChildProcess, waitMs: number): Promise<number | null> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => {
      child.removeAllListeners();
      resolve(null);
    }, waitMs);
    child.once('error', (error) => {
      clearTimeout(timer);
      reject(error);
    });
    child.once('exit', (code) => {
      clearTimeout(timer);
      // Ended by a signal: no exit code, and no success.
      resolve(code ?? 1);
    });
  });
}

/** Opens a file or folder and waits for an error. @throws {DeskFailure} when no program opens it */
export async function openWithSystem(path: string, machine: Surroundings, waitMs = REFUSE_MS): Promise<void> {
  const command = openCommand(path, machine);
  const child = spawn(command.program, command.args, { detached: true, stdio: 'ignore', env: withEnvironment(command) });
  child.unref();
  const code = await watchStart(child, waitMs).catch(() => 1);
  if (code === null || code === 0) return;
  const paths = machine.platform === 'win32' ? win32 : posix;
  throw new DeskFailure(
    'unsupported',
    `No program on this computer opened ${paths.basename(path)}. The file is saved in ${paths.dirname(path)}. Open it from there.`,
  );
}

/** Returns a function that asks for a folder, null when canceled; or null where the system has no dialog. */
export function folderDialog(machine: Surroundings): ((title: string) => Promise<string | null>) | null {
  if (folderCommand('', machine) === null) return null;
  return async (title) => {
    const command = folderCommand(title, machine);
    const path = (command === null ? null : await printed(command))?.replace(/\r?\n$/, '') ?? '';
    return path === '' ? null : path;
  };
}

const NOTIFY_MS = 20_000;

/** Returns a function that shows a notification and returns whether it was accepted; null where there is no program for it. */
export function systemNotification(machine: Surroundings): ((title: string, body: string) => Promise<boolean>) | null {
  if (notificationCommand('', '', machine) === null) return null;
  return async (title, body) => {
    const command = notificationCommand(title, body, machine);
    return command !== null && (await printed(command, NOTIFY_MS)) !== null;
  };
}
