import { z } from "./zod.ts";

/**
 * One thing that is wrong or worth knowing, in words of the trade.
 * `path` is where it stands in the job ("elevations[0].sections[1].box"), `value` what was found there,
 * `why` what that means for the job and `mend` what would help.
 */
export const Problem = z.object({ path: z.string(), value: z.unknown(), why: z.string(), mend: z.string() });
export type Problem = z.output<typeof Problem>;
