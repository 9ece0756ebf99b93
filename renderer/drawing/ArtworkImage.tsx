import type { ReactNode } from "react";
import type { Registration } from "../../core/index.ts";
import { type Frame, screenX, screenY } from "./frame.ts";

interface ArtworkImageProps {
  readonly href: string;
  /** Of the picture that the registration is for, in pixels; `href` may hold it smaller. */
  readonly width: number;
  readonly height: number;
  readonly registration: Registration;
  readonly frame: Frame;
}

/** The artwork, faint, as it lies on its elevation. */
export function ArtworkImage({ href, width, height, registration, frame }: ArtworkImageProps): ReactNode {
  const { origin, right, down } = registration;
  const { scale } = frame;
  const matrix = [
    right.x * scale,
    -right.y * scale,
    down.x * scale,
    -down.y * scale,
    screenX(frame, origin.x),
    screenY(frame, origin.y),
  ];
  return (
    <image
      className="draw-artwork"
      href={href}
      width={width}
      height={height}
      preserveAspectRatio="none"
      transform={`matrix(${matrix.join(" ")})`}
    />
  );
}
