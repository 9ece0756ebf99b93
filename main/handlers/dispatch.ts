import { type CallName, type Handlers, hostCalls } from "../../shared/host.ts";
import type { Problem } from "../../shared/problem.ts";
import { FileFault } from "../files/fileFault.ts";
import { Refusal } from "./refusal.ts";

interface ParseIssue {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}

const problemOf = ({ path, message }: ParseIssue): Problem => ({
  path: path.map(String).join("."),
  value: null,
  why: message,
  mend: "Send what the host contract asks for.",
});

export const isCallName = (name: string): name is CallName => Object.hasOwn(hostCalls, name);

/**
 * Answers one call that came from outside: the one door that every host uses. The input is parsed with the contract's
 * schema before a handler sees it.
 *
 * @throws Refusal for an unknown call, a wrong input, or whatever the handler refuses; other errors are broken promises
 */
export async function answer(handlers: Handlers, name: string, input: unknown): Promise<unknown> {
  if (!isCallName(name)) throw new Refusal("unknown", "There is no such call.");
  const parsed = hostCalls[name].input.safeParse(input);
  if (!parsed.success) {
    throw new Refusal("badInput", `The input of ${name} is not as agreed.`, parsed.error.issues.map(problemOf));
  }
  try {
    return await (handlers[name] as (input: unknown) => Promise<unknown>)(parsed.data);
  } catch (cause) {
    if (cause instanceof FileFault) throw new Refusal(cause.code === "ENOENT" ? "unknown" : "notNow", cause.message);
    throw cause;
  }
}
