import { TextField } from '../../parts/Fields.tsx';

interface ReasonFieldsProps {
  readonly why: string;
  readonly onWhy: (why: string) => void;
  readonly by: string;
  readonly onBy: (by: string) => void;
  /** What is missing, in a sentence, or null. */
  readonly problem: string | null;
}

/** The reason for a correction, and initials. */
export function ReasonFields({ why, onWhy, by, onBy, problem }: ReasonFieldsProps) {
  return (
    <>
      <TextField label="Reason" value={why} onChange={onWhy} />
      <TextField label="Initials" value={by} onChange={onBy} />
      {problem !== null && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </>
  );
}
