/**
 * The one function of papaparse that is used here. The published types bring all types of Node with them, and the core
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
  };
  export default Papa;
}
