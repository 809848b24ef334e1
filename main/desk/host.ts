/** What differs between the hosts of the desk. */
import type { Handed } from './backups/passed-file.ts';

/** What a host provides. A null function means that the host cannot do it. */
export type Machine = {
  readonly host: string;
  readonly version: string;
  readonly papersFolder: string;
  /** The program's own folder, for settings of this computer. */
  readonly dataFolder: string;
  /** Default folder of backups. */
  readonly usualBackups: string;
  /** Opens the system's dialog; its answer is null when it is canceled. */
  readonly chooseFolder: ((title: string) => Promise<string | null>) | null;
  /** Takes the backup that the system passed to the program; its answer is null when there is none. */
  readonly takeHanded?: (mostBytes: number) => Promise<Handed | null>;
  readonly fontsFolder: string;
  readonly openPath: ((path: string) => Promise<void>) | null;
  readonly stayAwake: ((on: boolean) => boolean) | null;
  /** Called for each file saved or opened, for the system's list of recent files. */
  readonly remember: ((path: string) => void) | null;
  /** Returns whether the system accepted it. */
  readonly notify: ((title: string, body: string) => boolean | Promise<boolean>) | null;
  readonly log: (line: string) => void;
};
