import { setQuantities } from '../parts/UnitText.tsx';

/** What an entry asks for, its verb in bold. A number with a hyphen, such as an invoice's, is kept on one line. */
export function EntryWords({ verb, rest }: { readonly verb: string; readonly rest: string }) {
  return (
    <>
      <b>{verb}</b>{' '}
      {rest.split(/(\S*\d-\d\S*)/).map((words, i) =>
        i % 2 === 0 ? (
          setQuantities(words)
        ) : (
          <span key={words} className="unbroken">
            {words}
          </span>
        ),
      )}
    </>
  );
}
