/** Corners and readings written as text: `0,0 6,0 6,4 0,4`, each place with as many numbers as the others. */
function rows(text: string, size: number): number[][] {
  return text.split(' ').map((place) => {
    const row = place.split(',').map(Number);
    if (row.length !== size || row.some(Number.isNaN)) throw new Error(`${place} is not ${size} numbers.`);
    return row;
  });
}

export const xy = (text: string) => rows(text, 2) as [number, number][];
export const xyz = (text: string) => rows(text, 3) as [number, number, number][];
export const points = (text: string) => xy(text).map(([xM, yM]) => ({ xM, yM }));
