import { type ReactNode, useId, useState } from "react";
import { type Box, type Ticks, ticksFrom, ticksTo, type Unit } from "../../core/index.ts";
import { TypedField } from "../controls/Field.tsx";
import { editLength, type Read, readLength, showNumber } from "../state/lengths.ts";
import type { Artwork } from "./artworkStore.ts";
import { lay, type Mark, type Placing } from "./placing.ts";

interface PlacePictureProps {
  readonly loaded: NonNullable<Artwork["loaded"]>;
  readonly box: Box;
  readonly unit: Unit;
  readonly onPlace: (placing: Placing) => void;
}

type Which = "a" | "b";

const ways = [
  ["fit", "over the whole"],
  ["places", "by two places"],
  ["distance", "by a distance"],
] as const;

/** How the picture lies on the elevation: over the whole of it, or by two of its places that are pointed at and typed. */
export function PlacePicture({ loaded, box, unit, onPlace }: PlacePictureProps): ReactNode {
  const { placing, picture } = loaded;
  const [active, setActive] = useState<Which>("a");
  const name = useId();
  const laid = lay(placing, picture, box, unit);
  const change = (part: Partial<Placing>): void => onPlace({ ...placing, ...part });
  const mark = (which: Which, part: Partial<Mark>): void => change({ [which]: { ...placing[which], ...part } });
  const point = (x: number, y: number): void =>
    mark(active, { pixel: { x: within(x, picture.width), y: within(y, picture.height) } });
  return (
    <div className="fields">
      <div className="field">
        <label htmlFor={`${name}-way`} className="field-label">
          The picture lies
        </label>
        <select
          id={`${name}-way`}
          className="input"
          value={placing.way}
          onChange={(event) => change({ way: event.target.value as Placing["way"] })}
        >
          {ways.map(([way, words]) => (
            <option key={way} value={way}>
              {words}
            </option>
          ))}
        </select>
      </div>
      {placing.way === "fit" ? null : (
        <>
          <fieldset className="artwork-marks">
            <legend className="field-label">Point at a place of the picture</legend>
            {(["a", "b"] as const).map((which) => (
              <label key={which} className="artwork-which">
                <input
                  type="radio"
                  name={`${name}-mark`}
                  checked={active === which}
                  onChange={() => setActive(which)}
                />
                {which.toUpperCase()}
              </label>
            ))}
          </fieldset>
          <MarkedPicture loaded={loaded} active={active} onPoint={point} />
          {(["a", "b"] as const).map((which) => (
            <MarkFields
              key={which}
              which={which}
              mark={placing[which]}
              hasPlace={which === "a" || placing.way === "places"}
              size={picture}
              unit={unit}
              onChange={(part) => mark(which, part)}
            />
          ))}
          {placing.way === "distance" ? (
            <TicksField
              label="From A to B"
              value={placing.distance}
              unit={unit}
              onChange={(distance) => change({ distance })}
            />
          ) : null}
        </>
      )}
      <p className={"why" in laid ? "field-said" : "field-hint"} role={"why" in laid ? "alert" : undefined}>
        {"why" in laid ? laid.why : laid.says}
      </p>
    </div>
  );
}

const within = (value: number, most: number): number => Math.min(Math.max(Math.round(value * 2) / 2, 0), most);

interface MarkedPictureProps {
  readonly loaded: NonNullable<Artwork["loaded"]>;
  readonly active: Which;
  readonly onPoint: (x: number, y: number) => void;
}

/** Pixels of the picture that the enlargement shows on a side. */
const enlarged = 48;

/** The picture with A and B on it, and the surroundings of the active one enlarged; a click on either moves that mark. */
function MarkedPicture({ loaded, active, onPoint }: MarkedPictureProps): ReactNode {
  const { picture, href, placing, name } = loaded;
  const { width, height } = picture;
  const at = placing[active].pixel;
  const part = Math.min(enlarged, Math.max(width, height));
  const arm = Math.max(width, height) / 40;
  const clicked = (
    event: React.MouseEvent<SVGSVGElement>,
    x0: number,
    y0: number,
    wide: number,
    high: number,
  ): void => {
    const { left, top, width: shownWide, height: shownHigh } = event.currentTarget.getBoundingClientRect();
    if (shownWide === 0 || shownHigh === 0) return;
    onPoint(x0 + ((event.clientX - left) / shownWide) * wide, y0 + ((event.clientY - top) / shownHigh) * high);
  };
  return (
    <div className="artwork-pointing">
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: pointing is an extra; the fields below take the same places by key */}
      <svg
        className="artwork-preview"
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`${name} with the places A and B; click to move ${active.toUpperCase()}`}
        onClick={(event) => clicked(event, 0, 0, width, height)}
      >
        <image href={href} width={width} height={height} preserveAspectRatio="none" />
        {(["a", "b"] as const).map((which) => (
          <Cross
            key={which}
            {...placing[which].pixel}
            arm={arm}
            isActive={which === active}
            word={which.toUpperCase()}
          />
        ))}
      </svg>
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: as above */}
      <svg
        className="artwork-loupe"
        viewBox={`${at.x - part / 2} ${at.y - part / 2} ${part} ${part}`}
        role="img"
        aria-label={`Around ${active.toUpperCase()}, enlarged; click to move it there`}
        onClick={(event) => clicked(event, at.x - part / 2, at.y - part / 2, part, part)}
      >
        <image href={href} width={width} height={height} preserveAspectRatio="none" />
        <Cross {...at} arm={part / 6} isActive word="" />
      </svg>
    </div>
  );
}

interface CrossProps {
  readonly x: number;
  readonly y: number;
  readonly arm: number;
  readonly isActive: boolean;
  readonly word: string;
}

function Cross({ x, y, arm, isActive, word }: CrossProps): ReactNode {
  const path = `M${x - arm} ${y}H${x + arm}M${x} ${y - arm}V${y + arm}`;
  return (
    <g className={isActive ? "artwork-cross artwork-cross-active" : "artwork-cross"}>
      <path className="artwork-cross-ground" d={path} />
      <path className="artwork-cross-line" d={path} />
      {word === "" ? null : (
        <text x={x + arm / 2} y={y - arm / 2} fontSize={arm * 1.6}>
          {word}
        </text>
      )}
    </g>
  );
}

interface MarkFieldsProps {
  readonly which: Which;
  readonly mark: Mark;
  /** Whether its place on the elevation is asked too. */
  readonly hasPlace: boolean;
  readonly size: { readonly width: number; readonly height: number };
  readonly unit: Unit;
  readonly onChange: (part: Partial<Mark>) => void;
}

function MarkFields({ which, mark, hasPlace, size, unit, onChange }: MarkFieldsProps): ReactNode {
  const word = which.toUpperCase();
  const { pixel, place } = mark;
  return (
    <>
      <PixelField
        label={`${word}, from the picture's left`}
        value={pixel.x}
        most={size.width}
        onChange={(x) => onChange({ pixel: { ...pixel, x } })}
      />
      <PixelField
        label={`${word}, from the picture's top`}
        value={pixel.y}
        most={size.height}
        onChange={(y) => onChange({ pixel: { ...pixel, y } })}
      />
      {hasPlace ? (
        <>
          <TicksField
            label={`${word} lies across at`}
            value={place.x}
            unit={unit}
            signed
            onChange={(x) => onChange({ place: { ...place, x } })}
          />
          <TicksField
            label={`${word} lies up at`}
            value={place.y}
            unit={unit}
            signed
            onChange={(y) => onChange({ place: { ...place, y } })}
          />
        </>
      ) : null}
    </>
  );
}

interface PixelFieldProps {
  readonly label: string;
  readonly value: number;
  readonly most: number;
  readonly onChange: (value: number) => void;
}

function PixelField({ label, value, most, onChange }: PixelFieldProps): ReactNode {
  const read = (text: string): Read<number> => {
    const bare = text.replace(/[\s,]/g, "");
    const pixels = Number(bare);
    return /^\d+(\.\d+)?$/.test(bare) && pixels <= most
      ? { value: pixels }
      : { why: `A place in the picture is a number of pixels from 0 to ${most}.` };
  };
  return (
    <TypedField
      path={`artwork.${label}`}
      label={label}
      shown={showNumber(value, 1)}
      read={read}
      commit={onChange}
      unit="px"
      numeric
    />
  );
}

interface TicksFieldProps {
  readonly label: string;
  readonly value: Ticks;
  readonly unit: Unit;
  readonly signed?: boolean;
  readonly hint?: string;
  readonly onChange: (value: Ticks) => void;
}

/** A length that stands nowhere in the job. */
export function TicksField({ label, value, unit, signed = false, hint, onChange }: TicksFieldProps): ReactNode {
  const read = (text: string): Read<Ticks> => {
    const length = readLength(text, unit, signed);
    if ("why" in length) return length;
    const ticks = ticksFrom(length.value, unit);
    return signed || ticks > 0 ? { value: ticks } : { why: "It must be more than nothing." };
  };
  return (
    <TypedField
      path={`artwork.${label}`}
      label={label}
      shown={editLength(ticksTo(value, unit), unit)}
      read={read}
      commit={onChange}
      unit={unit}
      numeric
      {...(hint === undefined ? {} : { hint })}
    />
  );
}
