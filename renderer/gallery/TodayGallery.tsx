import { ActionButton } from '../parts/ActionButton.tsx';
import { Datum } from '../parts/Datum.tsx';
import { DrawingView } from '../parts/DrawingView.tsx';
import { LetterRow } from '../parts/LetterRow.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { StateShape } from '../parts/StateShape.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { Answer } from '../parts/Answer.tsx';
import { useSmall } from '../parts/use-small.ts';
import { boxMark, lineMark, textMark } from '../../shared-core/drawing/ink.ts';
import type { Drawing } from '../../shared-core/drawing/marks.ts';
import { SANS_BOLD, SERIF_ITALIC } from '../../shared-core/drawing/type-metrics.ts';
import { dryingBar, hatchedBar, notAgreedBar, slashedLine } from '../../shared-core/drawing/shapes.ts';

const open = <ActionButton href="/pour">Open the pour</ActionButton>;

export function TodayGallery() {
  const small = useSmall();
  const from = small ? 18 : 392;
  return (
    <Sheet
      page="Today"
      who={{ name: 'Fennick Even Floors', where: 'Tarn Bridge', right: 'Book copied last night, 9:12' }}
      block={
        <>
          <BlockPart>
            <p>Three rooms are curing, a fourth from today. One quote, $6,180, is with a customer. One room is held.</p>
          </BlockPart>
          <BlockPart>
            <ul style={{ display: 'grid', gridTemplateColumns: '1fr 1fr', gap: 8 }}>
              {(['waiting', 'under-way', 'done', 'held'] as const).map((state) => (
                <li key={state} style={{ display: 'flex', gap: 14, alignItems: 'center' }}>
                  <StateShape state={state} /> {state.replace('-', ' ')}
                </li>
              ))}
            </ul>
          </BlockPart>
        </>
      }
      datum={
        <Datum
          label="Days from May 11 to June 22; today is May 12"
          scale={(widthPx) => {
            const day = (widthPx - from - 36) / (small ? 14 : 42);
            const x = (d: number) => from + d * day;
            const words: Record<number, string> = { 0: 'May 11', 7: '18', 14: '25', 21: 'June 1', 28: '8', 35: '15' };
            const days = Array.from({ length: small ? 15 : 43 }, (_, d) => d);
            return {
              ticks: days.map((d) => ({ xPx: x(d), ...(words[d] === undefined ? {} : { label: words[d] }) })),
              stretches: [5, 12, 19, 26, 33]
                .filter((d) => d < days.length - 2)
                .map((d) => ({ fromPx: x(d), toPx: x(d + 2), hatch: 'wall' as const })),
              pointerPx: x(1.3),
            };
          }}
        >
          {(widthPx) => <DrawingView label="Ribbons of the rooms" drawing={ribbons(widthPx, from)} />}
        </Datum>
      }
      below={<span />}
      foot={small ? <Answer under="Be there by 8:45.">50 bags, two helpers.</Answer> : undefined}
      action={small ? open : undefined}
    >
      <SheetHeading right="7:05 in the morning">Tuesday, May 12</SheetHeading>
      <ol style={{ marginTop: 10 }}>
        <LetterRow
          letter="A"
          first
          href="/pour"
          under={small ? undefined : 'Primer is dry from 9:40 and too old after 2:15. 50 bags and two helpers; be there by 8:45.'}
          action={small ? undefined : open}
        >
          <b>Pour</b> the Lanyons’ family room from 9:40 to 2:15.
        </LetterRow>
        <LetterRow letter="B" href="/estimate" right="5:30 pm">
          <b>Hand over</b> 117 Sallow Lane to Abara and Finch.
        </LetterRow>
        <LetterRow letter="C" href="/estimate" right="late, promised Monday" late>
          <b>Finish</b> the Solbergs’ quote: the hall is still to price.
        </LetterRow>
        <LetterRow letter="D" href="/estimate" right="Friday">
          <b>Call</b> Dale Tremaine before the quote expires.
        </LetterRow>
      </ol>
    </Sheet>
  );
}

function ribbons(widthPx: number, from: number): Drawing {
  const day = (widthPx - from - 36) / (from < 100 ? 14 : 42);
  const bar = (row: number, d0: number, d1: number) => ({ x: from + d0 * day, y: 30 + row * 34, width: (d1 - d0) * day, height: 18 });
  const inner = from >= 100;
  return {
    width: widthPx,
    height: 210,
    marks: [
      ...hatchedBar(bar(0, 0, 1), 'prep'),
      boxMark(bar(0, 1, 2), { fill: 'ink' }),
      ...dryingBar(bar(0, 2, inner ? 22 : 10)),
      ...dryingBar(bar(1, 0, 4), { fromShare: 0.6 }),
      ...(inner ? slashedLine(from + 18 * day, 39, from + 27 * day) : []),
      boxMark({ ...bar(2, 0, 4.5), height: 7, y: 104 }, { fill: 'ink' }),
      ...notAgreedBar(bar(3, 7, inner ? 28 : 13), from + 9 * day, from + 10 * day),
      ...(inner
        ? [
            textMark(36, 44, 'Lanyon', { face: SANS_BOLD, sizePx: 17 }),
            textMark(36, 66, '8 Chandler’s Wharf', { face: SERIF_ITALIC, ink: 'ink2' }),
            textMark(246, 44, 'Family room', { sizePx: 17 }),
            textMark(246, 78, 'Mud room', { sizePx: 17 }),
          ]
        : []),
      lineMark([from + 1.3 * day, 0, from + 1.3 * day, 200], { pen: 'thin', ink: 'ink2' }),
      lineMark([36, 92, widthPx - 36, 92], { pen: 'witness', ink: 'line' }),
    ],
  };
}
