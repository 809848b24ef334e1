import { Link } from 'wouter';
import { useEffect, useRef } from 'react';
import { Pointer } from './Pointer.tsx';
import { STATE_WORDS, type StateName, StateShape } from './StateShape.tsx';
import './StageWords.css';

export interface StageWord {
  readonly name: string;
  readonly href: string;
  /** `waiting` has no shape. */
  readonly state: StateName;
}

/** The stages of a job on a line: the pointer under the current one, the state's shape under the others. */
export function StageWords({ stages, current }: { readonly stages: readonly StageWord[]; readonly current: string | null }) {
  const currentRef = useRef<HTMLAnchorElement>(null);
  useEffect(() => {
    currentRef.current?.scrollIntoView({ block: 'nearest', inline: 'center', behavior: 'instant' });
  }, [current]);
  return (
    <nav aria-label="Stages" className="stage-words">
      <ol>
        {stages.map(({ name, href, state }) => {
          const isHere = name === current;
          return (
            <li key={name}>
              <Link href={href} ref={isHere ? currentRef : undefined} aria-current={isHere ? 'page' : undefined}>
                {name}
                <span className="hidden-words">, {STATE_WORDS[state]}</span>
                <span className="stage-words-shape" title={STATE_WORDS[state]}>
                  {isHere ? <Pointer /> : state !== 'waiting' && <StateShape state={state} sizePx={9} />}
                </span>
              </Link>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}
