import fc from "fast-check";
import { expect, test } from "vitest";
import type { Elevation, Hold } from "../../../core/model/instance.ts";
import { coverGroup } from "../../../core/panelling/coverGroup.ts";
import { inch, limitsOf, quietRun } from "./builders.ts";
import { breaches, build, groups } from "./randomGroups.ts";

const axis = fc.constantFrom("x" as const, "y" as const);
const section = fc.constantFrom(null, null, "s0");
const at = fc.integer({ min: 1, max: 160 });

/** A hold without its id; places in half inches. */
const rawHold = fc.oneof(
  fc.record({ kind: fc.constant("seam" as const), section, axis, at: at.map((half) => inch(half / 2)) }),
  fc.record({ section, axis, from: at, size: fc.integer({ min: 0, max: 80 }) }).map(({ from, size, ...rest }) => ({
    ...rest,
    kind: "noSeam" as const,
    from: inch(from / 2),
    to: inch((from + size) / 2),
  })),
  fc.record({
    kind: fc.constant("width" as const),
    section,
    axis,
    at: at.map((half) => inch(half / 2)),
    width: fc.integer({ min: 10, max: 100 }).map((half) => inch(half / 2) + 7),
  }),
  fc.record({
    kind: fc.constant("direction" as const),
    section,
    direction: fc.constantFrom("vertical" as const, "horizontal" as const),
  }),
);

const cases = fc.record({
  group: groups,
  holds: fc.array(rawHold, { minLength: 1, maxLength: 3 }),
  mirrorHolds: fc.array(rawHold, { maxLength: 1 }),
});

test("coverings keep the holds of every member, or a smallest choice that leaves none is named", () => {
  let [covered, contradicted] = [0, 0];
  fc.assert(
    fc.property(cases, ({ group, holds, mirrorHolds }) => {
      const { instance, source, mirrors } = build(group);
      const limits = limitsOf(group.roll, group.preferred, group.along, ["cast", "black"]);
      const withIds = (list: readonly (typeof holds)[number][], prefix: string) =>
        list.map((hold, i): Hold => ({ ...hold, id: `${prefix}${i}` }));
      const own = withIds(holds, "h");
      const others = withIds(mirrors.length === 0 ? [] : mirrorHolds, "m");
      const answerWith = (isKept: (id: string) => boolean) => {
        const held = (elevation: Elevation, list: readonly Hold[]): Elevation => ({
          ...elevation,
          holds: list.filter(({ id }) => isKept(id)),
        });
        const elevations = [held(source, own), ...mirrors.map((mirror, i) => held(mirror, i === 0 ? others : []))];
        const [first, ...rest] = elevations as [Elevation, ...Elevation[]];
        const job = { ...instance, elevations };
        return { job, answer: coverGroup(job, first, rest, limits, quietRun) };
      };
      const { job, answer } = answerWith(() => true);
      if ("coverings" in answer) {
        covered++;
        for (const covering of answer.coverings.slice(0, 6)) expect(breaches(job, [covering])).toEqual([]);
        return;
      }
      const free = answerWith(() => false).answer;
      const named = answer.reasons.filter(({ path }) => path.endsWith(".holds"));
      if ("reasons" in free) {
        expect(named).toEqual([]);
        return;
      }
      contradicted++;
      expect(answer.reasons).toHaveLength(1);
      const ids = named[0]?.value as string[];
      expect(ids.length).toBeGreaterThan(0);
      expect("reasons" in answerWith((id) => ids.includes(id)).answer).toBe(true);
      for (const spared of ids) {
        const fewer = answerWith((id) => ids.includes(id) && id !== spared).answer;
        if ("coverings" in fewer) continue;
        // Plain feasibility does not ask about open seams, nor about windows that meet over a border.
        expect(instance.rules.maxOpenSeams !== null || source.sections.length > 1 || source.fill.length > 0).toBe(true);
      }
    }),
    { seed: 20261104, numRuns: 24 },
  );
  expect(covered).toBeGreaterThan(4);
  expect(contradicted).toBeGreaterThan(4);
}, 120_000);
