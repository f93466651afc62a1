/** What stands at the head of a screen: its name, the way to the others, and the state of the link. */
import type { ComponentChildren, JSX } from "preact";
import { linkState, linkWords, menu } from "../link/shop";

/** A screen: where it is, its name, and what it is for. */
export interface Way {
  readonly path: string;
  readonly name: string;
  readonly about: string;
}

/** The screens, in the order a drink passes them. */
export const SCREENS: readonly Way[] = [
  { path: "/register", name: "Register", about: "Ring orders in, a sentence at a time." },
  {
    path: "/bar",
    name: "Bar sheet",
    about: "Every drink in the queue, station by station, with its exact build.",
  },
  {
    path: "/hand-off",
    name: "Hand-off",
    about: "Numbers being made and numbers ready, for staff and customers.",
  },
  {
    path: "/times",
    name: "Times",
    about: "How long drinks took, by hour, drink and station; each order's life.",
  },
];

/** The owner's screens, in the order of the work: write, change, weigh, prove, look back, teach. */
export const OWNER_SCREENS: readonly Way[] = [
  { path: "/owner", name: "Bench", about: "Edit the book, and see what each edit does before it is saved." },
  {
    path: "/owner/brand",
    name: "Brand",
    about: "A new package: weigh it, copy its label, see which recipes move.",
  },
  {
    path: "/owner/measure",
    name: "Measure",
    about: "Beside the scale: weigh a scoop, a stroke, a shot, a cube, measure a shake; take the mean over.",
  },
  {
    path: "/owner/proof",
    name: "Proof",
    about: "Every combination that can be rung in, checked before opening.",
  },
  {
    path: "/owner/versions",
    name: "Versions",
    about: "What was saved when, with its note, and the way back.",
  },
  {
    path: "/owner/training",
    name: "Training",
    about: "Recipe cards to print, and whether scores are kept.",
  },
];

/** The link's state in words with a form beside it, read out when it changes. */
export function LinkStatus(): JSX.Element {
  return (
    <span class={`link link-${linkState.value}`} role="status">
      <svg viewBox="0 0 12 12" aria-hidden="true" class="link-form">
        {linkState.value === "live" ? <circle cx="6" cy="6" r="5" /> : <path d="M6 0 L12 11 H0 Z" />}
      </svg>
      {linkWords.value}
    </span>
  );
}

interface TopProps {
  readonly here: string;
  /** The screens to lead to; the bar's own unless said. */
  readonly ways?: readonly Way[];
  readonly children?: ComponentChildren;
}

/** The head of a screen. `children` stand between its name and the link's state. */
export function Top({ here, ways = SCREENS, children }: TopProps): JSX.Element {
  const shop = menu.value?.shop.name ?? "Levelscoop";
  return (
    <header class="top">
      <nav class="top-ways" aria-label="Screens">
        <a href="/" class="top-shop" aria-label={`${shop}: all screens`}>
          <svg viewBox="0 0 22 24" aria-hidden="true">
            <path d="M4 23 V2 H18 V23 M1 23 H21 M14.5 12.5 V14" />
          </svg>
          <span>{shop}</span>
        </a>
        {ways.map((screen) => (
          <a
            key={screen.path}
            href={screen.path}
            {...(screen.name === here ? { "aria-current": "page" } : {})}
          >
            {screen.name}
          </a>
        ))}
      </nav>
      {children}
      <LinkStatus />
    </header>
  );
}
