/** What the papers say of old layers: asbestos that stays, and layers a lab is to test before they are removed. */
import { describe, expect, it } from 'vitest';
import type { Layer } from '../../../shared-core/book/layer.ts';
import type { TestOf } from '../../../shared-core/book/tests-of.ts';
import { preparationLetter } from '../../../shared-core/documents/certificates.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { installerPage } from '../../../shared-core/documents/installer-page.ts';
import { draftQuote } from '../../../shared-core/documents/issue-quote-document.ts';
import { moistureReport } from '../../../shared-core/documents/moisture-report.ts';
import { pourDaySheet } from '../../../shared-core/documents/pour-day-sheet.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { layer, test } from '../substrate/a-floor.ts';
import { at, family, NOW, pouredFamily, ROOM } from './poured-family.ts';
import { textOf } from './tree-text.ts';

const tile = (change: Partial<Layer>) => layer('resilient-tile', { id: 'old-tile', ...change });
/** The papers of the family room with one more layer on top, and what a lab says of it. */
const papersWith = (top: Layer, lab: Partial<TestOf<'lab'>> | null) => {
  const withLayer = (whole: typeof family) => ({
    ...whole,
    rooms: whole.rooms.map((room) =>
      room.id === ROOM
        ? {
            ...room,
            layers: [top, ...room.layers.filter(({ fate }) => fate === 'keep')],
            tests: [...room.tests, ...(lab === null ? [] : [test.lab({ layerId: top.id, ...lab })])],
          }
        : room,
    ),
  });
  const now = at('20', 0);
  const before = readJob(withLayer(family), NOW);
  const after = readJob(withLayer(pouredFamily()), now);
  const input = { reading: after, photos: [], now, revision: 1, changes: [] };
  const [roomReading] = before.rooms.filter(({ room }) => room.id === ROOM);
  const day = pourDaySheet({ reading: before, roomIds: [ROOM], madeAt: NOW, revision: 1 });
  if (roomReading === undefined || !day.ok) throw new Error('The family room can be prepared and poured.');
  return {
    prep: textOf(prepSheet({ reading: before, roomReading, madeAt: NOW, revision: 1 })),
    day: textOf(day.value),
    quote: textOf(draftQuote(before, NOW)),
    letter: textOf(preparationLetter({ ...input, reading: before, now: NOW })),
    sheet: textOf(handoverSheet(after, input)),
    page: textOf(installerPage(input)),
    report: textOf(moistureReport(input)),
  };
};

// 29 CFR 1926.1101(k): the owner is told of asbestos that remains. From memory.
it('name asbestos that stays under the floor on the quote, the handover sheet and the installer page', () => {
  const line =
    'Family room: there is asbestos in the resilient tile under this floor. Do not drill, cut, or remove the floor. Ask a licensed abatement contractor first.';
  const found = papersWith(tile({ yearInstalled: 1970 }), { state: 'found' });
  for (const paper of [found.quote, found.sheet, found.page]) expect(paper).toContain(line);
  const clear = papersWith(tile({ yearInstalled: 1970 }), {});
  for (const paper of [clear.quote, clear.sheet, clear.page]) expect(paper).not.toContain('asbestos in the');
  const removed = papersWith(tile({ yearInstalled: 1970, fate: 'remove' }), { state: 'found' });
  expect(removed.quote).not.toContain('asbestos in the');
});

// 29 CFR 1926.1101(k) is of building materials of any age: the same for a coating in a newer building. From memory.
it('name asbestos found in a textured coating, also in a newer building, until a clearance is recorded', () => {
  const line =
    'Family room: there is asbestos in the textured coating. Do not touch, drill, scrape, or sand it. Ask a licensed abatement contractor first.';
  const quoteOf = (state: 'found' | 'none-found', isCleared = false) => {
    const clearance = {
      ...{ key: 'asbestos-coating-found', why: 'The coating was removed.', instant: NOW, initials: 'AB' },
      document: { kind: 'clearance' as const, issuedBy: 'Field Air Lab', number: 'C-1', datedOn: '2026-05-01' },
    };
    const whole = {
      ...family,
      property: { ...family.property, yearBuilt: 1999 },
      rooms: family.rooms.map((room) => ({
        ...room,
        circumstances: { ...room.circumstances, texturedCoating: true },
        tests: [...room.tests, test.lab({ layerId: null, state })],
      })),
      job: { ...family.job, rooms: family.job.rooms.map((one) => ({ ...one, overrides: isCleared ? [clearance] : [] })) },
    };
    return textOf(draftQuote(readJob(whole, NOW), NOW));
  };
  expect(quoteOf('found')).toContain(line);
  expect(quoteOf('none-found')).not.toContain('asbestos in the textured coating');
  expect(quoteOf('found', true)).not.toContain('asbestos in the textured coating');
});

// 29 CFR 1926.1101(k): the crew is told of it too. From memory.
it('tell the crew of asbestos that stays, and promise it no lab result', () => {
  const found = papersWith(tile({ yearInstalled: 1970 }), { state: 'found' });
  expect(found.prep).toContain('Asbestos was detected and the layer stays. Cover it whole and disturb nothing.');
  expect(found.prep).toContain('A lab detected asbestos in this floor.');
  expect(found.prep).not.toContain('before the lab result');
  expect(found.day).toContain('Family room: there is asbestos in the resilient tile under this floor.');
  const clear = papersWith(tile({ yearInstalled: 1970 }), {});
  expect(`${clear.prep} ${clear.day}`).not.toMatch(/asbestos (?:was detected|in the)/i);
});

// Common practice, no source: metal spikes and pins break old tile.
it('have no spikes and no pins over old tile that stays, detected or not tested', () => {
  const old = tile({ yearInstalled: 1970 });
  for (const { day, prep } of [papersWith(old, { state: 'found' }), papersWith(old, null)]) {
    expect(day).toContain('Stick nothing into this floor: no metal spikes or rake pins.');
    expect(day).not.toMatch(/spiked shoes|spike and smooth/i);
    expect(prep).toContain('markers (glued on, not pinned)');
    expect(prep).not.toContain('height pins');
  }
  const clear = papersWith(old, {});
  expect(clear.day).toContain('Spike and smooth');
  expect(clear.prep).toContain('height pins');
});

// ASTM F2170 clause 7.1: resilient flooring that may contain asbestos is not drilled.
it('ask for a test without holes over asbestos that stays', () => {
  const ask = 'Do not drill: ask the flooring manufacturer for a test without holes.';
  const kept = papersWith(tile({ yearInstalled: 1970 }), { state: 'found' });
  for (const paper of [kept.sheet, kept.page, kept.report]) {
    expect(paper).toContain(ask);
    expect(paper).not.toContain('F2170');
  }
  const clear = papersWith(tile({ yearInstalled: 1970 }), {});
  for (const paper of [clear.sheet, clear.page, clear.report]) expect(paper).not.toContain(ask);
  expect(clear.page).toContain('F2170');
});

// 29 CFR 1926.1101: what may contain asbestos is not disturbed, by a customer either.
it('ask the customer to leave paint alone that a lab is to look at, and call no paint old flooring', () => {
  const paint = (change: Partial<Layer>) => layer('paint-or-sealer', { id: 'old-paint', yearInstalled: 1970, ...change });
  const alone = 'Do not lift, cut, sand or scrape the old floor in the family room. Some of it may contain asbestos.';
  for (const fate of ['keep', 'remove'] as const) {
    expect(papersWith(paint({ fate }), { state: 'sent' }).letter).toContain(alone);
    expect(papersWith(paint({ fate }), {}).letter).not.toMatch(/old floor(?:ing)? (?:in place )?in the family room/);
  }
});

it('ask the customer room by room: what we remove, and what nobody is to touch', () => {
  const [hall, laundry] = family.rooms.map(({ id }) => id);
  const letterOf = (state: 'found' | 'none-found' | 'sent', fate: Layer['fate'] = 'remove'): string => {
    const rooms = family.rooms.map((room) => ({
      ...room,
      name: room.id === hall ? 'Hall' : room.id === laundry ? 'Laundry' : room.name,
      layers: [
        ...(room.id === hall ? [layer('carpet', { fate })] : []),
        ...(room.id === laundry ? [tile({ yearInstalled: 1970 })] : []),
        layer('concrete-on-ground', { id: `slab-${room.id}` }),
      ],
      tests: room.id === laundry ? [test.lab({ layerId: 'old-tile', state })] : [],
    }));
    return textOf(preparationLetter({ reading: readJob({ ...family, rooms }, NOW), photos: [], now: NOW, revision: 1, changes: [] }));
  };
  const [removed, kept] = ['Leave the old flooring in place in the hall. We remove it.', 'sand or scrape the old floor in the laundry.'];
  expect(letterOf('found')).toContain(removed);
  expect(letterOf('found')).toContain(`Do not lift, cut, ${kept} Some of it contains asbestos.`);
  expect(letterOf('sent')).toContain(`Do not lift, cut, ${kept} Some of it may contain asbestos.`);
  expect(letterOf('found', 'keep')).toContain(kept);
  expect(letterOf('none-found')).not.toContain('asbestos');
  expect(letterOf('none-found')).toContain(removed);
});

describe('a layer of 1984 that comes out', () => {
  const promised = /Remove and dispose of the existing flooring$/m;
  it.each([['not sampled', null] as const, ['sampled', { state: 'sent' }] as const])(
    'is promised only once a lab finds no asbestos (%s)',
    (_, lab) => {
      const { quote, letter } = papersWith(tile({ yearInstalled: 1984, fate: 'remove' }), lab);
      expect(quote).not.toMatch(promised);
      expect(quote).toMatch(/Remove and dispose of the existing flooring once a lab finds no asbestos in the [^.\n]*resilient tile/);
      expect(letter).toContain('Some of it may contain asbestos.');
      expect(letter).not.toContain('We remove it.');
    },
  );

  // University lists of suspect materials name the mortar under ceramic tile.
  it('names the mortar of old ceramic tile, not the tile', () => {
    const { quote } = papersWith(layer('ceramic-tile', { id: 'old-tile', yearInstalled: 1955, fate: 'remove' }), null);
    expect(quote).toMatch(/once a lab finds no asbestos in the tile mortar$/m);
  });

  it('is promised plainly after the lab found none', () => {
    const { quote, letter } = papersWith(tile({ yearInstalled: 1984, fate: 'remove' }), {});
    expect(quote).toMatch(promised);
    expect(letter).toContain('We remove it.');
  });
});
