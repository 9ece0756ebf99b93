/** Reached without the key that only the program hands out: what to do. */
export function NoKey() {
  return (
    <main className="no-key">
      <h1>Lapwright</h1>
      <p>
        This page was opened without its key, or was loaded again and lost it. The program that serves it prints an
        address that ends in a long key. Open that address, or start the program again.
      </p>
      <p>Unsaved work was kept in this browser and is offered when the page opens with its key.</p>
    </main>
  );
}
