/** What breaks the proof, drink by drink, with one case of each in the customer's words. */
import type { JSX } from "preact";
import type { Case, Proof } from "../../wire.gen";

/** A combination in words: "Large Taro Milk Tea: half sugar, less ice". */
export function caseWords(one: Case): string {
  return one.words.length > 0 ? `${one.title}: ${one.words.join(", ")}` : one.title;
}

const KINDS: Record<string, string> = {
  "no build": "Has neither a build nor a refusal",
  overfull: "Too full",
  "not measurable": "Cannot be measured",
  "out of tolerance": "Too far off, and nothing says so",
  "not monotone": "Worse than its neighbour without a cause",
};

export function Violations({ proof, most = 50 }: { proof: Proof; most?: number }): JSX.Element {
  const all = proof.drinks
    .flatMap((drink) => drink.violations.map((violation) => ({ drink, violation })))
    .sort((a, b) => b.violation.count - a.violation.count);
  if (all.length === 0) return <p class="nothing">Nothing breaks the proof.</p>;
  return (
    <ul class="violations">
      {all.slice(0, most).map(({ drink, violation }) => (
        <li key={`${drink.drink}${violation.kind}${violation.what}`}>
          <strong>{KINDS[violation.kind] ?? violation.kind}</strong>, {drink.name},{" "}
          {violation.what.replaceAll("_", " ")}: {violation.count.toLocaleString("en")} combinations.{" "}
          {violation.message}
          <small> For one: {caseWords(violation.example)}.</small>
        </li>
      ))}
      {all.length > most && <li>and {all.length - most} more, on the page of the proof</li>}
    </ul>
  );
}
