/** What the papers say where a floor has radiant heat. What they ask for is common practice, no source; no US standard says it. */
import { describe, expect, it } from 'vitest';
import type { Flooring } from '../../../shared-core/book/flooring.ts';
import type { Circumstances, Layer } from '../../../shared-core/book/layer.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { preparationLetter } from '../../../shared-core/documents/certificates.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { draftQuote } from '../../../shared-core/documents/issue-quote-document.ts';
import { installerPage } from '../../../shared-core/documents/installer-page.ts';
import { moistureReport } from '../../../shared-core/documents/moisture-report.ts';
import { pourDaySheet } from '../../../shared-core/documents/pour-day-sheet.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { at, family, NOW, pouredFamily, ROOM } from './poured-family.ts';
import { layer } from '../substrate/a-floor.ts';
import { textOf } from './tree-text.ts';

const withHeat = <T extends WholeJob>(whole: T, radiantHeat: Circumstances['radiantHeat']): T => ({
  ...whole,
  rooms: whole.rooms.map((room) => (room.id === ROOM ? { ...room, circumstances: { ...room.circumstances, radiantHeat } } : room)),
});
const dayOf = (radiantHeat: Circumstances['radiantHeat']): string => {
  const sheet = pourDaySheet({ reading: readJob(withHeat(family, radiantHeat), NOW), roomIds: [ROOM], madeAt: NOW, revision: 1 });
  if (!sheet.ok) throw new Error(sheet.message);
  return textOf(sheet.value);
};
const finishedOf = (radiantHeat: Circumstances['radiantHeat'], flooring?: Flooring): string[] => {
  const now = at('20', 0);
  const whole = withHeat(pouredFamily(), radiantHeat);
  const rooms = whole.job.rooms.map((jobRoom) => ({ ...jobRoom, flooring: flooring ?? jobRoom.flooring }));
  const reading = readJob({ ...whole, job: { ...whole.job, rooms } }, now);
  const input = { reading, photos: [], now, revision: 1, changes: [] };
  return [handoverSheet(reading, input), installerPage(input), moistureReport(input)].map(textOf);
};
const COVERED = ['electric-in-pour', 'hydronic-in-pour'] as const;

describe('the quote', () => {
  const SUPPLY = 'Supplying, laying, and connecting the radiant heat in the pour, unless listed.';
  const quoteOf = (heat: Circumstances['radiantHeat']): string => textOf(draftQuote(readJob(withHeat(family, heat), NOW), NOW));

  it.each(COVERED)('leaves supply and laying of the heat out of its price (%s)', (heat) => {
    expect(quoteOf(heat)).toContain(SUPPLY);
  });

  it.each(['none', 'in-floor'] as const)('says nothing of it where the pour covers no heat (%s)', (heat) => {
    expect(quoteOf(heat)).not.toContain(SUPPLY);
  });

  const OFF = 'Radiant heat is off, and tested by its installer, before we pour.';
  const LAID = 'The radiant heat in the pour is laid, and tested by its installer, before we pour.';
  it.each([...COVERED.map((heat) => [heat, false, true] as const), ['in-floor', true, false] as const, ['none', false, false] as const])(
    'assumes heat that is there off, and heat for the pour laid (%s)',
    (heat, isOff, isLaid) => {
      const quote = quoteOf(heat);
      expect([quote.includes(OFF), quote.includes(LAID)]).toEqual([isOff, isLaid]);
    },
  );

  // Common practice, no source: 28 days over cement-based underlayment where its data sheet allows nothing sooner.
  it.each([...COVERED, 'in-floor', 'none'] as const)(
    'says that the heat stays off after the pour, and that the rooms need other heat (%s)',
    (heat) => {
      const STAYS = /radiant heat stays off for 28 days after the pour.*Heat the rooms another way\./i;
      if (heat === 'none') expect(quoteOf(heat)).not.toMatch(STAYS);
      else expect(quoteOf(heat)).toMatch(STAYS);
    },
  );

  it('promises no screws or lath through mats that were there, and does through none that are laid after', () => {
    const quoteWith = (laid: Layer['laid']): string => {
      const over = [layer('radiant-heating', laid === undefined ? {} : { laid }), layer('plywood'), layer('joists')];
      const rooms = family.rooms.map((room) => (room.id === ROOM ? { ...room, layers: over } : room));
      return textOf(draftQuote(readJob({ ...family, rooms }, NOW), NOW));
    };
    expect(quoteWith(undefined)).not.toMatch(/Screw down|Fasten reinforcement/);
    expect(quoteWith(undefined)).toContain('Ask whoever laid the heat whether the subfloor was fastened and reinforced first');
    const after = quoteWith('after-readings');
    expect(after).toMatch(/Screw down .*\n?[^]*Fasten reinforcement/);
    expect(after).not.toContain('clear of the radiant heat');
  });

  it('assumes mats that lie on the floor off', () => {
    const heat = withHeat(family, 'electric-in-pour');
    const mats: Layer = {
      ...{ id: 'layer-mats', material: 'radiant-heating', thicknessM: null, yearInstalled: 2026 },
      ...{ sound: 'sound', fate: 'keep', area: null, note: '' },
    };
    const rooms = heat.rooms.map((room) => (room.id === ROOM ? { ...room, layers: [mats, ...room.layers] } : room));
    const quote = textOf(draftQuote(readJob({ ...heat, rooms }, NOW), NOW));
    expect([quote.includes(OFF), quote.includes(LAID)]).toEqual([true, false]);
  });
});

describe('the pour-day sheet', () => {
  it.each(COVERED)('has no metal spikes over %s, and the heat tested before, during and after', (heat) => {
    const sheet = dayOf(heat);
    expect(sheet).not.toMatch(/spiked shoes|spike and smooth/i);
    expect(sheet).toContain('Stick nothing into this floor: no metal spikes or rake pins.');
    expect(sheet).toMatch(/Test resistance or pressure during the pour and after it/);
    expect(sheet).toMatch(/Heat tested, /);
    expect(sheet).toMatch(/The resistance or the pressure of the heat changes\./);
  });

  it('has no metal spikes over heat in the floor, and nothing to test on the day', () => {
    expect(dayOf('in-floor')).toContain('Stick nothing into this floor: no metal spikes or rake pins.');
    expect(dayOf('in-floor')).not.toMatch(/spiked shoes|spike and smooth|mats|resistance/i);
  });

  it('says nothing of it where there is no heat', () => {
    expect(dayOf('none')).toMatch(/Spiked shoes/);
    expect(dayOf('none')).not.toMatch(/mats|resistance|stick nothing/i);
  });
});

describe('the letter before the pour', () => {
  const letterOf = (heat: Circumstances['radiantHeat']): string => {
    const reading = readJob(withHeat(family, heat), NOW);
    const only = { ...reading, rooms: reading.rooms.filter(({ room }) => room.id === ROOM) };
    return textOf(preparationLetter({ reading: only, photos: [], now: NOW, revision: 1, changes: [] }));
  };

  it('asks for heat to be turned off by what is recorded, and says how long it stays off', () => {
    expect(letterOf('none')).not.toMatch(/radiant/i);
    expect(letterOf('in-floor')).toContain('Turn radiant floor heat off two days before the pour, and leave it off for 28 days');
    expect(letterOf('hydronic-in-pour')).toContain('Leave the radiant heat in the pour off for 28 days');
    expect(letterOf(null)).toContain('If you have radiant floor heat, turn it off two days before the pour, and leave it off for 28 days');
  });
});

describe('the papers of the finished floor', () => {
  it.each([...COVERED, 'in-floor'] as const)('say that nobody drills, nails or cuts it (%s)', (heat) => {
    for (const paper of finishedOf(heat))
      expect(paper).toMatch(
        /[Dd]o not drill, nail or cut this floor\. It has radiant heat\. Have the installer of the heat locate it first\./,
      );
  });

  // NWFA guidelines, as quoted in a trade guide: the heat runs 5 to 6 days before wood flooring.
  it('keep wood flooring off a heated floor until the heat has run, and say nothing of it for tile', () => {
    const WAITS = 'Wood flooring goes down only after the heat has run 5 to 6 days';
    for (const [flooring, waits] of [
      ['wood-glued', true],
      ['tile-large', false],
    ] as const) {
      const [handover, installer] = finishedOf('in-floor', flooring);
      expect([handover?.includes(WAITS), installer?.includes(WAITS)]).toEqual([waits, waits]);
    }
  });

  // On 28 days after noon of May 13, then 6 full days (NWFA guidelines as quoted in a trade guide): the next morning is June 17.
  it('date wood flooring over heat after the heat has run, and tile by its cure alone', () => {
    for (const paper of finishedOf('hydronic-in-pour', 'wood-glued').slice(0, 2)) expect(paper).toContain('June 17 or later');
    expect(finishedOf('none', 'wood-glued')[1]).toContain('May 29 or later');
    expect(finishedOf('hydronic-in-pour', 'tile-large')[1]).toContain('Cleared');
  });

  it('say nothing of it without heat', () => {
    for (const paper of finishedOf('none')) expect(paper).not.toContain('heat lies');
  });

  // ASTM F2170 needs holes; ASTM F2420, the hood on the surface, was withdrawn in 2014 (astm.org).
  it.each(COVERED)('ask for a test without holes over %s', (heat) => {
    for (const paper of finishedOf(heat)) {
      expect(paper).toContain('Do not drill: ask the flooring manufacturer for a test without holes.');
      expect(paper).not.toContain('F2170');
    }
  });
});
