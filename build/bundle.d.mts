/** Types of the build's own functions that tests call. */
export function buildHosts(): Promise<void>;
export function buildAll(): Promise<void>;
