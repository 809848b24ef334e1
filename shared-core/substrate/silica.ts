/** Tasks of Table 1 in floor work, plus `mix-bags` and `shot-blaster`, which are not in the table. */
export type DustTask =
  | 'walk-behind-grinder'
  | 'hand-grinder'
  | 'drill'
  | 'chipping-hammer'
  | 'walk-behind-saw'
  | 'hand-saw'
  | 'shot-blaster'
  | 'mix-bags';

type TableRow = {
  readonly entry: string;
  /** Assigned protection factor of the respirator indoors, up to 4 h and over 4 h; 0 is none required. */
  readonly apf: readonly [number, number];
  readonly controls: string;
};

/** Rows of Table 1, as public transcriptions give them; saws as the California copy (8 CCR 1532.3) prints them. */
export const SILICA_TABLE: Readonly<Record<Exclude<DustTask, 'mix-bags' | 'shot-blaster'>, TableRow>> = {
  'walk-behind-grinder': {
    entry: '(xiii)',
    apf: [0, 0],
    controls:
      'Dust collector at the manufacturer’s air flow with a 99% filter and filter cleaning, or water. Between passes, HEPA vacuum the loose dust.',
  },
  'hand-grinder': {
    entry: '(xii)',
    apf: [0, 10],
    controls:
      'Shroud and dust collector with 25 cfm per inch of wheel, a 99% filter, and a cyclonic pre-separator or filter cleaning. No water indoors.',
  },
  drill: {
    entry: '(vii)',
    apf: [0, 0],
    controls: 'Shroud or cowling with a dust collector, 99% filter and filter cleaning. Clean holes with a HEPA vacuum.',
  },
  'chipping-hammer': {
    entry: '(x)',
    apf: [10, 10],
    controls: 'Water at the tip, or a shroud with a dust collector and 99% filter.',
  },
  'walk-behind-saw': { entry: '(iv)', apf: [10, 10], controls: 'Water fed to the blade.' },
  'hand-saw': { entry: '(ii)', apf: [10, 10], controls: 'Water fed to the blade.' },
};

/** Hours after which the stricter column of Table 1 applies. */
export const SILICA_LONG_HOURS = 4;

/** Requirements of Table 1 for a task: the respirator's protection factor (0 for none) and the controls, or that the task is not listed. */
export type DustAnswer =
  | { readonly inTable: true; readonly entry: string; readonly apf: number; readonly controls: string }
  | { readonly inTable: false; readonly text: string };

/**
 * Requirements of 29 CFR 1926.1153 Table 1 for a task indoors. Controls are required even where no respirator is.
 * @param hours hours of the task in the day
 */
export function silicaAnswer(task: DustTask, hours: number): DustAnswer {
  if (task === 'mix-bags' || task === 'shot-blaster') {
    const taskName = task === 'mix-bags' ? 'Mixing dry powder' : 'Shot blasting';
    return { inTable: false, text: `${taskName} is not a Table 1 task: assess the exposure, or show it stays below 25 µg/m³ over 8 h.` };
  }
  const { entry, apf, controls } = SILICA_TABLE[task];
  return { inTable: true, entry, apf: apf[hours > SILICA_LONG_HOURS ? 1 : 0], controls };
}

/** Respirator and controls of a task indoors in one line, for the crew: `APF 10 respirator, fit-tested. Shroud …`. */
export function dustWords(task: DustTask, hours: number): string {
  const answer = silicaAnswer(task, hours);
  if (!answer.inTable) return answer.text;
  const respirator =
    answer.apf === 0 ? 'No respirator required with these controls.' : `Fit-tested respirator, APF ${answer.apf}, from the first minute.`;
  return `${respirator} ${answer.controls} 29 CFR 1926.1153 Table 1 ${answer.entry}.`;
}
