/** The bar sheet: a row is a drink, a column a station, in queue order and counter order. */
import "../styles/floor/floor.css";
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { Bumped, listOpen, Recalls } from "../floor/bumped";
import { apart, cupsOf, folded } from "../floor/cups/alike";
import { Details } from "../floor/cups/details";
import { Empty } from "../floor/empty";
import { Struck } from "../floor/struck";
import { watch } from "../floor/waits/alarms";
import { openRows, type Row } from "../link/queue";
import { linkState, menu, queue } from "../link/shop";
import { Says } from "../screen/says";
import { Settings, SoundSwitch } from "../screen/settings";
import { Top } from "../screen/top";
import { counted } from "../words/words";
import { focusSheet, useKeysAlive } from "./alive";
import { keyOf, plainKey } from "./keys";
import { LegendSwitch, Sheet } from "./table";

/** An empty sheet, on which the keys that need no drink work as ever. */
function EmptySheet(): JSX.Element {
  return (
    <div
      class="sheet-empty"
      data-keys
      role="group"
      aria-label="Empty bar sheet: R recalls the last bump, L lists all"
      tabIndex={-1}
      onKeyDown={(event) => {
        const key = keyOf(event);
        if (key !== undefined && plainKey(key)) event.preventDefault();
      }}
    >
      <Empty />
    </div>
  );
}

export function BarPage(): JSX.Element {
  const [open, setOpen] = useState<Row | null>(null);
  const [settings, setSettings] = useState(false);
  useEffect(watch, []);
  useKeysAlive();
  const covered = open !== null || settings || listOpen.value;
  useEffect(() => {
    if (!covered) focusSheet();
  }, [covered]);
  const held = queue.value;
  const rows = held ? folded(openRows(held), apart.value) : [];
  return (
    <div class={`sheet-page link-${linkState.value}`}>
      <Top here="Bar sheet">
        <span class="top-count">{held ? counted(cupsOf(rows), "drink") : ""}</span>
        <LegendSwitch />
        <SoundSwitch />
        <button type="button" class="plain" onClick={() => setSettings(true)}>
          Fit this screen
        </button>
      </Top>
      <main class="sheet-main">
        <h1 class="unseen">Bar sheet</h1>
        {menu.value && rows.length > 0 ? (
          <Sheet rows={rows} stations={menu.value.stations} onDetails={setOpen} />
        ) : (
          <EmptySheet />
        )}
      </main>
      <Says />
      <Struck />
      <Bumped most={5} />
      <Recalls />
      {open && <Details row={open} onClose={() => setOpen(null)} />}
      {settings && <Settings onClose={() => setSettings(false)} />}
    </div>
  );
}
