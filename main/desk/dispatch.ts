/**
 * The only entry to the desk: checks the name, parses the input, runs the handler, and returns an envelope that survives JSON. Never
 * rejects.
 */
import { CALL_NAMES, type CallName } from '../../shared-core/desk/call-names.ts';
import { CALLS, type Gives, type Taken } from '../../shared-core/desk/calls.ts';
import { type Envelope, failure, success } from '../../shared-core/desk/envelope.ts';
import { DeskFailure } from './failure.ts';

export type CallHandlers = { [N in CallName]: (input: Taken<N>) => Promise<Gives<N>> };
export type Dispatch = (name: unknown, input: unknown) => Promise<Envelope<unknown>>;

const isCall = (name: unknown): name is CallName => typeof name === 'string' && (CALL_NAMES as readonly string[]).includes(name);

/**
 * Makes the dispatcher for a set of handlers.
 * @param log where bugs are logged; the screen gets a sentence, never a stack
 */
export function createDispatch(handlers: CallHandlers, log: (line: string) => void): Dispatch {
  const run = async <N extends CallName>(name: N, input: unknown): Promise<Envelope<unknown>> => {
    const parsed = CALLS[name].takes.safeParse(input);
    if (!parsed.success) {
      const issue = parsed.error.issues[0];
      const where = issue === undefined || issue.path.length === 0 ? '' : ` (${issue.path.join('.')})`;
      return failure('bad-input', `${issue?.message ?? 'The request cannot be read.'}${where}`);
    }
    // The schema that parsed the input is the one the handler's type is derived from.
    return success(await handlers[name](parsed.data as Taken<N>));
  };
  return async (name, input) => {
    if (!isCall(name)) return failure('unknown-call', 'This version does not support that request.');
    try {
      return await run(name, input);
    } catch (error) {
      if (error instanceof DeskFailure) return failure(error.code, error.message);
      log(`${name}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
      return failure('failed', 'Something went wrong and was written to the log. Your data was not changed.');
    }
  };
}
