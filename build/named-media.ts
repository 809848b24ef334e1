import { MEDIA } from '../renderer/look/media.ts';

/** Writes the named sizes of `@media` as the queries that the code uses; a plugin of PostCSS. */
export const namedMedia = {
  postcssPlugin: 'named-media',
  AtRule: {
    media: (rule: { params: string }): void => {
      rule.params = rule.params.replace(/\(--(\w+)\)/g, (_, name: keyof typeof MEDIA) => MEDIA[name]);
    },
  },
};
