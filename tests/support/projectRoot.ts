import { fileURLToPath } from "node:url";

/** The project's top folder, with a slash at its end. */
export const projectRoot = fileURLToPath(new URL("../../", import.meta.url));
