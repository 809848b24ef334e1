/** The desk's tests in one bundle, for a Node that cannot load the test runner. The result is written to the given file. */
import { writeFileSync } from 'node:fs';
import '../setup.ts';
import '../main/desk/dispatch.test.ts';
import '../main/desk/calendar.test.ts';
import '../main/desk/calendar-files.test.ts';
import '../main/desk/recovery-log-files.test.ts';
import '../main/desk/backups/backup.test.ts';
import '../main/desk/backups/encryption.test.ts';
import '../main/desk/places.test.ts';
import '../main/desk/log.test.ts';
import '../main/loopback/running.test.ts';
import '../main/loopback/server.test.ts';
import { runAll } from './small-runner.ts';

const lines: string[] = [];
const counts = await runAll((line) => void lines.push(line));
writeFileSync(process.argv[2] ?? 'result.json', JSON.stringify({ platform: process.platform, ...counts, lines }));
