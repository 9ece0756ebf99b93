/** The two channels between a window and the shell: one for every call, one for every event. */
export const callChannel = "lapwright:call";
export const eventChannel = "lapwright:event";

/** How an answer crosses: refusals as data, since an error's own fields do not survive the crossing. */
export type CallAnswer =
  | { readonly ok: true; readonly output: unknown }
  | { readonly ok: false; readonly refusal: unknown };
