import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { cutListCsv } from "../../../core/exporting/cutListCsv.ts";
import { artworkTurn, atRollLeft, printedFirst } from "../../../core/exporting/placedArtwork.ts";
import { rollMapSvg } from "../../../core/exporting/rollMapSvg.ts";
import { escapeXml, fitText, textWidth } from "../../../core/exporting/svgText.ts";
import type { Layout, Panel, PlacedPiece } from "../../../core/model/plan.ts";
import { shelterJob, shelterLayout } from "../../golden/shelter.ts";
import { instanceOf } from "../../support/planJob.ts";

const shelter = instanceOf(shelterJob);
const read = (layout: Layout) =>
  Papa.parse<Record<string, string>>(cutListCsv(shelter, layout).trimEnd(), { header: true });

describe("cut list", () => {
  test("one row a piece, every row as wide as its header, lines end as the standard says", () => {
    const { data, errors, meta } = read(shelterLayout);
    expect(errors).toEqual([]);
    expect(data.map((row) => row.piece)).toEqual(["pane/lower/1", "pane/upper/1", "'@sum", "pane/upper/2"]);
    for (const row of data) expect(Object.keys(row)).toEqual(meta.fields);
    expect(cutListCsv(shelter, shelterLayout).split("\r\n").length).toBe(6);
  });

  test("counters count from the load's start; numbers are plain", () => {
    const row = read(shelterLayout).data[3];
    // 1545 + 617.5
    expect([row?.["counter start (mm)"], row?.["counter stop (mm)"], row?.["cut length (mm)"]]).toEqual([
      "1545",
      "2162.5",
      "617.5",
    ]);
    expect(row?.["window bottom (mm)"]).toBe("392.5");
  });

  test("both neighbours over a border, each with what the two windows share and which is over", () => {
    const [lower, first, , second] = read(shelterLayout).data;
    expect([lower?.["overlap top (mm)"], lower?.["lap top"]]).toEqual([
      "10; 12.5",
      "under pane/upper/1; under pane/upper/2",
    ]);
    expect([first?.["overlap right (mm)"], first?.["lap right"], first?.["lap bottom"]]).toEqual([
      "10",
      "over pane/upper/2",
      "over pane/lower/1",
    ]);
    expect([second?.["overlap left (mm)"], second?.["lap left"], second?.["overlap bottom (mm)"]]).toEqual([
      "10",
      "under pane/upper/1",
      "12.5",
    ]);
  });

  test("a loose piece has its elevation and no panel columns", () => {
    const piece = read(shelterLayout).data[2];
    expect([
      piece?.elevation,
      piece?.role,
      piece?.section,
      piece?.["window left (mm)"],
      piece?.["overlap left (mm)"],
    ]).toEqual(["pane", "decal", "", "", ""]);
  });

  test.each(["=1+1", "+1", "-1", "@a", "\t=1", "\r=1", "\n=1\n2", " =1", "=1\n2", "＝1", "\u0000=1"])(
    "%j is not run by a spreadsheet",
    (name) => {
      const layout = { ...shelterLayout, rolls: shelterLayout.rolls.map((load) => ({ ...load, lot: name })) };
      const lot = read(layout).data[0]?.lot ?? "";
      expect(lot.startsWith("'")).toBe(true);
      expect(lot).not.toMatch(/[\r\n\t\0]/);
    },
  );

  test("quotes, commas and semicolons come back as they were", () => {
    const lot = 'a "b", c; d';
    const layout = { ...shelterLayout, rolls: shelterLayout.rolls.map((load) => ({ ...load, lot })) };
    expect(read(layout).data[0]?.lot).toBe(lot);
  });
});

test("which edge is printed first and which lies at the roll's left, for each direction and turn", () => {
  const edges = (direction: Panel["direction"], turn: PlacedPiece["turn"]) => {
    const panel = { ...(shelterLayout.panels[0] as Panel), direction };
    const total = artworkTurn({ id: "p", copy: 1, x: 0, y: 0, across: 1, along: 1, turn }, panel);
    return [printedFirst[total], atRollLeft[total]];
  };
  // A vertical panel lies as on the elevation; a horizontal one a quarter turn counter-clockwise, its left edge first.
  expect(edges("vertical", 0)).toEqual(["bottom", "left"]);
  expect(edges("vertical", 180)).toEqual(["top", "right"]);
  expect(edges("horizontal", 0)).toEqual(["left", "top"]);
  expect(edges("horizontal", 180)).toEqual(["right", "bottom"]);
});

describe("roll map", () => {
  const svg = rollMapSvg(shelter, shelterLayout);
  const all = (source: string, pattern: RegExp) => [...source.matchAll(pattern)].map(({ groups }) => groups ?? {});

  test("true to scale: one unit of the drawing is one of the job, at the scale that is told", () => {
    const [head] = all(
      svg,
      /width="(?<w>[\d.]+)mm" height="(?<h>[\d.]+)mm" viewBox="0 0 (?<vw>[\d.]+) (?<vh>[\d.]+)"/g,
    );
    expect(Number(head?.vw) / Number(head?.w)).toBeCloseTo(5, 2);
    expect(Number(head?.vh) / Number(head?.h)).toBeCloseTo(5, 2);
    expect(svg).toContain("Scale 1:5");
    const panels = all(
      svg,
      /<rect x="(?<x>[\d.]+)" y="(?<y>[\d.]+)" width="(?<w>[\d.]+)" height="(?<h>[\d.]+)" class="panel"/g,
    );
    // Along the roll to the right, across it downward; the last is the legend's.
    expect(panels.slice(0, 3).map(({ w, h }) => [w, h])).toEqual([
      ["1220", "415"],
      ["615", "615"],
      ["617.5", "615"],
    ]);
    const film = all(
      svg,
      /<rect x="(?<x>[\d.]+)" y="(?<y>[\d.]+)" width="(?<w>[\d.]+)" height="(?<h>[\d.]+)" class="film"/g,
    )[0];
    expect([film?.w, film?.h]).toEqual(["2312.5", "1372"]);
    // The first cut begins after the leader, and the panel 10 mm from the roll's left edge.
    expect(Number(panels[0]?.x) - Number(film?.x)).toBeCloseTo(300, 6);
    expect(Number(panels[0]?.y) - Number(film?.y)).toBeCloseTo(10, 6);
  });

  test("in an inch job too", () => {
    const job = { ...shelterJob, units: "in" };
    const inches = rollMapSvg(instanceOf(job), shelterLayout);
    const film = all(inches, /width="(?<w>[\d.]+)" height="(?<h>[\d.]+)" class="film"/g)[0];
    expect(Number(film?.w)).toBeCloseTo(2312.5 / 25.4, 4);
  });

  test("refers to nothing outside itself and keeps names as text", () => {
    expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', "")).not.toMatch(
      /https?:|href|url\((?!#)|<script|@import|&(?!amp;|lt;|gt;|quot;|#39;)/,
    );
    expect(svg).toContain("&lt;Tram &amp; &quot;stop&quot;&gt;");
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not be there
    expect(svg).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
  });

  test("no text lies on another, however many small pieces there are", () => {
    const crowd = Array.from(
      { length: 60 },
      (_, i): PlacedPiece => ({
        id: "@sum",
        copy: i + 1,
        x: (10 + (i % 13) * 101) * 40_000,
        y: Math.floor(i / 13) * 201 * 40_000,
        across: 100 * 40_000,
        along: 200 * 40_000,
        turn: 90,
      }),
    );
    const [load] = shelterLayout.rolls;
    if (load === undefined) throw new Error("no load");
    const cuts = Array.from({ length: 30 }, (_, i) => ({
      start: (300 + i * 60) * 40_000,
      length: 55 * 40_000,
      pieces: i === 0 ? crowd : [],
    }));
    const drawn = rollMapSvg(shelter, { ...shelterLayout, rolls: [{ ...load, cuts }, load] });
    const size = Number(/font-size="([\d.]+)" fill/.exec(drawn)?.[1]);
    const texts = all(
      drawn,
      /<text x="(?<x>[\d.]+)" y="(?<y>[\d.]+)"(?: font-size="(?<size>[\d.]+)")?(?: text-anchor="(?<anchor>\w+)")?(?: font-weight="600")?(?<turn> transform="[^"]+")?>(?<words>[^<]*)</g,
    ).map(({ x, y, size: own, anchor, turn, words = "" }) => {
      const high = Number(own ?? size);
      // Narrower than the estimate that the drawing itself uses: 0.5 of the height a letter.
      const wide = [...words].length * 0.5 * high;
      const start = anchor === "middle" ? wide / 2 : 0;
      return turn
        ? { x: Number(x) - 0.7 * high, y: Number(y) - (wide - start), w: 0.7 * high, h: wide }
        : { x: Number(x) - start, y: Number(y) - 0.7 * high, w: wide, h: 0.7 * high };
    });
    expect(texts.length).toBeGreaterThan(60);
    expect(texts.length).toBe(drawn.split("<text").length - 1);
    const clashes = texts.flatMap((a, i) =>
      texts.slice(i + 1).filter((b) => a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h),
    );
    expect(clashes).toEqual([]);
  });

  test("a small piece loses its name first, then its size", () => {
    const small = (across: number, along: number) => {
      const [load] = shelterLayout.rolls;
      const piece = {
        id: "pane/upper/1",
        copy: 1,
        x: 10 * 40_000,
        y: 0,
        across: across * 40_000,
        along: along * 40_000,
        turn: 0,
      } as const;
      if (load === undefined) throw new Error("no load");
      const drawn = rollMapSvg(shelter, {
        ...shelterLayout,
        rolls: [{ ...load, cuts: [{ start: 300 * 40_000, length: 1000 * 40_000, pieces: [piece] }] }],
      });
      return [drawn.includes(">pane/upper/1<"), drawn.includes(`>${across} × ${along}<`)];
    };
    expect([small(300, 300), small(25, 90), small(4, 6)]).toEqual([
      [true, true],
      [false, true],
      [false, false],
    ]);
  });

  test("one load by its id, and none of another", () => {
    expect(rollMapSvg(shelter, shelterLayout, "1")).toBe(svg);
    expect(() => rollMapSvg(shelter, shelterLayout, "2")).toThrow("no load 2");
  });

  test("a layout without loads is still a sheet", () => {
    expect(rollMapSvg(shelter, { ...shelterLayout, rolls: [] })).toContain("</svg>");
  });
});

test("text: escaped, cut to its room, never estimated as narrower for more letters", () => {
  expect(escapeXml("a<b>&\"c'\u0000\ud800d\uffff")).toBe("a&lt;b&gt;&amp;&quot;c&#39; \ufffdd\ufffd");
  expect(escapeXml("😀é")).toBe("😀é");
  expect(fitText("short", 1, 100)).toBe("short");
  const cut = fitText("x".repeat(200), 2, 30);
  expect(cut.endsWith("…")).toBe(true);
  expect(textWidth(cut) * 2).toBeLessThanOrEqual(30);
  expect(fitText("name", 10, 1)).toBe("");
});
