/** Primer by substrate: coats, dilution, liters. */
import type { Material, PrimerUse } from '../book/material.ts';
import type { Found } from '../measure/parsed.ts';

/** The substrates a primer's data sheet distinguishes. */
export type PrimedSubstrate = PrimerUse['substrate'];

/** The primer a room needs. */
export type PrimerNeed = {
  readonly primerId: string;
  readonly substrate: PrimedSubstrate;
  readonly coats: number;
  /** Liters of what is spread, all coats together. */
  readonly spreadL: number;
  /** Liters out of the jug, and water added to them. */
  readonly neatL: number;
  readonly waterL: number;
  readonly waterParts: number;
  readonly coverageM2PerL: number;
  /** Drying of one coat, hours. */
  readonly dryHours: { readonly least: number; readonly most: number };
  /** Whether its figures are typical. */
  readonly typical: boolean;
};

/** A primer that cannot be used here, by name; `for` are the substrates its sheet names. */
export type PrimerProblem =
  | { readonly kind: 'no-coverage'; readonly name: string }
  | { readonly kind: 'not-entered'; readonly name: string }
  | {
      readonly kind: 'other-substrate';
      readonly name: string;
      readonly for: readonly PrimedSubstrate[];
      readonly substrate: PrimedSubstrate;
    };

/**
 * The primer of one room.
 * @param primer a data sheet with its uses
 * @param substrate what is primed
 * @param areaM2 primed once a coat
 * @returns the liters, or why this primer cannot be used here
 */
export function primerNeed(primer: Material, substrate: PrimedSubstrate, areaM2: number): Found<PrimerNeed, PrimerProblem> {
  const { name } = primer;
  if (primer.primer.length === 0) return { ok: false, problem: { kind: 'no-coverage', name } };
  // The use for non-porous substrates stands for tile where a sheet does not name tile.
  const use =
    primer.primer.find((u) => u.substrate === substrate) ??
    (substrate === 'tile' ? primer.primer.find((u) => u.substrate === 'non-porous') : undefined);
  if (use === undefined)
    return { ok: false, problem: { kind: 'other-substrate', name, for: primer.primer.map((u) => u.substrate), substrate } };
  if (!(areaM2 >= 0) || !(use.coverageM2PerL > 0)) return { ok: false, problem: { kind: 'not-entered', name } };
  const spreadL = (areaM2 * use.coats) / use.coverageM2PerL;
  const neatL = spreadL / (1 + use.waterParts);
  return {
    ok: true,
    value: {
      primerId: primer.id,
      substrate,
      coats: use.coats,
      spreadL,
      neatL,
      waterL: spreadL - neatL,
      waterParts: use.waterParts,
      coverageM2PerL: use.coverageM2PerL,
      dryHours: { least: use.dryHoursLeast, most: use.dryHoursMost },
      typical: isTypicalUse(primer, use),
    },
  };
}

/** True while the figures of a use are typical ones. */
export function isTypicalUse(primer: Pick<Material, 'typical'>, use: PrimerUse): boolean {
  return use.source === undefined ? primer.typical : use.source === 'typical';
}
