import { z } from "zod";

// Compiled parsers need `new Function`, which the window's content policy forbids. Set before any schema is made.
z.config({ jitless: true });

export { z };
