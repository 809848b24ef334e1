/** The plan and dragging the level: invalid input reported at its field, drawing by touch, moving level and section. */
import type { Locator, Page } from '@playwright/test';
import type { Room } from '../../shared-core/book/room.ts';
import { expect, test } from './open-book.ts';
import { customer, property, roomNamed } from './mill-lane.ts';
import { points, xyz } from '../outlines.ts';
import { putRows } from './stored-rows.ts';
import { toSheet } from './open-sample.ts';

const blank = roomNamed('Hall');

const SQUARE = points('0,0 4,0 4,3 0,3');
const GRID = Array.from({ length: 20 }, (_, k): [number, number, number] => [
  0.1 + (k % 5) * 0.95,
  0.1 + Math.floor(k / 5) * 0.93,
  1.02 + (k % 3) * 0.001,
]);

function roomOf(id: string, plan: Partial<Room['plan']>, readings: readonly (readonly [number, number, number])[] = []): Room {
  return {
    ...blank,
    id,
    plan: { ...blank.plan, outline: SQUARE, ...plan },
    survey: {
      ...blank.survey,
      method: 'distance-down',
      readings: readings.map(([xM, yM, valueM], i) => ({ id: `reading-${i}`, xM, yM, valueM, note: null, confirmed: false })),
    },
  };
}

const putRooms = (page: Page, rooms: readonly Room[]): Promise<void> =>
  putRows(page, { customers: [customer], properties: [property], rooms });

const middle = async (target: Locator): Promise<{ x: number; y: number }> => {
  const box = await target.boundingBox();
  if (box === null) throw new Error('It is not on the screen.');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};

test('a problem with a plan or its readings shows at its place on the plan, and entries stay', async ({ book: _book, page }) => {
  const cases: readonly (readonly [string, 'plan' | 'readings', RegExp, Room])[] = [
    [
      'crossed',
      'plan',
      /crosses or touches itself where sides 1 and 3 meet/,
      roomOf('room-crossed', {
        outline: points('0,0 4,3 4,0 0,3'),
      }),
    ],
    [
      'column',
      'plan',
      /crosses a wall\. Move it inside the room/,
      roomOf('room-column', {
        holes: [
          {
            id: 'hole-0001',
            kind: 'column',
            name: '',
            corners: points('3.5,1 4.5,1 4.5,2 3.5,2'),
          },
        ],
      }),
    ],
    [
      'doorway',
      'plan',
      /is 16′ 4⅞″ wide and its wall is 13′ 1½″ long/,
      roomOf('room-doorway', {
        openings: [
          {
            id: 'opening-01',
            kind: 'doorway',
            name: '',
            wall: 0,
            fromM: 0,
            widthM: 5,
            adjoiningM: null,
            adjoiningFlooring: '',
            edge: 'dam',
            isWayOut: false,
          },
        ],
      }),
    ],
    ['outside', 'readings', /outside the walls and is not used/, roomOf('room-outside', {}, [...GRID, [6, 1, 1.02]])],
    ['two heights', 'readings', /Two readings at this point are/, roomOf('room-twice', {}, [...GRID, [2, 1.03, 1.05]])],
    ['in a line', 'readings', /All readings are on one line/, roomOf('room-line', {}, xyz('0.5,1,1.02 1.5,1,1.03 3,1,1.025'))],
    ['one', 'readings', /One reading alone cannot describe the floor/, roomOf('room-one', {}, [[0.5, 1, 1.02]])],
    [
      'slipped',
      'readings',
      /Possible typo: the decimal point slipped one place/,
      roomOf(
        'room-slip',
        {},
        GRID.map(([x, y, z], i) => [x, y, i === 8 ? z / 10 : z]),
      ),
    ],
  ];
  await putRooms(
    page,
    cases.map(([, , , room]) => room),
  );
  for (const [name, screen, sentence, room] of cases) {
    await toSheet(page, `/${screen}/${room.id}`);
    const note = page.locator('.plan-note').filter({ hasText: sentence });
    await expect(note, name).toBeVisible();
    const plan = await page.locator('.plan-canvas').boundingBox();
    const center = await middle(note);
    expect(
      plan !== null && center.x > plan.x && center.x < plan.x + plan.width && center.y > plan.y && center.y < plan.y + plan.height,
      name,
    ).toBe(true);
    // As it was entered, valid or not.
    if (screen === 'readings') await expect(page.getByText(new RegExp(`^${room.survey.readings.length} read, `))).toBeVisible();
  }
  await toSheet(page, '/readings/room-one');
  await page.getByRole('radio', { name: 'List', exact: true }).focus();
  await page.keyboard.press('Space');
  const column = page.getByLabel('Column of readings');
  await column.fill('40 1/4\n1022 mm\n40 3/8');
  // At the place of the second value.
  const mixed = page.locator('.plan-note').filter({ hasText: /Line 2, 1022 mm, carries a unit and the lines before it do not/ });
  await expect(mixed).toBeVisible();
  await expect(column).toHaveValue('40 1/4\n1022 mm\n40 3/8');
  // It stays there while another part is open.
  for (const tab of ['Read', 'List']) {
    await page.getByRole('radio', { name: tab }).focus();
    await page.keyboard.press('Space');
  }
  await expect(column).toHaveValue('40 1/4\n1022 mm\n40 3/8');
  await page.getByRole('button', { name: 'Units are correct' }).click();
  await expect(mixed).toBeHidden();
  await expect(page.getByRole('button', { name: /^Import 3, / })).toBeEnabled();
  // More lines than places, with the place where they end.
  await column.fill(Array.from({ length: 300 }, () => '40 1/4').join('\n'));
  await expect(
    page.locator('.plan-note').filter({ hasText: /points left end at line \d+. Line \d+, 40 1\/4, and \d+ more have none/ }),
  ).toBeVisible();
});

test.describe('by touch', () => {
  test.use({ hasTouch: true, viewport: { width: 820, height: 1180 } });
  test('a room is drawn corner by corner, and a corner is dragged by touch', async ({ book: _book, page }) => {
    await putRooms(page, [blank]);
    await toSheet(page, `/plan/${blank.id}`);
    await page.getByText('By corners', { exact: true }).tap();
    const sheet = page.getByRole('group', { name: 'The sides entered so far' });
    const box = await sheet.boundingBox();
    if (box === null) throw new Error('No plan to draw on.');
    const start = { x: 0, y: 0 };
    const first = await middle(sheet.locator('circle').first());
    start.x = first.x;
    start.y = first.y;
    for (const [dx, dy, sides] of xyz('260,4,1 262,200,2 3,203,3')) {
      await page.touchscreen.tap(start.x + dx, start.y + dy);
      await expect(sheet.locator('path.plan-drawn')).toHaveCount(sides);
      // The drawing may be scaled again to fit the new side.
      const moved = await middle(sheet.locator('circle').first());
      start.x = moved.x;
      start.y = moved.y;
    }
    await page.touchscreen.tap(start.x, start.y);
    const corner = page.getByRole('button', { name: /^Corner 3, / });
    await expect(corner).toBeVisible();
    await expect(page.getByText(/wall length$/)).toBeVisible();
    const before = await corner.getAttribute('aria-label');
    const center = await middle(corner);
    const finger = await page.context().newCDPSession(page);
    await finger.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [center] });
    for (const step of [10, 20, 30, 40]) {
      await finger.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: [{ x: center.x - step, y: center.y - step }] });
    }
    await finger.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await expect(corner).not.toHaveAttribute('aria-label', before ?? '');
    await page.keyboard.press('Control+z');
    await expect(corner).toHaveAttribute('aria-label', before ?? '');
  });
});

test('the level is dragged on its section, and the section line by its ends', async ({ sample: _book, page }) => {
  await toSheet(page, '/jobs/sample-job-odell/estimate/sample-hall');
  const level = page.getByRole('slider', { name: /^Finish elevation/ });
  await expect(level).toBeVisible();
  const bags = page.locator('.answer-figure').first();
  const before = Number(await bags.innerText());
  // The chance that they are enough and the chance that they are not are of the same bags.
  const percent = async (words: RegExp): Promise<number> => Number(words.exec(await page.getByText(words).first().innerText())?.[1]);
  expect((await percent(/(\d+)% likely to be enough/)) + (await percent(/^\d+ bags: (\d+)% chance of running short/))).toBe(100);
  const valueText = await level.getAttribute('aria-valuetext');
  const grip = await middle(level);
  await page.mouse.move(grip.x, grip.y + 10);
  await page.mouse.down();
  await page.mouse.move(grip.x, grip.y, { steps: 3 });
  await page.mouse.move(grip.x, grip.y - 14, { steps: 4 });
  // During the drag: the bags it would take, and the steps at each doorway. Nothing is stored yet.
  const note = page.locator('.level-note');
  await expect(note).toContainText('above the low point');
  await expect(note).toContainText(/\d+ bags \(\d+ to \d+\)/);
  await expect(note).toContainText(/(up|down) into this room|flush/);
  await expect(bags).toHaveText(String(before));
  const held = Number(/(\d+) bags/.exec(await note.innerText())?.[1]);
  expect(held).toBeGreaterThan(before);
  await page.mouse.up();
  await expect(bags).toHaveText(String(held));
  await expect(note).toBeHidden();
  // One drag is one edit; Escape makes none.
  await page.getByRole('heading', { level: 1 }).click();
  await page.keyboard.press('Control+z');
  await expect(level).toHaveAttribute('aria-valuetext', valueText ?? '');
  await level.focus();
  // The clock is stopped, because a level that is held long enough is saved.
  await page.clock.install();
  await page.clock.pauseAt((await page.evaluate(() => Date.now())) + 40_000);
  await page.keyboard.press('PageUp');
  await expect(level).not.toHaveAttribute('aria-valuetext', valueText ?? '');
  await page.keyboard.press('Escape');
  await expect(level).toHaveAttribute('aria-valuetext', valueText ?? '');
  await page.clock.resume();

  // One plane is flat enough for the flooring; following the floor leaves its gaps.
  const flat = page.locator('.estimate-flat');
  await expect(flat).toContainText(/^Flat enough for /);
  await page.getByText('Follow the floor', { exact: true }).first().click();
  await expect(flat).toContainText(/^Not flat enough for /);
  await page.keyboard.press('Control+z');
  await expect(flat).toContainText(/^Flat enough for /);

  // The same section along a line drawn on the estimate's plan.
  const cut = page.getByRole('img', { name: 'Section through the hall under the new floor' });
  const usual = await cut.innerHTML();
  await page.getByLabel('Section', { exact: true }).selectOption({ label: 'along a line drawn on the plan' });
  const far = page.getByRole('button', { name: /^End A′ of the section/ });
  await far.focus();
  for (let i = 0; i < 3; i += 1) await page.keyboard.press('ArrowUp');
  await expect.poll(() => cut.innerHTML()).not.toBe(usual);

  await toSheet(page, '/readings/sample-hall');
  await page.getByText('Flatness', { exact: true }).first().click();
  await page.getByLabel('Section', { exact: true }).selectOption({ label: 'along a line drawn on the plan' });
  const end = page.getByRole('button', { name: /^End A of the section/ });
  const place = await end.getAttribute('aria-label');
  await end.focus();
  await page.keyboard.press('ArrowDown');
  await expect(end).not.toHaveAttribute('aria-label', place ?? '');
  const from = await middle(end);
  const stepped = await end.getAttribute('aria-label');
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + 60, from.y + 8, { steps: 5 });
  await page.mouse.up();
  await expect(end).not.toHaveAttribute('aria-label', stepped ?? '');
  await expect(page.getByRole('img', { name: /^Section of the floor along the line/ })).toBeVisible();
  await toSheet(page, '/plan/sample-hall');
  await expect(page.getByRole('heading', { level: 1, name: /: plan$/ })).toBeVisible();
});
