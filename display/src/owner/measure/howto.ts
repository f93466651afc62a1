/** How each measure is weighed, in short steps. The rule behind all: the same hand, the way it is done in a rush. */
import type { WeighIn } from "../../wire.gen";

/** What is weighed on the scale, or how far a station chills, with scale and thermometer. */
export type Measured = WeighIn["what"] | "chill";

export interface HowTo {
  readonly what: Measured;
  readonly name: string;
  /** The tool kind of the book (recipes) that is weighed; none where a station is measured. */
  readonly kind: string;
  readonly steps: readonly string[];
}

export const HOW_TO: readonly HowTo[] = [
  {
    what: "scoop",
    name: "Level scoop",
    kind: "scoop",
    steps: [
      "Stir the powder loose in its tub, as it is in a shift.",
      "Put a dry cup on the scale and set it to zero.",
      "Fill the scoop, and draw a straight edge over it: level, not pressed.",
      "Tip it into the cup, tap once, read the scale.",
      "Set to zero again and repeat, ten times if you can.",
    ],
  },
  {
    what: "stroke",
    name: "Pump stroke",
    kind: "pump",
    steps: [
      "Pump until no air comes: two strokes into the sink.",
      "Put a cup on the scale and set it to zero.",
      "One full stroke: down to the stop, and let it come up by itself.",
      "Wait for the drop, read the scale.",
      "Set to zero again and repeat, ten times if you can.",
    ],
  },
  {
    what: "shot",
    name: "Espresso shot",
    kind: "shot",
    steps: [
      "Warm the machine up and pull one shot to throw away.",
      "Put the cup on the scale and set it to zero. The cup gets hot: hold it by its handle.",
      "Pull a shot as for a customer.",
      "Read the scale at once, the foam with it.",
      "Repeat with a fresh dose, five times or more.",
    ],
  },
  {
    what: "cube",
    name: "Ice cube",
    kind: "cube",
    steps: [
      "Take cubes from the bin as they come, wet or dry.",
      "Put a bowl on the scale and set it to zero.",
      "Put one cube in, read the scale.",
      "Set to zero again and repeat, ten times: cubes differ more than scoops.",
    ],
  },
  {
    what: "ladle",
    name: "Ladle",
    kind: "ladle",
    steps: [
      "Stir the topping in its syrup.",
      "Put a cup on the scale and set it to zero.",
      "Take a ladle as for a drink, let it drain for a moment.",
      "Tip it into the cup, read the scale.",
      "Set to zero again and repeat, ten times if you can.",
    ],
  },
  {
    what: "chill",
    name: "Chilling",
    kind: "",
    steps: [
      "Weigh tea or water into the shaker, and read how warm it is.",
      "Weigh the ice to it. Drained from a bin it is at 0 °C; from a freezer, as cold as that.",
      "Work as for a drink: the same shake, the same seconds.",
      "Strain at once into a jug and read the thermometer when it stands still.",
      "Repeat with fresh ice, five times or more. Hot tea can scald.",
    ],
  },
];
