import { type ReactNode, useId } from 'react';

interface SettingsPartProps {
  readonly heading: string;
  /** What it is for, in a sentence. */
  readonly says?: ReactNode;
  readonly children: ReactNode;
}

/** One part of the business's sheet: its name at the left, its fields at the right. */
export function SettingsPart({ heading, says, children }: SettingsPartProps) {
  const id = useId();
  return (
    <section className="settings-part" aria-labelledby={id}>
      <div className="settings-part-head">
        <h2 className="settings-part-name" id={id}>
          {heading}
        </h2>
        {says !== undefined && <p className="caption">{says}</p>}
      </div>
      <div className="settings-part-fields">{children}</div>
    </section>
  );
}
