/** What is wrong in one style sheet by itself. */
export function problemsOf(text: string, names: readonly string[]): string[];
