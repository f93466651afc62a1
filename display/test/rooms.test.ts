/**
 * Who may import whom, as tables: every file of `src` has a room, and its imports are held to the room's row. A room
 * that several pages draw on knows no page; a page knows no other page.
 */
import { readdirSync, readFileSync } from "node:fs";
import { posix } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const SRC = fileURLToPath(new URL("../src", import.meta.url));

interface Row {
  /** The rooms that it may import, beside itself. */
  readonly rooms: readonly string[];
  /** The packages that it may import. */
  readonly packages: readonly string[];
}

const PREACT = ["preact", "preact/hooks"];
const STATE = ["@preact/signals", ...PREACT];

/** A room is a file or a folder with all that is below it; of two that hold a file the longer name counts. */
const ROOMS: Readonly<Record<string, Row>> = {
  // What crosses the wire, as types; and the shop's sign.
  "wire.gen.ts": { rooms: [], packages: [] },
  "icon.svg": { rooms: [], packages: [] },
  styles: { rooms: [], packages: [] },
  "styles/floor": { rooms: [], packages: [] },
  "styles/owner": { rooms: [], packages: [] },
  "styles/register": { rooms: [], packages: [] },
  // Words, money, tax: values in, values out.
  words: { rooms: ["wire.gen.ts"], packages: [] },
  // Drawing pieces that know no subject.
  parts: { rooms: ["words"], packages: PREACT },
  // What talks to the service, and what is known from it: alone there is a socket.
  link: {
    rooms: ["wire.gen.ts", "words"],
    packages: ["@preact/signals", "preact/hooks", "socket.io-client"],
  },
  // What a screen has whatever it shows: its head, its faults, its fit, its sounds.
  screen: { rooms: ["link", "parts"], packages: STATE },
  // The sentence, its choices, the draft, the cup: all that is seen comes in as props, so no signals.
  line: { rooms: ["wire.gen.ts", "words"], packages: ["preact"] },
  // Acts, waits, alarms, where a cup is: what those who make and hand off drinks share.
  floor: { rooms: ["link", "parts", "screen", "wire.gen.ts", "words"], packages: STATE },
  // The pages.
  doorway: { rooms: ["link", "screen", "styles"], packages: ["preact"] },
  register: {
    rooms: ["floor", "line", "link", "parts", "screen", "styles", "styles/register", "wire.gen.ts", "words"],
    packages: STATE,
  },
  bar: {
    rooms: ["floor", "link", "parts", "screen", "styles/floor", "wire.gen.ts", "words"],
    packages: STATE,
  },
  station: { rooms: ["floor", "link", "parts", "screen", "styles/floor", "wire.gen.ts"], packages: PREACT },
  handoff: {
    rooms: ["floor", "link", "parts", "screen", "styles/floor", "wire.gen.ts", "words"],
    packages: PREACT,
  },
  times: {
    rooms: ["line", "link", "screen", "styles", "wire.gen.ts", "words"],
    packages: [...PREACT, "uplot", "uplot/dist/uPlot.min.css"],
  },
  learn: {
    rooms: ["link", "parts", "screen", "styles", "styles/owner", "wire.gen.ts", "words"],
    packages: PREACT,
  },
  owner: {
    rooms: ["line", "link", "parts", "screen", "styles", "styles/owner", "wire.gen.ts", "words"],
    packages: STATE,
  },
  "main.tsx": {
    rooms: [
      "bar",
      "doorway",
      "handoff",
      "learn",
      "link",
      "owner",
      "register",
      "screen",
      "station",
      "styles",
      "times",
    ],
    packages: ["@fontsource-variable/atkinson-hyperlegible-next/wght.css", "preact"],
  },
};

const PAGES = ["bar", "doorway", "handoff", "learn", "owner", "register", "station", "times"];

/** Imports that no row allows, as "file -> room": none may be added, and one that is cut goes. */
const TO_CUT: readonly string[] = [];

/** A folder with more files than this wants rooms. */
const MOST_FILES = 15;

/** Every file of `src`, its name from there. */
const FILES: readonly string[] = readdirSync(SRC, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile())
  .map((entry) => posix.relative(SRC, posix.join(entry.parentPath, entry.name)))
  .sort();

/** What a source imports: `from "…"`, `import "…"` and `import("…")`, types too. */
function importsOf(source: string): string[] {
  return [...source.matchAll(/\b(?:from\s+|import\s+|import\(\s*)"([^"\n]+)"/g)].map(
    (found) => found[1] ?? "",
  );
}

/** The room of a file, or of an import's path without its ending; undefined where no row holds it. */
function roomOf(file: string): string | undefined {
  const holds = (room: string): boolean =>
    file === room || `${file}.ts` === room || file.startsWith(`${room}/`);
  return Object.keys(ROOMS)
    .filter(holds)
    .sort((one, other) => other.length - one.length)[0];
}

/** What a file imports that its room's row does not allow, rooms and packages. */
function unruly(file: string, source: string): string[] {
  const room = roomOf(file) ?? "";
  const row = ROOMS[room];
  const found = importsOf(source).map((name) => {
    if (!name.startsWith(".")) return row?.packages.includes(name) ? room : name;
    const path = posix.join(posix.dirname(file), name);
    return roomOf(path) ?? path;
  });
  return [...new Set(found)].filter((name) => name !== room && !row?.rooms.includes(name));
}

const read = (file: string): string => readFileSync(posix.join(SRC, file), "utf8");

describe("the rooms of the screens", () => {
  it("hold every file", () => {
    expect(FILES.length).toBeGreaterThan(150);
    expect(FILES.filter((file) => roomOf(file) === undefined)).toEqual([]);
  });

  it("are none of them empty", () => {
    const held = new Set(FILES.map(roomOf));
    expect(Object.keys(ROOMS).filter((room) => !held.has(room))).toEqual([]);
  });

  it("import what their rows allow, but for what is to be cut", () => {
    const sources = FILES.filter((file) => /\.(tsx?|css)$/.test(file));
    const found = sources.flatMap((file) => unruly(file, read(file)).map((name) => `${file} -> ${name}`));
    expect(found).toEqual(TO_CUT);
  });

  it("are imported one way only", () => {
    const order: string[] = [];
    const rooms = Object.entries(ROOMS);
    while (order.length < rooms.length) {
      const ready = rooms.filter(
        ([room, row]) => !order.includes(room) && row.rooms.every((one) => order.includes(one)),
      );
      const left = rooms.map(([room]) => room).filter((room) => !order.includes(room));
      expect(ready, `in a circle: ${left.join(", ")}`).not.toEqual([]);
      order.push(...ready.map(([room]) => room));
    }
  });

  it("let no page, and nothing that pages share, know a page", () => {
    const knowing = Object.entries(ROOMS).filter(([, row]) => row.rooms.some((room) => PAGES.includes(room)));
    expect(knowing.map(([room]) => room)).toEqual(["main.tsx"]);
    const folders = new Set(FILES.filter((file) => /\/page\.tsx$/.test(file)).map((file) => roomOf(file)));
    expect([...folders].sort()).toEqual(PAGES);
  });

  it("have no folder with more files than can be looked through", () => {
    const folders = new Map<string, number>();
    for (const file of FILES) {
      const folder = posix.dirname(file);
      folders.set(folder, (folders.get(folder) ?? 0) + 1);
    }
    expect([...folders].filter(([, count]) => count > MOST_FILES)).toEqual([]);
  });
});

describe("the check itself", () => {
  it.each([
    ["another page's file", 'import { Sheet } from "../bar/table";', "bar"],
    ["a page's file, by its type only", 'import type { Told } from "../register/drink/quoting";', "register"],
    ["a page loaded later", 'const { Sheet } = await import("../bar/table");', "bar"],
    ["another page's style", 'import "../styles/register/order.css";', "styles/register"],
    ["the socket", 'import { io } from "socket.io-client";', "socket.io-client"],
    ["what has no room", 'export { it } from "../cellar/it";', "cellar/it"],
  ])("sees %s", (_, source, seen) => {
    const allowed = 'import type { Step } from "../wire.gen";\nimport { now } from "../link/clock";\n';
    expect(unruly("station/task.tsx", allowed + source)).toEqual([seen]);
  });

  it("sees names over several lines, and none in what is drawn", () => {
    expect(importsOf('import {\n  one,\n  other,\n} from "./both";')).toEqual(["./both"]);
    expect(importsOf('<p class="task-from">from {from.name}</p><b class="x">')).toEqual([]);
  });

  it("misses a file that stands outside every room", () => {
    expect(roomOf("loose.ts")).toBeUndefined();
    expect(roomOf("register2/page.tsx")).toBeUndefined();
  });
});
