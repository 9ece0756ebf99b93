import { type ReactNode, useId, useMemo, useRef } from "react";
import { type CourseQuestion, courseScene, courseSentence } from "./courseScene.ts";
import { Figure } from "./Figure.tsx";
import { short } from "./frame.ts";
import { Hatches } from "./Hatches.tsx";
import { useRoom } from "./useRoom.ts";

interface CourseProps extends CourseQuestion {
  readonly width: number;
  readonly height: number;
  readonly lettered: boolean;
}

/** Cost falling to the ground that the bound is, over the time of the search. Takes the same room whatever it shows. */
function Course({ width, height, lettered, ...question }: CourseProps): ReactNode {
  const { steps, seconds, currency } = question;
  const name = useId();
  const scene = useMemo(
    () => courseScene({ steps, seconds, currency }, width, height, lettered),
    [steps, seconds, currency, width, height, lettered],
  );
  const { plot, end } = scene;
  const foot = plot.y + plot.height;
  return (
    <svg
      className="draw-sheet"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={courseSentence(question)}
    >
      <Hatches name={name} />
      {scene.ticks.map(({ x, text }, place) => (
        <g key={text}>
          <path className="draw-rule" d={`M${short(x)} ${plot.y}V${foot}`} />
          <text
            className={`draw-text draw-text-quiet ${place === 0 ? "draw-text-start" : place === scene.ticks.length - 1 ? "draw-text-end" : ""}`}
            x={x}
            y={foot + 15}
          >
            {text}
          </text>
        </g>
      ))}
      <path className="draw-course-foot" d={`M${plot.x} ${foot}H${plot.x + plot.width}`} />
      {steps.length === 0 ? null : (
        <>
          <path fill={`url(#${name}-lap)`} d={scene.ground} />
          <path className="draw-course-ground" d={scene.groundLine} />
          <path className="draw-course-cost" d={scene.costPath} />
          <path className="draw-extension" d={scene.gapLine} />
          <path className="draw-arrow-end" d={scene.gapArrows} />
          <circle className="draw-course-best" cx={end.x} cy={end.cost} r={lettered ? 3.5 : 2.5} />
        </>
      )}
      {scene.first === null ? null : (
        <text className="draw-text draw-text-figures draw-text-start" x={scene.first.x} y={scene.first.y}>
          {scene.first.text}
        </text>
      )}
      {scene.words.map(({ part, y, text }) => (
        <text
          key={part}
          className={`draw-text draw-text-start ${part === "gap" ? "draw-text-name" : "draw-text-figures"}`}
          x={plot.x + plot.width + 22}
          y={y}
          dy="0.35em"
        >
          <Figure text={text} />
        </text>
      ))}
    </svg>
  );
}

/** The course in full, as wide as its place. */
export function SearchCourse(props: CourseQuestion): ReactNode {
  const place = useRef<HTMLDivElement>(null);
  const room = useRoom(place, 640);
  return (
    <div className="draw-course" ref={place}>
      <Course {...props} width={Math.min(room, 960)} height={132} lettered />
    </div>
  );
}

/** The course at a glance, for a line of text to stand beside. */
export function SmallCourse(props: CourseQuestion): ReactNode {
  return <Course {...props} width={136} height={30} lettered={false} />;
}
