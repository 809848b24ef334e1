import { useEffect, useState } from 'react';
import { z } from 'zod';
import { Sheet, SheetHeading } from '../parts/Sheet.tsx';

const listSchema = z.array(z.object({ name: z.string(), version: z.string(), license: z.string(), text: z.string() }));
type License = z.infer<typeof listSchema>[number];

/** Licenses of all software that ships with the program. */
export function LicensesScreen() {
  const [list, setList] = useState<readonly License[] | string | null>(null);
  useEffect(() => {
    const read = async (): Promise<readonly License[]> => listSchema.parse(await (await fetch('/licenses.json')).json());
    void read().then(setList, () => setList('The license list is missing from this build.'));
  }, []);
  return (
    <Sheet page="Settings" who={{ name: 'Straightedge', where: 'MIT License' }}>
      <SheetHeading under="Straightedge includes these open-source packages.">Licenses</SheetHeading>
      {list === null && <p className="caption">Loading…</p>}
      {typeof list === 'string' && <p>{list}</p>}
      {list !== null && typeof list !== 'string' && (
        <ul className="settings-licenses">
          {list.map((one) => (
            <li key={`${one.name} ${one.version}`}>
              <details>
                <summary>
                  {one.name} {one.version} <span className="caption">{one.license}</span>
                </summary>
                <pre>{one.text === '' ? 'The package has no license text.' : one.text}</pre>
              </details>
            </li>
          ))}
        </ul>
      )}
    </Sheet>
  );
}
