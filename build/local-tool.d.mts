/** Types of the tool runner's functions that tests call. */
export function npmEntry(
  environment: Readonly<Record<string, string | undefined>>,
  nodePath: string,
  isThere: (path: string) => boolean,
): string | null;
export function entryOf(packageName: string, program?: string): string;
