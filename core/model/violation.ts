/** One broken rule of the contract: which rule, on which ids, and a sentence with the numbers. */
export interface Violation {
  readonly rule: string;
  readonly at: readonly string[];
  readonly says: string;
}
