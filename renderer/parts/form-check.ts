import { createContext, type RefObject, useContext, useEffect, useMemo, useRef, useState } from 'react';

/** The fields of a form. An action of the form is refused while one of them shows a text that it did not accept. */
interface FormCheck {
  /** Adds a field by a function that marks it where its text is wrong and returns whether it is right. Returns what removes it. */
  readonly add: (isRight: () => boolean) => () => void;
  /** Marks the fields that are wrong. True when there is none. */
  readonly passes: () => boolean;
  /** A field is right again. */
  readonly mended: () => void;
  /** Nothing is stored before the form is saved, so that its result follows each key: none appears between the press and the release of its button. */
  readonly savesTogether: boolean;
}

/** @param onChecked called with the number of wrong fields at each check, and with 0 when one is right again or gone */
export function formCheck(onChecked: (wrong: number) => void, savesTogether = true): FormCheck {
  const fields = new Set<() => boolean>();
  return {
    add: (isRight) => {
      fields.add(isRight);
      return () => {
        fields.delete(isRight);
        onChecked(0);
      };
    },
    passes: () => {
      // Every field is asked, so that all wrong ones are marked.
      const wrong = [...fields].filter((isRight) => !isRight()).length;
      onChecked(wrong);
      return wrong === 0;
    },
    mended: () => onChecked(0),
    savesTogether,
  };
}

/** The form around a field or a button; null outside one. */
export const FormContext = createContext<FormCheck | null>(null);

/** The check of a form, and the sentence after it refused. It moves the focus to the first marked field within `around`. */
export function useFormCheck(
  around: RefObject<HTMLElement | null>,
  savesTogether: boolean,
): { readonly form: FormCheck; readonly refusal: string | null } {
  const [checked, setChecked] = useState({ wrong: 0 });
  const form = useMemo(
    () => formCheck((wrong) => setChecked((last) => (last.wrong === 0 && wrong === 0 ? last : { wrong })), savesTogether),
    [savesTogether],
  );
  useEffect(() => {
    if (checked.wrong > 0) around.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
  }, [checked, around]);
  const refusal = checked.wrong === 0 ? null : checked.wrong === 1 ? 'Correct the marked field first.' : 'Correct the marked fields first.';
  return { form, refusal };
}

/** A button's action, which with `saves` waits until the fields of its form are right. */
export function useAction(saves: boolean, action: (() => void) | undefined): (() => void) | undefined {
  const form = useContext(FormContext);
  return saves && form !== null ? () => form.passes() && action?.() : action;
}

/** Has the form ask a field; `isRight` is the one of the last render. `isMarked` while the field shows what is wrong. */
export function useChecked(isRight: () => boolean, isMarked: boolean): void {
  const form = useContext(FormContext);
  const latest = useRef(isRight);
  useEffect(() => {
    latest.current = isRight;
  });
  useEffect(() => form?.add(() => latest.current()), [form]);
  useEffect(() => {
    if (!isMarked) form?.mended();
  }, [form, isMarked]);
}
