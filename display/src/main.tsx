/** Which screen this address is; each is loaded only where it is shown. */
import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import "./styles/tokens.css";
import "./styles/base.css";
import "./styles/parts.css";
import { type ComponentType, h, render } from "preact";
import { openShop } from "./link/shop";
import { fitPage } from "./screen/fit";

interface Screen {
  readonly title: string;
  /** Light paper for what is read close by, dark ink for what hangs on a wall. */
  readonly sheet: "paper" | "ink";
  readonly Page: ComponentType;
}

async function ownerScreen(name: string): Promise<Screen> {
  switch (name) {
    case "":
      return { title: "Bench", sheet: "paper", Page: (await import("./owner/bench/page")).BenchPage };
    case "brand":
      return { title: "Brand", sheet: "paper", Page: (await import("./owner/brand/brand")).BrandPage };
    case "measure":
      return {
        title: "Measure",
        sheet: "paper",
        Page: (await import("./owner/measure/measure")).MeasurePage,
      };
    case "proof":
      return { title: "Proof", sheet: "paper", Page: (await import("./owner/proof/proof")).ProofPage };
    case "versions":
      return { title: "Versions", sheet: "paper", Page: (await import("./owner/versions")).VersionsPage };
    case "training":
      return { title: "Training", sheet: "paper", Page: (await import("./owner/training")).TrainingPage };
    default:
      return notFound();
  }
}

async function notFound(): Promise<Screen> {
  return { title: "No such page", sheet: "paper", Page: (await import("./doorway/page")).MissingPage };
}

/** A part of the address as it was meant, or as it stands where it cannot be read. */
function read(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

async function screenAt(path: string): Promise<Screen> {
  const [first = "", second = "", ...more] = path
    .split("/")
    .filter((part) => part !== "")
    .map(read);
  const nested = first === "station" || first === "owner";
  if (more.length > 0 || (second !== "" && !nested)) return notFound();
  switch (first) {
    case "":
      return { title: "Levelscoop", sheet: "paper", Page: (await import("./doorway/page")).Doorway };
    case "register":
      return { title: "Register", sheet: "paper", Page: (await import("./register/page")).RegisterPage };
    case "bar":
      return { title: "Bar sheet", sheet: "ink", Page: (await import("./bar/page")).BarPage };
    case "station": {
      const { StationPage } = await import("./station/page");
      return { title: "Station", sheet: "ink", Page: () => h(StationPage, { id: second }) };
    }
    case "hand-off":
      return { title: "Hand-off", sheet: "ink", Page: (await import("./handoff/page")).HandOffPage };
    case "times":
      return { title: "Times", sheet: "paper", Page: (await import("./times/page")).TimesPage };
    case "owner":
      return ownerScreen(second);
    case "learn":
      return { title: "Learn the bar", sheet: "paper", Page: (await import("./learn/page")).LearnPage };
    default:
      return notFound();
  }
}

const { title, sheet, Page } = await screenAt(location.pathname);
const place = document.getElementById("page");
if (!place) throw new Error("index.html has no element with the id page");
document.title = title === "Levelscoop" ? title : `${title} · Levelscoop`;
document.body.classList.add(sheet);
fitPage();
openShop();
render(h(Page, null), place);
