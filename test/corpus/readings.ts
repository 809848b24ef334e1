/**
 * Tables of floor readings as spreadsheets, levels and total stations write them, made for the tests by the formats' rules: RFC 4180 for
 * separated values, ISO 80000-1 (7.3.2) for the decimal sign, NIST SP 811 (appendix B.8) for inch and foot.
 */
import type { Reading } from '../../shared-core/book/plan-fields.ts';
import type { ReadingsQuestion } from '../../shared-core/survey/readings-questions.ts';

type Place = readonly [across: number, down: number, value: number];

export type ReadingsFile = {
  readonly name: string;
  readonly text: string;
  /** Method of the survey; elevations by default. */
  readonly into?: 'height' | 'distance-down';
  /** Readings that the survey has, meters. */
  readonly readings?: readonly Place[];
  /** The expected first reading, meters; null where nothing may be read. */
  readonly first: Place | null;
  readonly count: number;
  readonly method?: 'height' | 'distance-down';
  readonly asks?: readonly ReadingsQuestion['kind'][];
  readonly leftOut?: readonly number[];
};

/** The readings of a survey, by their places. */
export const readingsAt = (places: readonly Place[]): Reading[] =>
  places.map(([xM, yM, valueM], i) => ({ id: `reading-${i}`, xM, yM, valueM, note: null, confirmed: false }));

const FIRST = [1.25, 2.5, 0.012] as const;
const FOUR: readonly Place[] = [
  [0, 0, 1],
  [1, 0, 1],
  [2, 0, 1],
  [3, 0, 1],
];

export const READINGS_FILES: readonly ReadingsFile[] = [
  {
    name: 'semicolons, decimal commas, units in brackets',
    text: 'x (m);y (m);z (m)\n1,25;2,5;0,012\n1,5;2,5;0,0135',
    first: FIRST,
    count: 2,
  },
  { name: 'square brackets', text: 'x [m];y [m];z [mm]\n1,25;2,5;12', first: FIRST, count: 1 },
  { name: 'units without brackets', text: 'x m,y m,z mm\n1.25,2.5,12', first: FIRST, count: 1 },
  { name: 'units after a comma, quoted', text: '"x, m","y, m","z, mm"\n1.25,2.5,12', first: FIRST, count: 1 },
  { name: 'units after an underscore', text: 'x_m,y_m,z_mm\n1.25,2.5,12', first: FIRST, count: 1 },
  { name: 'units spelled out', text: 'x (meters),y (meters),z (millimeters)\n1.25,2.5,12', first: FIRST, count: 1 },
  { name: 'centimeters', text: 'x (cm),y (cm),z (cm)\n125,250,1.2', first: FIRST, count: 1 },
  {
    name: 'feet and inches by heading',
    text: 'x (ft),y (ft),reading (in)\n10,5,40.25',
    first: [3.048, 1.524, 1.02235],
    count: 1,
    asks: ['method'],
  },
  {
    name: 'sixteenths by heading',
    text: 'x (ft),y (ft),reading (1/16)\n10,5,644',
    first: [3.048, 1.524, 1.02235],
    count: 1,
    asks: ['method'],
  },
  ...['(1/16 in.)', ', 1/16 in', '(sixteenths of an inch)', '16ths', '[1/16"]', '(¹⁄₁₆ in.)', '(sixteenth inches)'].map((unit) => ({
    name: `sixteenths of an inch as “${unit}”`,
    text: `x (ft)\ty (ft)\treading ${unit}\n10\t5\t644`,
    first: [3.048, 1.524, 1.02235] as const,
    count: 1,
    asks: ['method'] as const,
  })),
  // No column has these units, so none is guessed.
  ...[
    '(1/8 in)',
    '(⅛ in.)',
    '(32nds in)',
    '(hundredths of ft)',
    '1/100 ft',
    '(0.01 ft)',
    '(in./32)',
    '(in., nearest 1/16)',
    '(1/16 ft)',
  ].map((unit) => ({
    name: `a part of a unit, “${unit}”`,
    text: `x (ft)\ty (ft)\treading ${unit}\n10\t5\t12`,
    first: [3.048, 1.524, 0.3048] as const,
    count: 1,
    asks: ['method', 'part'] as const,
  })),
  {
    name: 'a date before the unit',
    text: 'x (ft)\ty (ft)\treading 5/12/2026 (in)\n10\t5\t12',
    first: [3.048, 1.524, 0.3048],
    count: 1,
    asks: ['method'],
  },
  {
    name: 'a number at the end of a heading',
    text: 'x (ft)\ty (ft)\treading 2nd\n10\t5\t12',
    first: [3.048, 1.524, 0.3048],
    count: 1,
    asks: ['method'],
  },
  { name: 'no heading, as typed', text: `10',5' 6",40 1/4`, first: [3.048, 1.6764, 1.02235], count: 1, asks: ['method'] },
  { name: 'tabs, as pasted from a spreadsheet', text: 'x (m)\ty (m)\tz (m)\n1.25\t2.5\t0.012\n1.5\t2.5\t0.013', first: FIRST, count: 2 },
  { name: 'columns in another order', text: 'note,z (mm),y (m),x (m)\nlow,12,2.5,1.25', first: FIRST, count: 1 },
  { name: 'a title above the head', text: 'Hall, May 12\nx (m),y (m),z (m)\n1.25,2.5,0.012', first: FIRST, count: 1 },
  { name: 'blank rows between', text: 'x (m),y (m),z (m)\n\n1.25,2.5,0.012\n\n1.5,2.5,0.013\n', first: FIRST, count: 2 },
  { name: 'CRLF and a byte order mark', text: '\uFEFFx (m),y (m),z (m)\r\n1.25,2.5,0.012\r\n', first: FIRST, count: 1 },
  { name: 'a decimal comma quoted in a comma file', text: 'x (m),y (m),z (m)\n"1,25","2,5","0,012"', first: FIRST, count: 1 },
  { name: 'decimal commas of one or two digits', text: 'x (m),y (m),z (mm)\n"1,25","2,5","12,0"', first: FIRST, count: 1 },
  { name: 'a decimal comma before four digits', text: 'x (m),y (mm),z (mm)\n"1,2500",2500,12', first: FIRST, count: 1 },
  { name: 'across without down', text: 'x (m),z (mm)\n1.25,12\n2.5,14', first: [0, 0, 0.012], count: 2 },
  {
    name: 'decimal commas unquoted in a comma file',
    text: 'x (m),y (m),z (m)\n1,25,2,5,0,012',
    first: null,
    count: 0,
    asks: ['wide'],
    leftOut: [2],
  },
  { name: 'thousands with a comma', text: 'x (mm),y (mm),z (mm)\n"1,250","2,500",12', first: FIRST, count: 1, asks: ['decimal'] },
  { name: 'a typographic minus', text: 'x (m),y (m),height (m)\n1.25,2.5,−0.012', first: [1.25, 2.5, -0.012], count: 1, method: 'height' },
  { name: 'an apostrophe before a minus', text: "x (m),y (m),height (m)\n1.25,2.5,'-0.012", first: [1.25, 2.5, -0.012], count: 1 },
  { name: 'exponents', text: 'x (m),y (m),z (m)\n1.25,2.5,1.2E-02', first: FIRST, count: 1 },
  {
    name: 'elevations into an empty survey of distances down',
    text: 'x (m),y (m),height (m)\n1.25,2.5,0.012',
    into: 'distance-down',
    first: FIRST,
    count: 1,
    method: 'height',
  },
  {
    name: 'elevations into readings down from the laser',
    text: 'x (m),y (m),height (m)\n1.25,2.5,0.012',
    into: 'distance-down',
    readings: FOUR,
    first: FIRST,
    count: 1,
    method: 'height',
    asks: ['other-method'],
  },
  {
    name: 'distances down into elevations',
    text: 'x (m),y (m),distance down (m)\n1.25,2.5,0.012',
    readings: FOUR,
    first: FIRST,
    count: 1,
    method: 'distance-down',
    asks: ['other-method'],
  },
  {
    name: 'points that the survey has',
    text: 'x (m),y (m),height (m)\n1,0,1.013\n2,0.004,1.013\n3,0.02,1.013',
    readings: FOUR,
    first: [1, 0, 1.013],
    count: 3,
    asks: ['again'],
  },
  {
    name: 'one point twice, with two readings',
    text: 'x (m),y (m),height (m)\n1.25,2.5,0.012\n2,2.5,0.012\n1.25,2.5,0.014',
    first: FIRST,
    count: 3,
    asks: ['again'],
  },
  { name: 'one point twice, with one reading', text: 'x (m),y (m),height (m)\n1.25,2.5,0.012\n1.25,2.5,0.012', first: FIRST, count: 2 },
  // Point number, across, down, reading, as a total station numbers its points: common practice, no source.
  {
    name: 'point numbers and no headings',
    text: '1,1.25 m,2.5 m,0.012 m,low\n2,1.5 m,2.5 m,0.013 m,\n3,2 m,2.5 m,0.014 m,',
    first: FIRST,
    count: 3,
    asks: ['method', 'columns'],
  },
  {
    name: 'point numbers with gaps and no headings',
    text: '101,1.25 m,2.5 m,0.012 m\n105,1.5 m,2.5 m,0.013 m',
    // 101 ft across, as a wall field reads it.
    first: [30.7848, 1.25, 2.5],
    count: 2,
    asks: ['method', 'columns', 'outside'],
  },
  {
    name: 'a note that is no number, and no headings',
    text: '1.25 m,2.5 m,0.012 m,low\n1.5 m,2.5 m,0.012 m,12',
    first: FIRST,
    count: 2,
    asks: ['method'],
  },
  // Northings count up, and the room is 5 m deep.
  { name: 'northing and easting', text: 'Northing (m),Easting (m),Elevation (m)\n1,1.25,0.012', first: [1.25, 4, 0.012], count: 1 },
  {
    name: 'northing and easting by their letters',
    text: 'P,N (m),E (m),Z (m),Description\n1,1,1.25,0.012,low',
    first: [1.25, 4, 0.012],
    count: 1,
  },
  // A coordinate z rises with the floor, and only an elevation can be negative.
  {
    name: 'z into an empty survey of distances down',
    text: 'x (m),y (m),z (mm)\n1.25,2.5,12',
    into: 'distance-down',
    first: FIRST,
    count: 1,
    method: 'height',
  },
  {
    name: 'readings that name no sign, some negative',
    text: 'x (m),y (m),reading (mm)\n1.25,2.5,12\n1.5,2.5,-3',
    into: 'distance-down',
    first: FIRST,
    count: 2,
    method: 'height',
  },
  {
    name: 'readings that name no sign, into distances down',
    text: 'x (m),y (m),reading (mm)\n1.25,2.5,12',
    into: 'distance-down',
    first: FIRST,
    count: 1,
    method: 'distance-down',
    asks: ['method'],
  },
  {
    name: 'distances down that are all negative',
    text: 'x (m),y (m),distance down (mm)\n1.25,2.5,-12\n1.5,2.5,-13',
    into: 'distance-down',
    first: null,
    count: 0,
    asks: ['unreadable'],
    leftOut: [2, 3],
  },
  // A bare place is feet, as at the wall fields. The room is 6 m by 5 m, 19 ft 8 in. by 16 ft 5 in.
  {
    name: 'places in feet that name no unit, with readings in inches',
    text: 'x,y,elevation (in)\n2,2,1\n18,2,1.25\n18,15,1.5',
    first: [0.6096, 0.6096, 0.0254],
    count: 3,
  },
  {
    name: 'a total station in feet that names no unit',
    text: 'Point,Northing,Easting,Elevation\n1,2,2,100.25\n2,2,18,100.5\n3,15,18,100.65',
    first: [0.6096, 4.3904, 2.54635],
    count: 3,
    asks: ['unit'],
  },
  {
    name: 'places in meters that name no unit',
    text: 'x,y,elevation (mm)\n0.5,0.5,12\n5.5,0.5,13\n5.5,4.5,14',
    first: [0.1524, 0.1524, 0.012],
    count: 3,
    asks: ['place-unit'],
  },
  {
    name: 'a negative distance down',
    text: 'x (m),y (m),distance down (m)\n1.25,2.5,-0.012\n1.5,2.5,0.013',
    into: 'distance-down',
    first: [1.5, 2.5, 0.013],
    count: 1,
    asks: ['unreadable'],
    leftOut: [2],
  },
  {
    name: 'a point 500 m outside the room',
    text: 'x (m),y (m),z (m)\n1.25,2.5,0.012\n500,2.5,0.013',
    first: FIRST,
    count: 2,
    asks: ['outside'],
  },
  {
    name: 'millimeters headed as meters',
    text: 'x (m),y (m),z (m)\n1250,2500,0.012',
    first: [1250, 2500, 0.012],
    count: 1,
    asks: ['outside'],
  },
  {
    name: 'readings in millimeters headed as meters',
    text: 'x (m),y (m),z (m)\n1.25,2.5,12\n1.5,2.5,18',
    first: [1.25, 2.5, 12],
    count: 2,
    asks: ['unit'],
  },
  {
    name: 'a blank reading',
    text: 'x (m),y (m),z (m)\n1.25,2.5,0.012\n1.5,2.5,\n1.75,2.5,0.013',
    first: FIRST,
    count: 2,
    asks: ['unreadable'],
    leftOut: [3],
  },
  {
    name: 'a word for a reading',
    text: 'x (m),y (m),z (m)\n1.25,2.5,0.012\n1.5,2.5,low',
    first: FIRST,
    count: 1,
    asks: ['unreadable'],
    leftOut: [3],
  },
  { name: 'a column with a blank cell keeps its places', text: 'reading (mm)\n12\n\n14', first: [0, 0, 0.012], count: 2, asks: ['method'] },
  {
    name: 'more readings than suggested points',
    text: 'reading (mm)\n12\n13\n14\n15',
    first: [0, 0, 0.012],
    count: 3,
    asks: ['method', 'places'],
    leftOut: [5],
  },
  { name: 'pipes between the columns', text: 'x (m)|y (m)|z (m)\n1.25|2.5|0.012', first: FIRST, count: 1 },
  { name: 'a note with a comma in quotes', text: 'x (m),y (m),z (m),note\n1.25,2.5,0.012,"low, by the drain"', first: FIRST, count: 1 },
  { name: 'headings alone', text: 'x (m),y (m),z (m)\n', first: null, count: 0 },
];
