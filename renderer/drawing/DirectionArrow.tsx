/** A thin shaft with an open head, so that it is not taken for a dimension. */
export function DirectionArrow({
  tail,
  head,
}: {
  readonly tail: { x: number; y: number };
  readonly head: { x: number; y: number };
}) {
  const length = Math.hypot(head.x - tail.x, head.y - tail.y) || 1;
  const [ux, uy] = [(head.x - tail.x) / length, (head.y - tail.y) / length];
  const barb = (side: 1 | -1): string =>
    `M${head.x} ${head.y}L${head.x - ux * 7 - uy * 4 * side} ${head.y - uy * 7 + ux * 4 * side}`;
  return <path className="draw-direction" d={`M${tail.x} ${tail.y}L${head.x} ${head.y}${barb(1)}${barb(-1)}`} />;
}
