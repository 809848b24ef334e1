import type { Oddity } from '../../shared-core/book/snapshot-check.ts';
import { mendOddity, mendWord } from '../book/mend.ts';
import { nowInstant } from '../book/moment.ts';
import { TextButton } from '../parts/TextButton.tsx';

interface OddPartProps {
  readonly odd: readonly Oddity[] | null;
  readonly onSay: (good: boolean, words: string) => void;
}

const SHOWN = 50;

/** What is odd in the book, each with what it means and a way on. Nothing is mended unasked. */
export function OddPart({ odd, onSay }: OddPartProps) {
  const mend = async (oddity: Oddity): Promise<void> => {
    const outcome = await mendOddity(oddity, nowInstant());
    onSay(outcome.ok, outcome.ok ? 'Done. Undo brings it back.' : outcome.message);
  };
  return (
    <section className="backup-odd">
      <h2 className="speech">What is odd in the book</h2>
      {odd === null && <p className="caption">Checking…</p>}
      {odd?.length === 0 && <p>Nothing: every record can be read and has what it belongs to.</p>}
      {odd !== null && odd.length > 0 && (
        <ul>
          {odd.slice(0, SHOWN).map((o, i) => {
            const word = mendWord(o);
            return (
              <li key={`${o.table}/${o.id}/${i}`}>
                <span>
                  {o.says} <span className="caption">{o.id}</span>
                </span>
                {word !== null && (
                  <TextButton kind="plain" onPress={() => void mend(o)}>
                    {word}
                  </TextButton>
                )}
              </li>
            );
          })}
        </ul>
      )}
      {odd !== null && odd.length > SHOWN && <p className="small">And {odd.length - SHOWN} more.</p>}
    </section>
  );
}
