import { join } from "node:path";

/** The file a planning worker starts from when the program runs from its sources. */
export const workerFromSource = (): string => join(import.meta.dirname, "planWorkerFromSource.mjs");
