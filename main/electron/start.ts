/** Entry of the packaged program. */
import { join } from 'node:path';
import { startShell } from './main.ts';

void startShell(join(__dirname, '..'));
