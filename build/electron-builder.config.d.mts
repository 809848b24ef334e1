interface Association {
  readonly ext: string;
  readonly role: string;
  readonly rank?: string;
}
declare const config: {
  readonly electronFuses?: Readonly<Record<string, boolean>>;
  readonly fileAssociations: readonly Association[];
  readonly linux: { readonly mimeTypes: readonly string[] };
  readonly mac: { readonly fileAssociations: readonly Association[] };
  readonly win: { readonly fileAssociations?: readonly Association[] };
};
export default config;
