/** Of a handover to come: its sheet is saved and up to date, its floors cure, and no money is asked for. */
export const SAVED_SHEET = { revision: 1, isStale: false, outOfDate: [], isCuring: true, moneyLeft: null } as const;
