/** Sources: RFC 3966, section 3, for `;ext=`; the other ways to write an extension are common practice, no source. */
import { expect, it } from 'vitest';
import { phoneParts } from '../../../shared-core/measure/phone-email.ts';

it.each([
  ['303-555-0100', '3035550100', ''],
  ['+1 (303) 555-0100', '3035550100', ''],
  ['303-555-0100 x12', '3035550100', '12'],
  ['303-555-0100x12', '3035550100', '12'],
  ['303.555.0100, ext. 12', '3035550100', '12'],
  ['303 555 0100 Extension: 1234', '3035550100', '1234'],
  ['303-555-0100 #7', '3035550100', '7'],
  ['tel:+1-303-555-0100;ext=12', '3035550100', '12'],
  ['555-0100', '5550100', ''],
  ['', '', ''],
])('%s is the number %s with the extension “%s”', (text, number, extension) => expect(phoneParts(text)).toEqual({ number, extension }));
