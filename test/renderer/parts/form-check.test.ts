import { describe, expect, it } from 'vitest';
import { formCheck } from '../../../renderer/parts/form-check.ts';

/** A form of fields by whether each is right, with the names of those asked and the counts reported. */
const formOf = (fields: Readonly<Record<string, boolean>>) => {
  const asked: string[] = [];
  const counts: number[] = [];
  const form = formCheck((wrong) => counts.push(wrong));
  const removes = Object.entries(fields).map(([name, isRight]) =>
    form.add(() => {
      asked.push(name);
      return isRight;
    }),
  );
  return { form, asked, counts, removes };
};

describe('the check of a form', () => {
  it('passes without a wrong field', () => {
    const { form, counts } = formOf({ amount: true, date: true });
    expect(form.passes()).toBe(true);
    expect(counts).toEqual([0]);
  });

  it('asks every field, so that all wrong ones are marked, and reports how many are wrong', () => {
    const { form, asked, counts } = formOf({ amount: false, method: true, date: false });
    expect(form.passes()).toBe(false);
    expect(asked).toEqual(['amount', 'method', 'date']);
    expect(counts).toEqual([2]);
  });

  it('takes its sentence back once a field is right again', () => {
    const { form, counts } = formOf({ amount: false });
    form.passes();
    form.mended();
    expect(counts).toEqual([1, 0]);
  });

  it('does not ask a field that is gone', () => {
    const { form, counts, removes } = formOf({ amount: true, lanes: false });
    form.passes();
    removes[1]?.();
    expect(counts).toEqual([1, 0]);
    expect(form.passes()).toBe(true);
    expect(counts).toEqual([1, 0, 0]);
  });
});
