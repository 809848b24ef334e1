/** A notice of the system, shown by the program the system has for it: the page need not be in front, nor ask for leave. */
import { execFile } from 'node:child_process';
import { findProgram } from './app-window.ts';

/** The words come in by the environment, so that nothing in them is read as a command. */
const ON_WINDOWS = [
  'Add-Type -AssemblyName System.Windows.Forms, System.Drawing',
  '$n = New-Object System.Windows.Forms.NotifyIcon',
  '$n.Icon = [System.Drawing.SystemIcons]::Information',
  '$n.Visible = $true',
  '$n.ShowBalloonTip(10000, $env:STRAIGHTEDGE_TITLE, $env:STRAIGHTEDGE_BODY, [System.Windows.Forms.ToolTipIcon]::None)',
  'Start-Sleep -Seconds 10',
  '$n.Dispose()',
].join('; ');
const ON_MAC = ['on run argv', 'display notification (item 2 of argv) with title (item 1 of argv)', 'end run'];

type Command = { readonly program: string; readonly flags: readonly string[] };

/** The body may carry marks of its own on some desktops: what looks like one is written out. */
const plain = (text: string): string => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');

const commandOf = (pathVariable: string): ((title: string, body: string) => Command) | null => {
  if (process.platform === 'win32') return () => ({ program: 'powershell.exe', flags: ['-NoProfile', '-STA', '-Command', ON_WINDOWS] });
  if (process.platform === 'darwin')
    return (title, body) => ({ program: 'osascript', flags: [...ON_MAC.flatMap((line) => ['-e', line]), '--', title, body] });
  const program = findProgram(['notify-send'], pathVariable);
  return program === null ? null : (title, body) => ({ program, flags: ['--app-name=Straightedge', '--', title, plain(body)] });
};

/** A function that shows a notice and says whether it was taken; null where the system has no program for it. */
export function systemNotice(pathVariable: string): ((title: string, body: string) => Promise<boolean>) | null {
  const command = commandOf(pathVariable);
  if (command === null) return null;
  return (title, body) =>
    new Promise((resolve) => {
      const { program, flags } = command(title, body);
      const env = { ...process.env, STRAIGHTEDGE_TITLE: title, STRAIGHTEDGE_BODY: body };
      execFile(program, [...flags], { env, timeout: 20_000 }, (error) => resolve(error === null));
    });
}
