/** A US address in one line, and the city at its end. */

/** A city with its state and ZIP code, as a part of its own or after a number or the street. */
export const CITY =
  /(?<=[,;\d]\s*|\s{2})(?:in\s+)?(?<city>[A-Z][A-Za-z.'’-]*(?: [A-Z][A-Za-z.'’-]*){0,2}),?\s+(?<region>[A-Z]{2})\s+(?<zip>\d{5}(?:-\d{4})?)(?![\w-])/;
/** A whole address in one line: the street, then its city at the end. */
const WHOLE_ADDRESS = new RegExp(`^(?<line>.*?\\S)\\s*,\\s*${CITY.source}\\s*$`);

/** A whole address typed into the line of a street, `88 Elm St, Salem, OR 97301`, in its parts; the line alone where it has no city. */
export function splitAddress(typed: string): {
  readonly line: string;
  readonly city?: string;
  readonly region?: string;
  readonly zip?: string;
} {
  const { line, city, region, zip } = WHOLE_ADDRESS.exec(typed)?.groups ?? {};
  return line === undefined || city === undefined || region === undefined || zip === undefined
    ? { line: typed }
    : { line, city, region, zip };
}
