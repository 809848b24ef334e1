/** Evaporation from fresh concrete: the published chart case, and cases worked from Uno's printed inch-pound equation. °F, mph, lb/ft²/h, kg/m²/h. */
export const EVAPORATION_CASES = [
  { id: 'E2', surfaceF: 70, airF: 70, share: 0.5, mph: 10, lb: 0.1025, kg: 0.5004 },
  { id: 'E3', surfaceF: 90, airF: 90, share: 0.5, mph: 10, lb: 0.1921, kg: 0.938 },
  { id: 'E3b', surfaceF: 90, airF: 90, share: 0.5, mph: 11, lb: 0.20748, kg: 1.01299 },
] as const;

/** E1: the arrows on the ACI 305 nomograph, about 0.25 lb/ft²/h (1.2 kg/m²/h). */
export const CHART_CASE = { surfaceF: 87, airF: 80, share: 0.5, mph: 12, lb: 0.25, lbWithin: 0.02, kg: 1.2, kgWithin: 0.1 } as const;

/** E8: condensation. Uno's equation gives −0.0105. */
export const CONDENSING_CASE = { surfaceF: 70, airF: 80, share: 0.9, mph: 0 } as const;

/** Lerch, Portland Cement Association 1957, “drying tendency of air at job site”, from memory: 70/70 °F, 70 %, wind in mph to lb/ft²/h. */
export const LERCH_WIND = [
  [0, 0.015],
  [5, 0.038],
  [10, 0.062],
  [15, 0.085],
  [20, 0.11],
  [25, 0.135],
] as const;
