/** What the Backup screen says while the disk of the Backups folder is not connected. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { BackupsPart } from '../../../renderer/backup/BackupsPart.tsx';
import { FolderPart } from '../../../renderer/backup/FolderPart.tsx';
import type { Gives } from '../../../shared-core/desk/calls.ts';

const EMPTY: Gives<'backup.list'> = {
  ...{ folder: '/disk/Backups', chosen: true, canChoose: true, limitBytes: 2_000_000_000 },
  ...{ problem: null, photosBytes: 0, freeBytes: 5_000_000_000, backups: [] },
};
const shown = (listed: Gives<'backup.list'>): readonly string[] => [
  renderToStaticMarkup(createElement(BackupsPart, { listed, when: String, onOpen: () => undefined, onSay: () => undefined })),
  renderToStaticMarkup(createElement(FolderPart, { listed, onSay: () => undefined })),
];

it('where the folder was not found, list and space say nothing of it: the screen says why, once', () => {
  const [list, folder] = shown(EMPTY);
  expect(list).toContain('No backups yet.');
  expect(folder).toContain('free on this disk');
  const problem = 'The Backups folder /disk/Backups was not found.';
  for (const part of shown({ ...EMPTY, problem, freeBytes: null })) {
    expect(part).not.toContain(problem);
    expect(part).not.toMatch(/No backups yet|Backups use|free on this disk/);
  }
});
