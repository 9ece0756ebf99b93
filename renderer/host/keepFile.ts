/** Hands a file to the browser, which keeps it where it keeps downloads. */
export function keepFile({ name, mime, text }: { name: string; mime: string; text: string }): void {
  const address = URL.createObjectURL(new Blob([text], { type: mime }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // The download has its own hold on the data once it has begun.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
