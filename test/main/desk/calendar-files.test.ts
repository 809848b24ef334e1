import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CalendarEvent } from '../../../shared-core/agenda/calendar-feed.ts';
import { replaceOwnFile } from '../../../main/desk/files.ts';
import { workingDesk } from './working-desk.ts';
import { scratchFolder } from '../../scratch-folder.ts';
import { removeFolder } from '../../../build/remove-folder.mjs';

const event: CalendarEvent = {
  uid: 'job-a:pour:room-a@straightedge',
  jobId: 'job-a',
  sequence: 0,
  status: 'CONFIRMED',
  summary: 'Pour the hall',
  description: '',
  location: '',
  startAt: '2026-05-13T14:00:00.000Z',
  endAt: '2026-05-13T16:00:00.000Z',
  day: null,
  timeZone: 'America/New_York',
  busy: true,
  alarmsMin: [60],
};
const calendar = (sequence = 0) => ({
  file: 'Straightedge calendar.ics',
  name: 'Straightedge',
  events: [{ ...event, sequence }],
  sentAt: '2026-05-12T11:05:00.000Z',
});

describe('calendar files', () => {
  it('go to the documents folder until another is chosen, and replace the earlier one there', async () => {
    const chosen = scratchFolder('calendar');
    const titles: string[] = [];
    const desk = workingDesk({
      chooseFolder: (title) => {
        titles.push(title);
        return Promise.resolve(chosen);
      },
    });
    expect(await desk.dispatch('calendar.place', {})).toMatchObject({ ok: true, value: { folder: desk.papers, chosen: false } });
    expect(await desk.dispatch('calendar.save', calendar())).toMatchObject({ ok: true, value: { folder: desk.papers } });
    expect(await desk.dispatch('calendar.choose', { choose: 'other' })).toMatchObject({
      ok: true,
      value: { folder: chosen, changed: true },
    });
    expect(titles).toEqual(['Calendar folder']);
    for (const sequence of [0, 1]) await desk.dispatch('calendar.save', calendar(sequence));
    expect(readdirSync(chosen)).toEqual(['Straightedge calendar.ics']);
    const text = readFileSync(join(chosen, 'Straightedge calendar.ics'), 'utf8');
    expect(text).toContain('SEQUENCE:1\r\n');
    expect(await desk.dispatch('calendar.choose', { choose: 'usual' })).toMatchObject({ ok: true, value: { folder: desk.papers } });
  });

  it('of two sets of data in one folder stay separate, each updated under its own name', async () => {
    const papersFolder = scratchFolder('shared');
    const [one, two] = [workingDesk({ papersFolder }), workingDesk({ papersFolder })];
    await one.dispatch('calendar.save', calendar(1));
    expect(await two.dispatch('calendar.save', calendar(2))).toMatchObject({ ok: true, value: { name: 'Straightedge calendar (2).ics' } });
    expect(await one.dispatch('calendar.save', calendar(3))).toMatchObject({ ok: true, value: { name: 'Straightedge calendar.ics' } });
    expect(await two.dispatch('calendar.save', calendar(4))).toMatchObject({ ok: true, value: { name: 'Straightedge calendar (2).ics' } });
    const text = (name: string): string => readFileSync(join(papersFolder, name), 'utf8');
    expect(text('Straightedge calendar.ics')).toContain('SEQUENCE:3\r\n');
    expect(text('Straightedge calendar (2).ics')).toContain('SEQUENCE:4\r\n');
  });

  it('report a missing chosen folder, and do not create it again', async () => {
    const chosen = join(scratchFolder('calendar'), 'disk');
    mkdirSync(chosen);
    const desk = workingDesk({ chooseFolder: () => Promise.resolve(chosen) });
    await desk.dispatch('calendar.choose', { choose: 'other' });
    removeFolder(chosen);
    const saved = await desk.dispatch('calendar.save', calendar());
    expect(saved).toMatchObject({ ok: false, error: { code: 'not-found' } });
    expect(saved.ok ? '' : saved.error.message).toContain('was not found');
    expect(() => readdirSync(chosen)).toThrow();
  });

  it('do not create the chosen folder again when its disk is disconnected while a file is written', async () => {
    const chosen = join(scratchFolder('calendar'), 'disk');
    mkdirSync(chosen);
    const dataFolder = scratchFolder('data');
    await replaceOwnFile(dataFolder, chosen, 'Dates.ics', Buffer.from('one'));
    removeFolder(chosen);
    for (const name of ['Dates.ics', 'Job 26-001 dates.ics'])
      await expect(replaceOwnFile(dataFolder, chosen, name, Buffer.from('two'))).rejects.toMatchObject({ code: 'not-found' });
    expect(() => readdirSync(chosen)).toThrow();
  });

  it('stay where they are when the dialog is canceled or the host has none', async () => {
    const desk = workingDesk({ chooseFolder: () => Promise.resolve(null) });
    expect(await desk.dispatch('calendar.choose', { choose: 'other' })).toMatchObject({ ok: true, value: { changed: false } });
    expect(await workingDesk().dispatch('calendar.choose', { choose: 'other' })).toMatchObject({
      ok: false,
      error: { code: 'unsupported' },
    });
  });
});
