// A worker thread of Node 20 can't start from a TypeScript file, so the sources are reached through this one.
import { register } from "tsx/esm/api";

register();
await import("./planWorker.ts");
