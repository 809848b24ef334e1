import type { ReasonWhy } from '../parts/Reason.tsx';

export const BAGS_WHY: ReasonWhy = {
  figureName: 'Bags for the hall',
  inputs: [
    { name: 'Fill', value: '9.8 cu ft', source: '30 readings, May 6' },
    { name: 'Yield per bag', value: '0.45 cu ft', source: 'the bag’s own sheet' },
    { name: 'Lost in bucket and on the floor', value: '5 %', source: 'typical' },
  ],
  formula: 'The fill, and what is lost, divided by what one bag gives; rounded up so that it is enough eight times in ten.',
  source: 'The maker’s data sheet for the yield; the spread of your own past jobs for the range',
  range: { leastText: '21', mostText: '26', value: 0.8, words: 'Twenty-five is the one quoted.' },
};
