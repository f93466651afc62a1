/** What is copied from a new package, field by field, into what the service takes. Pure. */
import type { BrandIn, BrandLabel } from "../../wire.gen";

/** A figure of a label as typed, per 100 g unless said. */
export interface LabelField {
  readonly key: Exclude<keyof BrandLabel, "allergens">;
  readonly name: string;
  readonly unit: string;
  /** The pantry's key that it takes the place of. */
  readonly pantry: string;
}

export const LABEL_FIELDS: readonly LabelField[] = [
  { key: "brand", name: "Brand", unit: "", pantry: "brand" },
  { key: "energy_kj", name: "Energy", unit: "kJ", pantry: "energy" },
  { key: "energy_kcal", name: "Energy", unit: "kcal", pantry: "energy" },
  { key: "fat_g", name: "Fat", unit: "g", pantry: "fat" },
  { key: "carbohydrate_g", name: "Carbohydrate, without fibre", unit: "g", pantry: "carbohydrate" },
  { key: "sugars_g", name: "of which sugars", unit: "g", pantry: "sugars" },
  { key: "fibre_g", name: "Fibre", unit: "g", pantry: "fibre" },
  { key: "protein_g", name: "Protein", unit: "g", pantry: "protein" },
  { key: "dry_g", name: "All but water", unit: "g", pantry: "dry" },
  { key: "caffeine_mg_per_g", name: "Caffeine", unit: "mg in 1 g", pantry: "caffeine" },
  { key: "price", name: "Price", unit: "", pantry: "price" },
];

/** The name that a label has for a key of the pantry: "taro_powder.sugars" is "of which sugars". */
export function faultName(key: string): string {
  const last = key.slice(key.lastIndexOf(".") + 1);
  return LABEL_FIELDS.find((field) => field.pantry === last)?.name ?? key;
}

const WORDS: readonly string[] = ["brand", "price"];

/** The form as typed. */
export interface BrandForm {
  readonly ingredient: string;
  readonly tool: string;
  /** One weight, or several readings with spaces between them. */
  readonly weights: string;
  readonly label: Readonly<Partial<Record<LabelField["key"], string>>>;
  /** Null: as the pantry has them. */
  readonly allergens: readonly string[] | null;
  readonly keepMass: boolean;
}

export const EMPTY_FORM: BrandForm = {
  ingredient: "",
  tool: "",
  weights: "",
  label: {},
  allergens: null,
  keepMass: false,
};

function number(text: string): number | undefined {
  const value = Number(text.trim().replace(",", "."));
  return text.trim() !== "" && Number.isFinite(value) ? value : undefined;
}

/** The weights as numbers, or what is wrong with them. */
export function weightsOf(text: string): readonly number[] | string {
  const parts = text.split(/[\s;]+/).filter((part) => part !== "");
  const values = parts.map(number);
  const wrong = parts.find((_, index) => !((values[index] ?? 0) > 0));
  if (wrong !== undefined)
    return `“${wrong}” is not a weight; accepted are grams such as 9.4, with spaces between`;
  return values as number[];
}

/** The unit that a price is written in, "EUR/kg" of "9.50 EUR/kg". */
export function priceUnit(written: string | undefined): string {
  return written?.match(/^[\d.]+ (\S+)$/)?.[1] ?? "";
}

/** What the service is asked, or what is wrong with the form. A price of figures alone is in `unit`. */
export function brandIn(form: BrandForm, unit = ""): BrandIn | string {
  const weights = weightsOf(form.weights);
  if (typeof weights === "string") return weights;
  const label: Record<string, unknown> = {};
  for (const { key, name } of LABEL_FIELDS) {
    const text = form.label[key]?.trim() ?? "";
    if (text === "") continue;
    if (WORDS.includes(key)) {
      label[key] = key === "price" && number(text) !== undefined ? `${text} ${unit}`.trim() : text;
      continue;
    }
    const value = number(text);
    if (value === undefined) return `${name}: “${text}” is not a number`;
    label[key] = value;
  }
  if (form.allergens !== null) label["allergens"] = form.allergens;
  const weighed = weights.length > 0 && form.tool !== "" ? { tool: form.tool } : {};
  return {
    ingredient: form.ingredient,
    ...weighed,
    ...(weights.length === 1 ? { unit_g: weights[0] as number } : {}),
    readings_g: weights.length > 1 ? [...weights] : [],
    label: label as BrandLabel,
    keep_mass: form.keepMass,
  };
}
