import type { LoadQuestion } from "./loadProgramme.ts";

/**
 * No way to lay the cuts has fewer loads than this; Infinity when the reels do not hold them all.
 *
 * The larger of two counts, cuts taken with a gap each and loads as long as their room with one: the fullest reels that
 * together hold the sum; and the bound of Martello and Toth (1990), Discrete Applied Mathematics 28(1), 59-70, for loads
 * that are all as long as the longest: for each length a up to half of it, cuts too long to lie with one of length a need
 * a load each, those above half another each, and what cuts from a up do not find room for beside them fills further ones.
 * @param enough a count that a known way reaches: once the first count comes to that, the second is not asked for
 *
 * Time O(cuts + reels log reels), and for the second count O(cuts) for each distinct length.
 */
export function fewestLoadsBound({ lengths, gap, ends, maxRun, reels }: LoadQuestion, enough = Infinity): number {
  const total = lengths.reduce((sum, length) => sum + length + gap, 0);
  const roomOf = (length: number) => Math.min(length, maxRun) - ends + gap;
  const rooms = reels
    // One reel may be loaded again and again where a run is shorter than what is on it.
    .map(({ left, count, bought }) => ({ room: roomOf(left), count: bought || left <= maxRun ? count : Infinity }))
    .filter(({ room }) => room > gap)
    .sort((a, b) => b.room - a.room);
  let byLength = 0;
  let missing = total;
  for (const { room, count } of rooms) {
    if (missing <= 0) break;
    const loads = Math.min(count, room === Infinity ? 1 : Math.ceil(missing / room));
    byLength += loads;
    missing -= room === Infinity ? missing : loads * room;
  }
  if (missing > 0) return Infinity;
  const longest = rooms[0]?.room ?? Infinity;
  if (longest === Infinity || byLength >= enough) return byLength;
  const sizes = lengths.map((length) => length + gap);
  return Math.max(byLength, fewestAlike(sizes, longest));
}

function fewestAlike(sizes: readonly number[], room: number): number {
  if (sizes.some((size) => size > room)) return Infinity;
  const small = [...new Set(sizes.filter((size) => 2 * size <= room))];
  let most = sizes.filter((size) => 2 * size > room).length;
  for (const least of small) {
    let [large, halves, rest] = [0, 0, 0];
    for (const size of sizes) {
      if (size > room - least) large++;
      else if (2 * size > room) {
        halves++;
        rest -= room - size;
      } else if (size >= least) rest += size;
    }
    most = Math.max(most, large + halves + Math.max(0, Math.ceil(rest / room)));
  }
  return most;
}
