/** Types of the build's own functions that the test set-up calls. */
export function chromiumPath(): string;
export function chromiumArgs(): string[];
