/** The head of a row: what the drink is, and what sets it apart from others. */
import type { JSX } from "preact";
import type { Row } from "../../link/queue";
import { Tick } from "../../parts/tally";
import { capital } from "../../words/words";
import { AlteredMark } from "../struck";
import { titleOf } from "./alike";
import { same, sameWords, sortOf } from "./same";

/** Says on a Bump that nothing is left but to touch it. */
export function DoneMark(): JSX.Element {
  return (
    <span class="bump-done">
      <Tick /> done
    </span>
  );
}

/** What a row's head says to those who hear it. */
export function headWords(row: Row): string {
  const alike = same.value.get(sortOf(row));
  const said = [titleOf(row), row.build.words.join(", "), row.drink.note].filter((part) => part !== "");
  if (alike) said.push(capital(sameWords(alike, row.ticket.number)));
  return `${said.join(". ")}. Open for the whole build, allergens and cautions.`;
}

/** How many, title, what bends the drink, the note, and whose drinks are the same. */
export function Head({ row }: { row: Row }): JSX.Element {
  const alike = same.value.get(sortOf(row));
  return (
    <>
      {row.cups.length > 1 && <span class="head-count">{row.cups.length} ×</span>}
      <span class="head-title">{row.build.title}</span>
      {row.build.words.length > 0 && (
        <span class="head-words">
          {row.build.words.map((word) => (
            <span key={word} class="head-word">
              {word}
            </span>
          ))}
        </span>
      )}
      <AlteredMark drink={row.drink} />
      {row.drink.note && <span class="head-note">“{row.drink.note}”</span>}
      {alike && (
        <span class="head-same">
          {alike.letter && <b class="same-letter">{alike.letter}</b>} {sameWords(alike, row.ticket.number)}
        </span>
      )}
      {row.cups.length > 1 && row.drink.state !== "void" && (
        <span class="head-each">amounts are for one cup</span>
      )}
    </>
  );
}
