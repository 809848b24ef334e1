/** Types of the runtime search's functions that tests call. */
export function runtimePath(folder: string, platform: NodeJS.Platform): string;
