/**
 * What is used of papaparse: writing here, reading back in tests. The published types bring all types of Node with them, and the core
 * has to compile without those.
 */
declare module "papaparse" {
  interface UnparseConfig {
    readonly newline?: string;
    readonly quotes?: (value: unknown, column: number) => boolean;
    readonly escapeFormulae?: RegExp;
  }
  const Papa: {
    unparse(
      table: { readonly fields: readonly string[]; readonly data: readonly (readonly (string | number | null)[])[] },
      config?: UnparseConfig,
    ): string;
    parse<Row>(
      text: string,
      config: { readonly header: true },
    ): {
      readonly data: Row[];
      readonly errors: readonly unknown[];
      readonly meta: { readonly fields?: readonly string[] };
    };
  };
  export default Papa;
}
