/** Whose figure a sheet gives, in the same words in every finding, screen and document. */
import type { FigureSource, PowderSheet } from '../book/material.ts';

type Figure = { readonly source: FigureSource } | null | undefined;

/** Whether a figure is typical. Null or absent is no sheet, or no figure of its own. */
export const isTypicalFigure = (figure: Figure): boolean => figure == null || figure.source === 'typical';
/** Goes before the name of a figure: “the typical minimum”, “the data sheet’s minimum”. */
export const ownerWord = (isTypical: boolean): string => (isTypical ? 'typical' : 'data sheet’s');
/** The same for a figure. */
export const whose = (figure: Figure): string => ownerWord(isTypicalFigure(figure));

/** Whether no figure of a sheet was entered or confirmed, so that its list of substrates is typical too. */
export const isTypicalSheet = (powder: PowderSheet): boolean =>
  [...Object.values(powder), ...powder.milestones].every(
    (figure) => typeof figure !== 'object' || figure === null || !('source' in figure) || figure.source === 'typical',
  );
