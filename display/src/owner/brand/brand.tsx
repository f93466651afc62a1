/** A change of brand: weigh the new package's scoop, copy its label, see which recipes move, accept. */
import "../../styles/owner/owner.css";
import "../../styles/owner/brand.css";
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Brand, Workbook } from "../../wire.gen";
import { capital, counted, listed } from "../../words/words";
import { Movers } from "../bench/outcome/movers";
import { book, bookFault, edit, edits, readBook } from "../book/data";
import { countOf, takeOver } from "../book/edits";
import { allergens, held, ingredients, tools } from "../measure/choose";
import { ControlChart } from "../measure/controlchart";
import { OwnerTop } from "../top";
import { useBrand } from "./brandanswer";
import { type BrandForm, EMPTY_FORM, faultName, LABEL_FIELDS, type LabelField, priceUnit } from "./brandform";

interface FormProps {
  readonly form: BrandForm;
  readonly onForm: (form: BrandForm) => void;
  readonly from: Workbook;
}

function LabelInput({ field, form, onForm, from }: FormProps & { field: LabelField }): JSX.Element {
  const was = held(from, form.ingredient, field.pantry);
  const unit = field.key === "price" ? priceUnit(was) : field.unit;
  return (
    <label class="label-field">
      <span>
        {field.name}
        {unit && <small> {unit}</small>}
      </span>
      <input
        autocomplete="off"
        inputMode={unit === "" ? "text" : "decimal"}
        value={form.label[field.key] ?? ""}
        onInput={(event) =>
          onForm({ ...form, label: { ...form.label, [field.key]: event.currentTarget.value } })
        }
      />
      <small>{was === undefined ? "not known yet" : `now ${was}`}</small>
    </label>
  );
}

function Allergens({ form, onForm, from }: FormProps): JSX.Element {
  const { all, said } = allergens(from, form.ingredient);
  const chosen = form.allergens ?? said;
  return (
    <details class="several">
      <summary>
        Allergens:{" "}
        {chosen.map((id) => all.find((one) => one.id === id)?.name ?? id).join(", ") || "none said"}
      </summary>
      <div class="several-list" role="group" aria-label="Allergens of the new package">
        {all.map((one) => (
          <label key={one.id}>
            <input
              type="checkbox"
              checked={chosen.includes(one.id)}
              onChange={(event) => {
                const others = chosen.filter((id) => id !== one.id);
                onForm({ ...form, allergens: event.currentTarget.checked ? [...others, one.id] : others });
              }}
            />
            {one.name}
          </label>
        ))}
      </div>
    </details>
  );
}

function Package({ form, onForm, from }: FormProps): JSX.Element {
  return (
    <section class="package" aria-label="The new package">
      <label>
        Ingredient
        <select
          value={form.ingredient}
          onChange={(event) =>
            onForm({
              ...EMPTY_FORM,
              ingredient: event.currentTarget.value,
              tool: form.tool || (tools(from, "scoop")[0]?.id ?? ""),
            })
          }
        >
          <option value="">choose what is replaced</option>
          {ingredients(from).map((one) => (
            <option key={one.id} value={one.id}>
              {one.name}
            </option>
          ))}
        </select>
      </label>
      {form.ingredient !== "" && (
        <>
          <fieldset>
            <legend>Weighed</legend>
            <label>
              One of
              <select
                value={form.tool}
                onChange={(event) => onForm({ ...form, tool: event.currentTarget.value })}
              >
                {tools(from).map((one) => (
                  <option key={one.id} value={one.id}>
                    {capital(one.name)}
                  </option>
                ))}
              </select>
            </label>
            <label>
              weighs, in g
              <input
                autocomplete="off"
                inputMode="text"
                placeholder="9.4, or several: 9.4 9.2 9.5"
                value={form.weights}
                onInput={(event) => onForm({ ...form, weights: event.currentTarget.value })}
              />
            </label>
          </fieldset>
          <fieldset class="label-fields">
            <legend>On the label, in 100 g; leave out what stays</legend>
            {LABEL_FIELDS.map((field) => (
              <LabelInput key={field.key} field={field} form={form} onForm={onForm} from={from} />
            ))}
          </fieldset>
          <Allergens form={form} onForm={onForm} from={from} />
          <label class="keep-mass">
            <input
              type="checkbox"
              checked={form.keepMass}
              onChange={(event) => onForm({ ...form, keepMass: event.currentTarget.checked })}
            />
            Keep the mass: recipes go on dosing as many grams as before, in other counts of the scoop
          </label>
        </>
      )}
    </section>
  );
}

function Comes({ brand, name }: { brand: Brand; name: string }): JSX.Element {
  const refused = brand.faults.length > 0;
  const unsaved = countOf(edits.value);
  // A step is named by its place in the saved file: in a text of the owner's own it may be another.
  const steps = brand.edits.filter(({ path }) => path[0] === "steps").map(({ file }) => file);
  const inText = [...new Set(steps)].filter((file) => file in edits.value.texts);
  const density = (value: number): string => value.toFixed(3);
  const heavier = (100 * (brand.density_after - brand.density_before)) / brand.density_before;
  const moved = Math.abs(heavier) >= 0.05;
  return (
    <>
      <p class="brand-density">
        {name}: {moved && <s>{density(brand.density_before)}</s>}{" "}
        <strong>{density(brand.density_after)} g/ml</strong>
        {moved && `, ${Math.abs(heavier).toFixed(1)} % ${heavier > 0 ? "heavier" : "lighter"} by the scoop`}
      </p>
      {brand.energy && <p>{brand.energy}</p>}
      {brand.weighing && (
        <>
          <ControlChart readings={brand.weighing.readings} weighing={brand.weighing} unit="g" />
          <p>
            {brand.weighing.words} {brand.weighing.enough}
          </p>
        </>
      )}
      {brand.faults.map((fault) => (
        <p key={`${fault.file}${fault.key}`} class="refusal" role="alert">
          <strong>{faultName(fault.key)}:</strong> {fault.message}
        </p>
      ))}
      {!refused && (
        <>
          {brand.movers.length > 0 && (
            <h2>{`${counted(brand.movers.length, "recipe")} ${brand.movers.length === 1 ? "moves" : "move"}`}</h2>
          )}
          <Movers movers={brand.movers} />
        </>
      )}
      {unsaved > 0 && (
        <p>
          All this is reckoned from the book as it was last saved: {counted(unsaved, "edit")} on the bench{" "}
          {unsaved === 1 ? "is" : "are"} not counted in.
        </p>
      )}
      {inText.length > 0 && (
        <p class="fault" role="alert">
          The whole text of {listed(inText)} is edited on the bench and not saved: save that first, or undo
          it.
        </p>
      )}
      <button
        type="button"
        class="go"
        disabled={refused || brand.edits.length === 0 || inText.length > 0}
        onClick={() => {
          edit(takeOver(edits.peek(), brand.edits));
          location.assign("/owner");
        }}
      >
        Accept: take {counted(brand.edits.length, "edit")} to the bench
      </button>
      <p class="nothing">
        Nothing is saved by that: on the bench the edits can be tried on any drink, and are saved as a version
        with a note.
      </p>
    </>
  );
}

export function BrandPage(): JSX.Element {
  const [form, setForm] = useState<BrandForm>(EMPTY_FORM);
  const from = book.value;
  const { brand, fault } = useBrand(form, priceUnit(from && held(from, form.ingredient, "price")));
  useEffect(() => void readBook(), []);
  const name = from ? (ingredients(from).find((one) => one.id === form.ingredient)?.name ?? "") : "";
  return (
    <div class="owner-page">
      <OwnerTop here="Brand" />
      <main class="brand">
        <h1 class="unseen">Change of brand</h1>
        {from ? (
          <Package form={form} onForm={setForm} from={from} />
        ) : (
          <p class="nothing">Reading the book …</p>
        )}
        <section class="brand-comes" aria-label="What it comes to">
          {(fault || bookFault.value) && (
            <p class="fault" role="alert">
              {fault || bookFault.value}
            </p>
          )}
          {brand && form.ingredient !== "" ? (
            <Comes brand={brand} name={name} />
          ) : (
            <p class="nothing">
              Choose the ingredient, weigh a level scoop of the new package, and copy its label: what the
              change does to each recipe is shown here before anything is saved.
            </p>
          )}
        </section>
      </main>
    </div>
  );
}
