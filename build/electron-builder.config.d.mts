declare const config: { readonly electronFuses?: Readonly<Record<string, boolean>> };
export default config;
