/**
 * Splits a stream of text into its lines as they come, newline-delimited; empty lines are left out. A last line without
 * its newline is given when the stream ends.
 */
export async function* linesOf(stream: ReadableStream<Uint8Array>): AsyncGenerator<string> {
  const reader = stream.getReader();
  const decoder = new TextDecoder();
  let rest = "";
  try {
    for (;;) {
      const { done, value } = await reader.read();
      rest += done ? decoder.decode() : decoder.decode(value, { stream: true });
      let end = rest.indexOf("\n");
      while (end >= 0) {
        const line = rest.slice(0, end).trim();
        if (line !== "") yield line;
        rest = rest.slice(end + 1);
        end = rest.indexOf("\n");
      }
      if (done) break;
    }
    if (rest.trim() !== "") yield rest.trim();
  } finally {
    reader.releaseLock();
  }
}
