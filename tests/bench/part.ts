/** One measured figure in words: what it is of, and its value with its unit and spread. */
export interface Row {
  readonly what: string;
  readonly figure: string;
}

export interface Circumstances {
  readonly seed: number;
  /** How often what varies from run to run is repeated. */
  readonly repeats: number;
  /** Called with each figure as soon as it is known. */
  readonly tell: (what: string, figure: string) => void;
}

/** One part of the benchmark, chosen by its name. */
export interface Part {
  readonly name: string;
  readonly title: string;
  readonly run: (circumstances: Circumstances) => Promise<void> | void;
}
