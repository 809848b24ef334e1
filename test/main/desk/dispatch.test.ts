import { mkdirSync, readdirSync, readFileSync, statSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { explainDisk } from '../../../main/desk/failure.ts';
import { createDispatch } from '../../../main/desk/dispatch.ts';
import { createHandlers } from '../../../main/desk/handlers.ts';
import { CONTRACT_CASES } from './contract-cases.ts';
import { workingDesk } from './working-desk.ts';
import { scratchFolder } from '../../scratch-folder.ts';

describe('the desk, called directly', () => {
  for (const { name, run } of CONTRACT_CASES) it(name, () => run(workingDesk().dispatch));

  it('logs a bug and gives the screen a sentence without it', async () => {
    const log: string[] = [];
    const handlers = createHandlers({
      host: 'x',
      version: '0',
      papersFolder: '/nowhere',
      dataFolder: '/nowhere',
      usualBackups: '/nowhere',
      chooseFolder: null,
      remember: null,
      fontsFolder: '/nowhere',
      openPath: null,
      stayAwake: null,
      notify: null,
      log: () => undefined,
    });
    const dispatch = createDispatch({ ...handlers, 'desk.about': () => Promise.reject(new Error('secret detail')) }, (line) =>
      log.push(line),
    );
    const answer = await dispatch('desk.about', {});
    expect(answer).toMatchObject({ ok: false, error: { code: 'failed' } });
    expect(JSON.stringify(answer)).not.toContain('secret detail');
    expect(log.join()).toContain('secret detail');
  });

  it('reports what a host cannot do', async () => {
    const { dispatch } = workingDesk({ openPath: null });
    expect(await dispatch('folder.open', {})).toMatchObject({ ok: false, error: { code: 'unsupported' } });
  });
});

describe('saving files', () => {
  it('never replaces a file with other content, and saves one with the same once', async () => {
    const { dispatch, papers } = workingDesk();
    const save = async (text: string): Promise<unknown> => {
      const answer = await dispatch('file.save', { name: 'Quote 26-001.pdf', base64: Buffer.from(text).toString('base64') });
      return answer.ok ? (answer.value as { name: string }).name : answer.error.message;
    };
    expect(await save('one')).toBe('Quote 26-001.pdf');
    expect(await save('two')).toBe('Quote 26-001 (2).pdf');
    expect(await save('one')).toBe('Quote 26-001.pdf');
    expect(await save('two')).toBe('Quote 26-001 (2).pdf');
    expect(readFileSync(join(papers, 'Quote 26-001.pdf'), 'utf8')).toBe('one');
    expect(readdirSync(papers).sort()).toEqual(['Quote 26-001 (2).pdf', 'Quote 26-001.pdf']);
  });

  it.skipIf(process.platform === 'win32')(
    'keeps files and folders private to this user, and removes partial files of a killed program',
    async () => {
      const { dispatch, papers } = workingDesk();
      await dispatch('file.save', { name: 'a.csv', base64: '', folder: 'Job 26-001' });
      const job = join(papers, 'Job 26-001');
      expect(statSync(job).mode & 0o777).toBe(0o700);
      expect(statSync(join(job, 'a.csv')).mode & 0o777).toBe(0o600);
      const half = join(job, '.0123456789abcdef.part');
      writeFileSync(half, 'half');
      utimesSync(half, 1, 1);
      await dispatch('file.save', { name: 'b.csv', base64: '', folder: 'Job 26-001' });
      expect(readdirSync(job).sort()).toEqual(['a.csv', 'b.csv']);
    },
  );

  it.skipIf(process.platform === 'win32')('does not follow a link inside the documents folder', async () => {
    const { dispatch, papers } = workingDesk();
    const elsewhere = scratchFolder('elsewhere');
    mkdirSync(papers, { recursive: true });
    symlinkSync(elsewhere, join(papers, 'Job 26-002'));
    expect(await dispatch('file.save', { name: 'a.csv', base64: '', folder: 'Job 26-002' })).toMatchObject({
      ok: false,
      error: { code: 'not-allowed', message: expect.stringContaining('link') },
    });
    expect(readdirSync(elsewhere)).toEqual([]);
    writeFileSync(join(elsewhere, 'secret.txt'), 'secret');
    symlinkSync(join(elsewhere, 'secret.txt'), join(papers, 'note.txt'));
    expect(await dispatch('file.open', { name: 'note.txt' })).toMatchObject({ ok: false, error: { code: 'not-allowed' } });
    expect(await dispatch('file.save', { name: 'note.txt', base64: 'eHg=' })).toMatchObject({ ok: true, value: { name: 'note (2).txt' } });
    expect(readFileSync(join(elsewhere, 'secret.txt'), 'utf8')).toBe('secret');
  });

  it('reports a folder that is a file', async () => {
    const { dispatch, papers, log } = workingDesk();
    mkdirSync(join(papers, '..'), { recursive: true });
    writeFileSync(papers, 'in the way');
    const answer = await dispatch('file.save', { name: 'a.csv', base64: '' });
    expect(answer).toMatchObject({
      ok: false,
      error: { code: 'read-only', message: expect.stringContaining('where its folder should be') },
    });
    expect(log.length).toBeLessThanOrEqual(1);
    expect(readFileSync(papers, 'utf8')).toBe('in the way');
  });

  it('turns each disk failure into a sentence that says what to do', () => {
    const codes = { ENOSPC: 'disk-full', EACCES: 'read-only', EROFS: 'read-only', EBUSY: 'in-use', ENOENT: 'not-found' };
    for (const [errno, code] of Object.entries(codes)) {
      const explained = explainDisk(Object.assign(new Error(errno), { code: errno }), 'Quote.pdf');
      expect(explained).toMatchObject({ code, message: expect.stringContaining('Quote.pdf') });
    }
    // What was tried decides what to do: another folder helps saving alone.
    for (const tried of ['opened', 'deleted'] as const)
      for (const errno of Object.keys(codes)) {
        const explained = explainDisk(Object.assign(new Error(errno), { code: errno }), 'Quote.pdf', tried);
        expect(String(explained)).not.toMatch(/not saved|another folder/);
        if (['EACCES', 'EROFS', 'ENOSPC'].includes(errno)) expect(String(explained)).toContain(`Quote.pdf was not ${tried}`);
      }
    const other = new Error('else');
    expect(explainDisk(other, 'x')).toBe(other);
  });
});
