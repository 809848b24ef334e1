/** Questions about impossible or unlikely readings. They are shown at the field, and the reading is saved as entered. */
import type { FloorTest, Layer } from '../book/layer.ts';
import { kindOf } from './test-kinds.ts';
import type { Wording } from './wording.ts';

/** The present time, and the year the house was built where known. */
export type OddContext = { readonly now: string; readonly yearBuilt: number | null };

function whenAsked(test: FloorTest, context: OddContext): readonly string[] {
  const takenMs = Date.parse(test.takenAt);
  if (takenMs > Date.parse(context.now)) return ['This test is dated in the future. Check the date.'];
  if (context.yearBuilt !== null && new Date(takenMs).getUTCFullYear() < context.yearBuilt) {
    return [`This test is older than the house, built in ${context.yearBuilt}. Check the date.`];
  }
  return [];
}

/**
 * Questions about one test; empty when nothing is unlikely. The test is saved as entered either way.
 * @param wording formats the figures
 */
export function questionsAboutTest(test: FloorTest, context: OddContext, wording: Wording): readonly string[] {
  return [
    ...whenAsked(test, context),
    ...kindOf(test)
      .questions(test, wording)
      .filter((question) => question !== false),
  ];
}

/** Questions about a layer's year; empty when nothing is unlikely. */
export function questionsAboutLayer(layer: Layer, context: OddContext): readonly string[] {
  const year = layer.yearInstalled;
  if (year === null) return [];
  if (year > new Date(Date.parse(context.now)).getUTCFullYear()) return [`${year} is in the future. Check the year installed.`];
  if (context.yearBuilt !== null && year < context.yearBuilt) {
    return [
      `Installed in ${year}, before the house was built in ${context.yearBuilt}. Check both years: age decides what may be disturbed.`,
    ];
  }
  return [];
}
