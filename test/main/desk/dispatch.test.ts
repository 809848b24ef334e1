import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { explainDisk } from '../../../main/desk/failure.ts';
import { createDispatch } from '../../../main/desk/dispatch.ts';
import { createHandlers } from '../../../main/desk/handlers.ts';
import { CONTRACT_CASES } from './contract-cases.ts';
import { workingDesk } from './working-desk.ts';

describe('the desk, asked directly', () => {
  for (const { name, run } of CONTRACT_CASES) it(name, () => run(workingDesk().dispatch));

  it('writes a bug to the log and gives the screen a sentence without it', async () => {
    const log: string[] = [];
    const handlers = createHandlers({
      host: 'x',
      version: '0',
      papersFolder: '/nowhere',
      dataFolder: '/nowhere',
      usualCopies: '/nowhere',
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

  it('says what a host cannot do', async () => {
    const { dispatch } = workingDesk({ openPath: null });
    expect(await dispatch('folder.open', {})).toMatchObject({ ok: false, error: { code: 'unsupported' } });
  });
});

describe('keeping files', () => {
  it('replaces a file whole and leaves nothing beside it', async () => {
    const { dispatch, papers } = workingDesk();
    for (const text of ['one', 'two']) await dispatch('file.keep', { name: 'a.csv', base64: Buffer.from(text).toString('base64') });
    expect(readFileSync(join(papers, 'a.csv'), 'utf8')).toBe('two');
    expect(readdirSync(papers)).toEqual(['a.csv']);
  });

  it('says so when the folder is a file', async () => {
    const { dispatch, papers, log } = workingDesk();
    mkdirSync(join(papers, '..'), { recursive: true });
    writeFileSync(papers, 'in the way');
    const answer = await dispatch('file.keep', { name: 'a.csv', base64: '' });
    expect(answer).toMatchObject({
      ok: false,
      error: { code: 'read-only', message: expect.stringContaining('where its folder should be') },
    });
    expect(log.length).toBeLessThanOrEqual(1);
    expect(readFileSync(papers, 'utf8')).toBe('in the way');
  });

  it('puts each disk failure into words that say what to do', () => {
    const codes = { ENOSPC: 'disk-full', EACCES: 'read-only', EROFS: 'read-only', EBUSY: 'in-use', ENOENT: 'not-found' };
    for (const [errno, code] of Object.entries(codes)) {
      const explained = explainDisk(Object.assign(new Error(errno), { code: errno }), 'Quote.pdf');
      expect(explained).toMatchObject({ code, message: expect.stringContaining('Quote.pdf') });
    }
    const other = new Error('else');
    expect(explainDisk(other, 'x')).toBe(other);
  });
});
