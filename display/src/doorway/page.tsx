/** The way in: what each screen is for, with big links. */
import "../styles/doorway.css";
import type { JSX } from "preact";
import { useBookFaults } from "../link/bookfaults";
import { menu, menuFault } from "../link/shop";
import { LinkStatus, OWNER_SCREENS, SCREENS } from "../screen/top";

function BookFaults(): JSX.Element | null {
  const faults = useBookFaults();
  if (faults.length === 0) return null;
  return (
    <section class="doorway-faults" aria-label="Faults in the book">
      <h2>The book on file has faults, so the last good one is being served</h2>
      <ul>
        {faults.map((fault) => (
          <li key={`${fault.file}:${fault.line}:${fault.key}`}>
            <strong>
              {fault.file}, line {fault.line}
            </strong>
            : {fault.message}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Where there is no page: says so, and shows those there are. */
export function MissingPage(): JSX.Element {
  return (
    <>
      <p class="doorway-missing" role="alert">
        There is no page at <b>{location.pathname}</b>. These are the pages of this shop:
      </p>
      <Doorway />
    </>
  );
}

export function Doorway(): JSX.Element {
  const shop = menu.value?.shop;
  const stations = menu.value?.stations ?? [];
  return (
    <main class="doorway">
      <header>
        <h1>{shop?.name ?? "Levelscoop"}</h1>
        <p>
          {shop ? `${shop.town} · ` : ""}
          <LinkStatus />
        </p>
        {menuFault.value && (
          <p class="fault" role="alert">
            {menuFault.value}
          </p>
        )}
      </header>
      <ul class="doorway-screens">
        {SCREENS.map((screen) => (
          <li key={screen.path}>
            <a href={screen.path}>
              <strong>{screen.name}</strong>
              <span>{screen.about}</span>
            </a>
          </li>
        ))}
        <li>
          <a href="/learn">
            <strong>Learn the bar</strong>
            <span>For a new hand: a drink that a customer might ask for, step by step.</span>
          </a>
        </li>
        <li>
          <a href="/hand-off?board">
            <strong>Customers’ board</strong>
            <span>The hand-off board alone, without buttons, for a screen facing the room.</span>
          </a>
        </li>
      </ul>
      {stations.length > 0 && (
        <section>
          <h2>One station alone, bigger</h2>
          <ul class="doorway-stations">
            {stations.map((station) => (
              <li key={station.id}>
                <a href={`/station/${encodeURIComponent(station.id)}`}>{station.name}</a>
              </li>
            ))}
          </ul>
        </section>
      )}
      <section>
        <h2>For the owner</h2>
        <ul class="doorway-screens doorway-owner">
          {OWNER_SCREENS.map((screen) => (
            <li key={screen.path}>
              <a href={screen.path}>
                <strong>{screen.name}</strong>
                <span>{screen.about}</span>
              </a>
            </li>
          ))}
          <li>
            <a href="/cards/all.pdf">
              <strong>Recipe cards</strong>
              <span>Every drink as a card to print: all sizes side by side, step by step.</span>
            </a>
          </li>
          <li>
            <a href="/cards/allergens.pdf">
              <strong>Allergens</strong>
              <span>One sheet to print: what each drink, topping and milk contains.</span>
            </a>
          </li>
        </ul>
      </section>
      <BookFaults />
    </main>
  );
}
