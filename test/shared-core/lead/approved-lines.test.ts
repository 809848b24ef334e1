/**
 * Lines as a contractor types them during a call, and what is read from each, as last approved: a guard against a change that nobody meant.
 * After a change that was meant, run `npx vitest run --config build/vitest.config.ts test/shared-core/lead/approved -u` and read the
 * difference.
 */
import { describe, expect, it } from 'vitest';
import { emptyAddress } from '../../../shared-core/book/new-records.ts';
import { leadRecords } from '../../../shared-core/lead/lead-records.ts';
import { type LineContext, readLeadLine } from '../../../shared-core/lead/read-line.ts';
import { layerOf, sourceName } from '../../../shared-core/lead/trade-words.ts';

/** A Tuesday, 11 am in New York. */
const US: LineContext = { now: '2026-05-12T15:00:00.000Z', zone: 'America/New_York', units: 'us', locale: 'en-US', country: 'US' };
const METRIC: LineContext = { ...US, units: 'metric', locale: 'en-GB', country: 'GB', zone: 'Europe/London' };
const approve = (lines: readonly string[], name: string) => expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${name}.txt`);

const NAME = 'Dana Wicklow';
const LINES = [
  'Dana',
  'Dana Wicklow',
  'Mrs. Hall',
  'Wicklow Farms LLC, shop 30x40',
  'Dana Wicklow (212) 555-0142 hall 4x20',
  'Dana Wicklow 2125550142, dana@wicklow.invalid',
  'Dana Wicklow +49 30 1234567',
  'Dana Wicklow +999 1234567890',
  'Dana Wicklow 555.0142; hall; kitchen',
  `${NAME}, dana.w+floor@mail.wicklow.invalid, kitchen 12 x 14`,
  `${NAME}, kitchen 12 by 14 ft`,
  `${NAME}, kitchen 12'6" x 14'`,
  `${NAME}, kitchen 12’ 6” × 14’ 3”`,
  `${NAME}, kitchen 12 ft 6 in x 14 ft`,
  `${NAME}, kitchen 12-6 x 14-3`,
  `${NAME}, kitchen 3.6 m x 4.2 m`,
  `${NAME}, kitchen 360 cm x 420 cm`,
  `${NAME}, kitchen 12,5x14`,
  `${NAME}, 12x14`,
  `${NAME}, 12x14 and 9x10`,
  `${NAME}, living room and dining room 15x20 and 12x14`,
  `${NAME}, kitchen and hall 4x20 and dining room 11x12`,
  `${NAME}, kitchen, hall 4x20`,
  `${NAME}, kitchen 0x14`,
  `${NAME}, half bath 5x6, mudroom 6x8, mud room 6 x 9`,
  `${NAME}, WORKSHOP 20x24`,
  `${NAME}, garage 20x24, shed 8x10`,
  `${NAME}, 41 Pennant Hill Rd.`,
  `${NAME}, at 41b Old Mill Creek Lane, kitchen 12x14`,
  `${NAME}, 9 Mill Race`,
  `${NAME}, lives on 5th Street`,
  `${NAME}, built in 1899, kitchen 12x14`,
  `${NAME}, 2150`,
  `${NAME}, tile over slab`,
  `${NAME}, vinyl on top of old plywood on joists`,
  `${NAME}, carpet and pad over concrete`,
  `${NAME}, cork over mud`,
  `${NAME}, hardwood`,
  `${NAME}, worn cracked tile floor`,
  `${NAME}, 3/8 out`,
  `${NAME}, about 3/8" out of flat`,
  `${NAME}, up to 1 1/2 in. low`,
  `${NAME}, 1-1/2 dip`,
  `${NAME}, 10 mm hump`,
  `${NAME}, 1 cm out of level`,
  `${NAME}, drops by about 5/8`,
  `${NAME}, off 1/4 inch`,
  `${NAME}, 0 out`,
  `${NAME}, referred`,
  `${NAME}, referred by Ann Doyle, kitchen 12x14`,
  `${NAME}, referral from Mr. Roy; hall 4x20`,
  `${NAME}, word of mouth`,
  `${NAME}, repeat customer`,
  `${NAME}, web site`,
  `${NAME}, online search`,
  `${NAME}, Yard Sign`,
  `${NAME}, visit Thu 4pm`,
  `${NAME}, visit on thursday at 4`,
  `${NAME}, site visit 5/20 8:15 am`,
  `${NAME}, walk-through at 7`,
  `${NAME}, appointment there tomorrow noon`,
  `${NAME}, call back friday`,
  `${NAME}, call her back on June 3`,
  `${NAME}, calling back`,
  `${NAME}, callback tomorrow at 6`,
  `${NAME}, follow-up next week`,
  `${NAME}, follow up in 3 days`,
  `${NAME}, phone back monday 9`,
  `${NAME}, quote by June 3`,
  `${NAME}, estimate is due friday`,
  `${NAME}, bid for 6/1`,
  `${NAME}, price on monday`,
  `${NAME}, friday 10am`,
  `${NAME}, friday`,
  `${NAME}, in May`,
  `${NAME}, at 4`,
  `${NAME}, call tomorrow, kitchen 12x14, visit friday 2pm`,
  'friday call Dana',
  `${NAME}, the dog bites, gate code 4471; and, with`,
  `  ${NAME} ,, kitchen ,  `,
  `${NAME}, 2 low spots in the kitchen 12x14`,
  `${NAME}, kitchen 12x14, 3 dips, call back in 2 weeks`,
  "Tom Becker 614-555-0188. Kitchen 12'6 x 14 and dining room 11x13. Tile over slab. About 3/4 out. Call me after 5",
  'Tom Becker, got your number from my sister Sue. My kitchen is about 12x14. Tile on concrete, its in bad shape, call me friday',
  'tom becker. 614 555 0188. hall 48 x 240 inches. tile over slab. can you come thursday at 4?',
  `${NAME}, kitchen 150x168", 12x24" tile over slab`,
  `${NAME}, kitchen 12-6 1/2 x 14-3, bath 8½ x 10`,
  '',
];

/** What is read, without what is empty; lengths in millimeters. */
const told = (line: string, context: LineContext): string => {
  const { rooms, roughGapM, ...rest } = readLeadLine(line, context);
  const mm = (m: number | null) => (m === null ? '?' : (m * 1000).toFixed(1));
  const parts = [
    ...Object.entries(rest).flatMap(([key, value]) => (value === null || value === '' ? [] : [`${key}=${value}`])),
    ...rooms.map(({ name, widthM, lengthM }) => `room=${name} ${mm(widthM)}x${mm(lengthM)}`),
    ...(roughGapM === null ? [] : [`gap=${mm(roughGapM)}`]),
  ];
  return `${line}\n  ${parts.join(' | ')}`;
};

describe('a line of a call', () => {
  it('is read as last approved', async () => {
    const metric = [`${NAME}, living room 3.6 x 4.2, 10 out`, `${NAME}, +1 212 555 0142, 12 mm low`, `${NAME}, hall 4 ft x 20 ft`];
    await approve([...LINES.map((line) => told(line, US)), ...metric.map((line) => told(line, METRIC))], 'lines');
  });

  it('becomes the records last approved', async () => {
    let made = 0;
    const records = [
      'Dana Wicklow 555-0142, kitchen 12x14, hall 4x20, tile over slab, 3/8 out, referred, visit Thu 4pm, has a dog',
      'Dana Wicklow, hall, cork over mud, call friday',
      'Dana Wicklow, 41 Pennant Hill Road, built 1951, quote by June 3',
      'Dana Wicklow, closet 0x4',
    ].map((line) =>
      JSON.stringify(
        leadRecords(readLeadLine(line, US), {
          now: US.now,
          newId: () => `id-${String((made += 1)).padStart(3, '0')}`,
          zone: US.zone,
          address: emptyAddress('US'),
          units: 'us',
          locale: 'en-US',
          known: null,
          knownProperty: null,
          knownRooms: [],
        }),
        (key, value: unknown) =>
          value === null || value === '' || (Array.isArray(value) && value.length === 0) || key === 'createdAt' ? undefined : value,
      ),
    );
    await approve(records, 'records');
  });
});

describe('words of the trade', () => {
  it('name layers and sources as last approved', async () => {
    // cspell:ignore tileless Roys
    const floors =
      'vct, vinyl tile, vinyl tiles, vinyl composition tile, asphalt tile, asphalt tiles, resilient tile, resilient tiles, sheet vinyl, sheet goods, sheet flooring, vinyl, ' +
      'linoleum, lino, lvp, lvt, vinyl plank, vinyl planks, floating floor, floating plank, floating planks, laminate, plank, planks, carpet, carpeting, ceramic, ceramic tile, ceramic tiles, ' +
      'porcelain, porcelain tile, porcelain tiles, tile, tiles, quarry tile, quarry tiles, stone, stone tile, stone tiles, marble, slate, travertine, granite, terrazzo, hardwood, wood floor, ' +
      'wood flooring, wood, oak, maple, parquet, strip oak, cutback, black adhesive, black mastic, black glue, cutback adhesive, glue, mastic, adhesive, thinset, thin-set, felt, pad, foam, ' +
      'foam pad, paint, sealer, painted concrete, old leveler, old leveling, old underlayment, screed, mud bed, mortar bed, gypsum, gypsum underlayment, boards, board subfloor, plank subfloor, ' +
      'diagonal boards, plywood, ply, wood subfloor, subfloor, particle board, particleboard, osb, slab, concrete, slab on grade, concrete slab, on grade slab, suspended slab, ' +
      'suspended concrete, elevated slab, joists, wood joists, framing, metal, steel, the old Tile floor, an existing slab, some worn oak flooring, loose carpet floors, a bare on slab, a, floor, tileless, my tile';
    const sources =
      'referred by Ann Doyle, Referral from  the Roys, referred, Referral, word of mouth, website, web site, Yard sign, TRADE SHOW, repeat customer';
    await approve(
      [
        ...floors.split(', ').map((words) => `${words}: ${layerOf(words)}`),
        ...sources.split(', ').map((words) => `${words}: ${sourceName(words)}`),
      ],
      'words',
    );
  });
});
