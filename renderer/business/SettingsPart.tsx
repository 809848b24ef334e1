import { createContext, type ReactNode, useContext, useEffect, useId, useRef } from 'react';
import { TextButton } from '../parts/Buttons.tsx';

/** Which folded parts are open, and which to scroll to. */
export interface OpenParts {
  readonly open: ReadonlySet<string>;
  readonly target: string | null;
  readonly toggle: (key: string) => void;
}
export const OpenPartsContext = createContext<OpenParts>({ open: new Set(), target: null, toggle: () => undefined });

interface SettingsPartProps {
  readonly heading: string;
  /** The purpose of the part, in one sentence. */
  readonly text?: ReactNode;
  /** Makes the part foldable: its name in the address, and its one-line summary. */
  readonly fold?: { readonly key: string; readonly summary: string };
  readonly children: ReactNode;
}

/** A part of the settings: its name at the left, and its fields or its summary at the right. */
export function SettingsPart({ heading, text, fold, children }: SettingsPartProps) {
  const id = useId();
  const section = useRef<HTMLElement>(null);
  const { open, target, toggle } = useContext(OpenPartsContext);
  const isTarget = fold !== undefined && fold.key === target;
  useEffect(() => {
    if (isTarget) section.current?.scrollIntoView({ block: 'start' });
  }, [isTarget]);
  const isOpen = fold === undefined || open.has(fold.key);
  return (
    <section className="settings-part" aria-labelledby={id} ref={section}>
      <div>
        <h2 className="settings-part-name" id={id}>
          {heading}
        </h2>
        {isOpen && text !== undefined && <p className="caption">{text}</p>}
      </div>
      <div className="stack-wide">
        {fold !== undefined && (
          <div className="ends-row">
            <p>{fold.summary}</p>
            <TextButton
              kind="plain"
              expanded={isOpen}
              label={isOpen ? `Close ${heading}` : `Edit ${heading}`}
              onPress={() => toggle(fold.key)}
            >
              {isOpen ? 'Close' : 'Edit'}
            </TextButton>
          </div>
        )}
        {isOpen && children}
      </div>
    </section>
  );
}
