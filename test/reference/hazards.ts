/** Published hazard rules, as cases. */

/** 29 CFR 1926.1153 Table 1: respirator's protection factor; indoors to 4 h, over 4 h. Public transcriptions; saws 8 CCR 1532.3. The hand grinder is case H2. */
export const TABLE_1 = [
  { task: 'hand-grinder', entry: '(xii)', apf: [0, 10] },
  { task: 'walk-behind-grinder', entry: '(xiii)', apf: [0, 0] },
  { task: 'chipping-hammer', entry: '(x)', apf: [10, 10] },
  { task: 'walk-behind-saw', entry: '(iv)', apf: [10, 10] },
  { task: 'hand-saw', entry: '(ii)', apf: [10, 10] },
] as const;

/** H5 to H8: 29 CFR 1926.1101(b) and (k)(1). Our choice: an unknown year of installation counts as the building's, and an unknown building as old. */
export const ASBESTOS_CASES = [
  { id: 'H5', built: 1980, laid: 1979, flooring: true, surfacing: true },
  { id: 'H5 at the limit', built: 1980, laid: 1980, flooring: true, surfacing: true },
  { id: 'H6', built: 1980, laid: 1981, flooring: false, surfacing: true },
  { id: 'H7', built: 1981, laid: 1981, flooring: false, surfacing: false },
  { id: 'H8 laid unknown, later house', built: 1995, laid: null, flooring: false, surfacing: false },
  { id: 'H8 laid unknown, house at the limit', built: 1980, laid: null, flooring: true, surfacing: true },
  { id: 'H8 both unknown', built: null, laid: null, flooring: true, surfacing: true },
  { id: 'H8 built unknown', built: null, laid: 1995, flooring: false, surfacing: true },
] as const;

/** H9, H10: 40 CFR 745.103 and .83; painted surface in ft². */
export const LEAD_CASES = [
  { id: 'H9 house of 1977', built: 1977, ft2: 7, presumed: true, minor: false },
  { id: 'H9 house of 1978', built: 1978, ft2: 7, presumed: false, minor: false },
  { id: 'H10', built: 1970, ft2: 6, presumed: true, minor: true },
  { id: 'year unknown', built: null, ft2: 6.01, presumed: true, minor: false },
] as const;
