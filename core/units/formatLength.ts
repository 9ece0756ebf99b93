import { TICKS_PER, type Ticks, type Unit } from "./ticks.ts";

/** A length taken apart for a screen that sets true fractions: sign, whole, then either a fraction or decimals. */
export interface LengthParts {
  readonly negative: boolean;
  /** Whole feet, apart from `whole`; null unless feet were asked for and there are some. */
  readonly feet: number | null;
  readonly whole: number;
  /** 0 when there is no fraction. */
  readonly numerator: number;
  /** 1 when there is no fraction; else 2, 4, 8, 16, 32 or 64. */
  readonly denominator: number;
  /** Digits after the point; "" when there are none. Never together with a fraction. */
  readonly decimals: string;
  readonly unit: Unit;
  /** True when the shown value is not exact. */
  readonly rounded: boolean;
}

export interface FormatLengthOptions {
  /** Show 12 in and more as feet and inches; no effect in millimetres. Default false. */
  readonly feet?: boolean;
  /** Say the unit. Default true. */
  readonly withUnit?: boolean;
}

const ticksPer64th = TICKS_PER.in / 64;
const ticksPerThousandth = TICKS_PER.in / 1000;
const ticksPerTenthOfMillimetre = TICKS_PER.mm / 10;

/**
 * Takes a length apart for showing. Inches: a fraction where it is exact to 1/64 in, else decimals to 0.001 in.
 * Millimetres: decimals to 0.1 mm. Halves round away from zero.
 *
 * @param ticks any whole number of ticks
 * @param unit the unit to show it in
 */
export function lengthParts(ticks: Ticks, unit: Unit, { feet = false }: FormatLengthOptions = {}): LengthParts {
  const size = Math.abs(ticks);
  const none = { feet: null, numerator: 0, denominator: 1, decimals: "", unit };
  if (unit === "mm") {
    const tenths = Math.round(size / ticksPerTenthOfMillimetre);
    const rounded = tenths * ticksPerTenthOfMillimetre !== size;
    const decimals = tenths % 10 === 0 ? "" : String(tenths % 10);
    return { ...none, negative: ticks < 0 && tenths > 0, whole: Math.floor(tenths / 10), decimals, rounded };
  }
  if (size % ticksPer64th === 0) {
    const sixtyFourths = size / ticksPer64th;
    let [numerator, denominator] = [sixtyFourths % 64, 64];
    while (numerator % 2 === 0 && denominator > 1) [numerator, denominator] = [numerator / 2, denominator / 2];
    const inches = withFeet(Math.floor(sixtyFourths / 64), feet);
    return { ...none, ...inches, negative: ticks < 0, numerator, denominator, rounded: false };
  }
  const thousandths = Math.round(size / ticksPerThousandth);
  const rounded = thousandths * ticksPerThousandth !== size;
  const decimals = String(thousandths % 1000)
    .padStart(3, "0")
    .replace(/0+$/, "");
  const inches = withFeet(Math.floor(thousandths / 1000), feet);
  return { ...none, ...inches, negative: ticks < 0 && thousandths > 0, decimals, rounded };
}

const withFeet = (inches: number, feet: boolean): { feet: number | null; whole: number } =>
  feet && inches >= 12 ? { feet: Math.floor(inches / 12), whole: inches % 12 } : { feet: null, whole: inches };

/**
 * A length as text that `parseLength` reads back: "53 1/2 in", "4 ft 5 in", "1346.4 mm". A value that is not exact
 * begins with ≈.
 */
export function formatLength(ticks: Ticks, unit: Unit, options: FormatLengthOptions = {}): string {
  const parts = lengthParts(ticks, unit, options);
  const fraction = parts.numerator === 0 ? "" : `${parts.numerator}/${parts.denominator}`;
  const decimals = parts.decimals === "" ? "" : `.${parts.decimals}`;
  const bare =
    fraction !== "" && parts.whole === 0 ? fraction : `${parts.whole}${decimals}${fraction && ` ${fraction}`}`;
  const unitWord = options.withUnit === false && parts.feet === null ? "" : ` ${unit}`;
  const nothingBelowFeet = parts.feet !== null && bare === "0";
  const inches = nothingBelowFeet ? "" : `${parts.feet === null ? "" : " "}${bare}${unitWord}`;
  const feet = parts.feet === null ? "" : `${parts.feet} ft`;
  return `${parts.rounded ? "≈" : ""}${parts.negative ? "-" : ""}${feet}${inches}`;
}

/**
 * A length for a field in which it is edited, without its unit: a fraction where exact to 1/64 in, else as many decimals
 * as it takes for `parseLength` to read the very same ticks back (0.00000001 in and mm are finer than a tick).
 */
export function editableLength(ticks: Ticks, unit: Unit): string {
  const shown = formatLength(ticks, unit, { withUnit: false });
  return shown.startsWith("≈") ? trimmed((ticks / TICKS_PER[unit]).toFixed(8)) : shown;
}

/** A number with the given decimals and commas between thousands: 1234.5 → "1,234.50". Halves as `toFixed` rounds them. */
export function formatNumber(value: number, decimals: number): string {
  const [whole = "0", fraction] = Math.abs(value).toFixed(decimals).split(".");
  const digits = whole.replace(/\B(?=(\d{3})+$)/g, ",") + (fraction === undefined ? "" : `.${fraction}`);
  return value < 0 && /[1-9]/.test(digits) ? `-${digits}` : digits;
}

/**
 * An area as text: in an inch job in ft² (1 ft² = 144 in²), in a millimetre job in m².
 *
 * @param area square units of the job
 */
export function formatArea(area: number, unit: Unit): string {
  return unit === "in" ? `${formatNumber(area / 144, 1)} ft²` : `${formatNumber(area / 1_000_000, 2)} m²`;
}

/** Currencies with a sign of their own that is not shared; others show their code. */
const signs: Readonly<Record<string, string>> = { USD: "$", EUR: "€", GBP: "£" };

/** Money to the hundredth: "$1,234.50"; a currency without a sign of its own by its name: "CAD 1,234.50". */
export function formatMoney(amount: number, currency: string): string {
  const digits = formatNumber(Math.abs(amount), 2);
  const minus = amount < 0 && /[1-9]/.test(digits) ? "-" : "";
  return `${minus}${signs[currency] ?? (currency === "" ? "" : `${currency} `)}${digits}`;
}

const trimmed = (decimal: string): string => (decimal.includes(".") ? decimal.replace(/\.?0+$/, "") : decimal);
