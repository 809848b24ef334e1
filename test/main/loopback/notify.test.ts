import { chmodSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { systemNotice } from '../../../main/loopback/notify.ts';

const bin = (script: string): string => {
  const folder = mkdtempSync(join(tmpdir(), 'straightedge-bin-'));
  writeFileSync(join(folder, 'notify-send'), `#!/bin/sh\n${script}\n`);
  chmodSync(join(folder, 'notify-send'), 0o755);
  return folder;
};

// The program is found on the path on Linux alone; the other systems bring their own.
describe.runIf(process.platform === 'linux')('a notice of the system', () => {
  it('hands over title and body as words, never as options or marks', async () => {
    const folder = bin(`printf '%s\\n' "$@" > "$(dirname "$0")/said"`);
    expect(await systemNotice(folder)?.('--expire-time=1 $(date)', 'a <b>bold</b> & plain line')).toBe(true);
    expect(readFileSync(join(folder, 'said'), 'utf8').split('\n')).toEqual([
      '--app-name=Straightedge',
      '--',
      '--expire-time=1 $(date)',
      'a &lt;b&gt;bold&lt;/b&gt; &amp; plain line',
      '',
    ]);
  });

  it('that the system does not take is known', async () => {
    expect(await systemNotice(bin('exit 1'))?.('Title', 'body')).toBe(false);
  });

  it('cannot be shown where no program for it is on the path', () => {
    expect(systemNotice(mkdtempSync(join(tmpdir(), 'straightedge-bin-')))).toBeNull();
  });
});
