/** Types for the tests that start a browser. */
export function chromiumArgs(): string[];
