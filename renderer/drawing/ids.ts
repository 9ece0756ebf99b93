/** Names of what can be selected in a drawing, the same in every drawing so that one can be found on another. */
export const panelKey = (panelId: string): string => `panel:${panelId}`;
export const seamKey = (elevation: string, seamId: string): string => `seam:${elevation}/${seamId}`;
export const pieceKey = (pieceId: string, copy: number): string => `piece:${pieceId}#${copy}`;
export const cutKey = (loadId: string, cut: number): string => `cut:${loadId}:${cut}`;
export const zoneKey = (elevation: string, kind: "keepClear" | "obstacle", id: string): string =>
  `zone:${elevation}/${kind}/${id}`;
export const layoutKey = (layoutId: string): string => `layout:${layoutId}`;

/** The panel or piece that a key speaks of, whichever drawing it comes from; null for other keys. */
export function madeThing(key: string | null): string | null {
  if (key?.startsWith("panel:")) return key.slice(6);
  if (key?.startsWith("piece:")) return key.slice(6, key.lastIndexOf("#"));
  return null;
}

/** True when `key` is what is meant by `wanted`: itself, the panel of a piece, or a piece of a panel. */
export function means(wanted: string | null, key: string): boolean {
  if (wanted === null) return false;
  if (wanted === key) return true;
  if (wanted.slice(0, 6) === key.slice(0, 6)) return false;
  const thing = madeThing(wanted);
  return thing !== null && thing === madeThing(key);
}
