/** Types of the preparation's functions that tests call. */
export function explainRefusal(error: unknown, folder: string): unknown;
