/** What the installer page says of joints and cracks. Which of them the flooring honors: ASTM F710 and TCNA EJ171. */
import { expect, it } from 'vitest';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import type { Mark as FloorMark } from '../../../shared-core/book/plan-fields.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { installerPage } from '../../../shared-core/documents/installer-page.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { points } from '../../outlines.ts';
import { layer } from '../substrate/a-floor.ts';
import { at, bothSections, family, nextPour, pouredFamily, ROOM } from './poured-family.ts';
import { flat, rowsOf, textOf } from './tree-text.ts';

const now = at('20', 0);
type Line = Pick<FloorMark, 'kind' | 'moves'>;
const papersWith = (...marks: readonly Line[]) => papersOf(pouredFamily(), marks);
const papersOf = (whole: WholeJob, marks: readonly Line[]) => {
  const drawn = marks.map(
    (mark, i): FloorMark => ({
      ...mark,
      ...{ id: `mark-${i}`, shape: 'line', points: points(`1,${i + 1} 3,${i + 1}`), widthM: null, note: '' },
    }),
  );
  const rooms = whole.rooms.map((room) => (room.id === ROOM ? { ...room, marks: drawn } : room));
  const reading = readJob({ ...whole, rooms }, now);
  const input = { reading, photos: [], now, revision: 1, changes: [] };
  return { page: installerPage(input), sheet: handoverSheet(reading, input) };
};
const pageWith = (...marks: readonly Line[]) => papersWith(...marks).page;
const insides = (marks: readonly Mark[]): Mark[] => marks.flatMap((mark) => (mark.kind === 'group' ? insides(mark.marks) : [mark]));
const linesOf = (tree: ReturnType<typeof pageWith>): number =>
  flat(tree.blocks).reduce((sum, block) => sum + (block.kind === 'drawing' ? insides(block.drawing.marks).length : 0), 0);

it.each([
  ['expansion-joint', 'still', 'expansion or isolation joint. Honor it'],
  ['expansion-joint', 'unknown', 'expansion or isolation joint. Honor it'],
  ['joint', 'moving', 'active joint. Honor it'],
  ['crack', 'moving', 'active crack. Honor it'],
  ['crack', 'unknown', 'crack that may move. Honor it'],
  ['joint', 'unknown', 'joint that may move. Honor it'],
] as const)('has the installer honor a line: %s, %s', (kind, moves, words) => {
  const { page, sheet } = papersWith({ kind, moves });
  expect(textOf(page)).toContain(`Family room, heavy line on the plan: ${words}`);
  expect(textOf(sheet)).toContain(`Family room, heavy line on the plan: ${words}`);
  expect(linesOf(page)).toBe(linesOf(pageWith()) + 1);
});

it.each(['joint', 'crack'] as const)('says and draws nothing of a dormant %s, which was filled', (kind) => {
  const page = pageWith({ kind, moves: 'still' });
  expect(textOf(page)).not.toMatch(/heavy line|honor/i);
  expect(linesOf(page)).toBe(linesOf(pageWith()));
});

it('has a joint honored when the floor is sealed, where no flooring goes over it', () => {
  const whole = pouredFamily();
  const rooms = whole.job.rooms.map((room) => ({ ...room, flooring: 'bare-sealed' as const }));
  const sheet = textOf(papersOf({ ...whole, job: { ...whole.job, rooms } }, [{ kind: 'joint', moves: 'moving' }]).sheet);
  expect(sheet).toContain('Joints that go through the floor\n');
  expect(sheet).toContain('active joint. Honor it when the floor is sealed. Never fill it.');
});

it('has the joint between two pours on both papers, with the day of each', () => {
  const papers = papersOf(bothSections(), []);
  for (const paper of [papers.page, papers.sheet])
    expect(textOf(paper)).toMatch(
      /Family room was placed on May 13 \(\d+ sq ft\) and May 20 \(\d+ sq ft\)\. The dashed line on the plan is the joint between the pours\./,
    );
  for (const paper of [papers.page, papers.sheet]) expect(rowsOf(paper, 'Placed')[0]).toMatchObject({ Placed: 'May 13, May 20' });
  const once = papersOf(pouredFamily(), []);
  expect(rowsOf(once.sheet, 'Placed')[0]).toMatchObject({ Placed: 'May 13' });
  for (const paper of [once.page, once.sheet]) expect(textOf(paper)).not.toContain('between the pours');
});

// What a floor was primed with is a fact of the day it was poured. Common practice, no source.
it('names the primer the floor was poured over, and not the one chosen since', () => {
  const [porous, other] = family.materials.filter(({ kind }) => kind === 'primer');
  if (porous === undefined || other === undefined) throw new Error('The sample has two primers.');
  const choosing = (primerId: string | null, more: Partial<JobRoom> = {}) => ({
    ...family,
    job: { ...family.job, rooms: family.job.rooms.map((room) => ({ ...room, primerId, ...more })) },
  });
  const pageOf = (whole: WholeJob, since: WholeJob) => {
    const pour = nextPour(readJob(whole, at('12', 0)), 'pour-a', '13');
    const poured = pouredFamily();
    return textOf(papersOf({ ...since, pours: [pour], pourEvents: poured.pourEvents }, []).page);
  };
  const page = pageOf(choosing(porous.id), choosing(other.id));
  expect(page).toContain(porous.name);
  expect(page).not.toContain(other.name);
  // None was chosen: one that is chosen since lies under no floor.
  expect(pageOf(choosing(null), choosing(other.id))).toContain('No primer');
  // The signed line knows what was used, also where another is chosen between priming and pouring.
  const signed = {
    ...{ itemKey: 'prime', doneAt: at('11', 0), initials: 'RT', note: '', signedText: 'Prime', photoIds: [], withdrawnAt: null },
    used: [{ materialId: porous.id, containers: 1 }],
  };
  expect(pageOf(choosing(other.id, { signed: [signed] }), choosing(other.id))).toContain(porous.name);
});

it('says of a slab below grade that it is', () => {
  const whole = pouredFamily();
  const pageOf = (belowGrade: boolean | null): string => {
    const rooms = whole.rooms.map((room) => ({
      ...room,
      ...{ layers: [layer('concrete-on-ground')], circumstances: { ...room.circumstances, belowGrade } },
    }));
    return textOf(papersOf({ ...whole, rooms }, []).page);
  };
  expect(pageOf(true)).toContain('slab below grade');
  expect(pageOf(true)).not.toContain('slab on grade');
  for (const belowGrade of [false, null]) expect(pageOf(belowGrade)).toContain('slab on grade');
});
