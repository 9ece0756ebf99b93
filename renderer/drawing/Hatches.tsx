/** The hatches of one drawing; ids are kept apart by `name`, since several drawings share a page. */
export function Hatches({ name }: { readonly name: string }) {
  return (
    <defs>
      <pattern id={`${name}-lap`} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line className="draw-hatch-lap" x1="0" y1="0" x2="0" y2="5" />
      </pattern>
      <pattern id={`${name}-void`} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
        <rect className="draw-hatch-ground" width="7" height="7" />
        <line className="draw-hatch-void" x1="0" y1="0" x2="0" y2="7" />
      </pattern>
    </defs>
  );
}
