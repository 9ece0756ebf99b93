import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, test } from "vitest";
import { projectRoot } from "./projectRoot.ts";
import { sharedFolderAbsent } from "./sharedFolderReason.ts";

/**
 * Some checks read documents and published instances that lie beside the project, in `../shared`, and are not part of
 * it. A clone that stands alone skips them; no other reason for a skip is accepted by the test command.
 */
export const sharedFolder = join(projectRoot, "..", "shared");
export const sharedFolderPresent = existsSync(join(sharedFolder, "DESIGN.md"));

export { sharedFolderAbsent };

/** A test that needs `../shared`; skipped under a title that says why when it is absent. */
export function testWithShared(name: string, body: () => void | Promise<void>): void {
  if (sharedFolderPresent) test(name, body);
  else test.skip(`${name} (${sharedFolderAbsent})`, body);
}

/** A group of tests that needs `../shared`. Where it is absent its body is not run: one skipped test stands for it. */
export function describeWithShared(name: string, body: () => void): void {
  if (sharedFolderPresent) describe(name, body);
  else test.skip(`${name} (${sharedFolderAbsent})`, () => {});
}
