/**
 * The part of the Web Locks API (W3C) that the program uses, for one page: a lock is held by one at a time, in the order of the requests, and
 * one asked for with `ifAvailable` is given at once or not at all.
 */
type Work = (lock: { readonly name: string } | null) => unknown;
export type PageLocks = { readonly request: (name: string, ...rest: [Work] | [{ readonly ifAvailable: true }, Work]) => Promise<unknown> };

export function pageLocks(): PageLocks {
  const ends = new Map<string, Promise<unknown>>();
  return {
    request: (name, ...rest) => {
      const [work, isOptional] = rest.length === 1 ? [rest[0], false] : [rest[1], true];
      const before = ends.get(name);
      if (isOptional && before !== undefined) return Promise.resolve(work(null));
      const run = (async () => {
        await before;
        return work({ name });
      })();
      const end = run
        .catch(() => undefined)
        .then(() => {
          if (ends.get(name) === end) ends.delete(name);
        });
      ends.set(name, end);
      return run;
    },
  };
}
