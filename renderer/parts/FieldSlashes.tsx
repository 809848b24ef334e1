/** The two slashes that mark an entered or measured value. */
export function FieldSlashes() {
  return (
    <>
      <svg className="field-slash field-slash-left" width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
        <path d="M1 11L11 1" stroke="var(--ink)" strokeWidth="2" />
      </svg>
      <svg className="field-slash field-slash-right" width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
        <path d="M1 11L11 1" stroke="var(--ink)" strokeWidth="2" />
      </svg>
    </>
  );
}
