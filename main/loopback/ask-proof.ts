/** Asks the process behind a note to prove that it is the host that wrote it. */
import { randomBytes } from 'node:crypto';
import { request } from 'node:http';
import { isProof } from './launch-code.ts';
import type { Pulse, Running } from './running.ts';

const WAIT_MS = 3000;
/** A proof has 43 characters; a longer reply is not one. */
const MAX_ANSWER = 256;

/** Asks for the proof without sending the key. */
export function askProof({ port, key }: Running): Promise<Pulse> {
  const challenge = randomBytes(18).toString('base64url');
  return new Promise((resolve) => {
    const asked = request(
      { host: '127.0.0.1', port, path: `/proof/${challenge}`, method: 'GET', headers: { host: `127.0.0.1:${port}` }, timeout: WAIT_MS },
      (response) => {
        let answer = '';
        response.setEncoding('utf8');
        response.on('data', (part: string) => {
          answer += part;
          if (answer.length > MAX_ANSWER) asked.destroy();
        });
        response.on('close', () => resolve(isProof(key, challenge, answer) ? 'alive' : 'gone'));
        response.on('error', () => undefined);
      },
    );
    asked.on('timeout', () => {
      resolve('silent');
      asked.destroy();
    });
    asked.on('error', () => resolve('gone'));
    asked.end();
  });
}
