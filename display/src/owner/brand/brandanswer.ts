/** What a change of brand comes to, asked for anew as the form is filled in. */
import { useEffect, useState } from "preact/hooks";
import { reason, send } from "../../link/api";
import type { Brand } from "../../wire.gen";
import { type BrandForm, brandIn } from "./brandform";

/** Typing is followed, not each key of it, in ms. */
const REST_MS = 250;

/** The answer to the form as it stands, and what is wrong with it; `unit` is that of prices of figures alone. */
export function useBrand(form: BrandForm, unit: string): { brand: Brand | null; fault: string } {
  const [told, setTold] = useState<{ brand: Brand | null; fault: string }>({ brand: null, fault: "" });
  useEffect(() => {
    if (form.ingredient === "") {
      setTold({ brand: null, fault: "" });
      return undefined;
    }
    const asked = brandIn(form, unit);
    if (typeof asked === "string") {
      setTold((before) => ({ ...before, fault: asked }));
      return undefined;
    }
    const stale = new AbortController();
    const rest = setTimeout(() => {
      send<Brand>("/api/owner/brand", asked, { signal: stale.signal })
        .then((brand) => setTold({ brand, fault: "" }))
        .catch((error: unknown) => {
          if (!stale.signal.aborted) setTold({ brand: null, fault: reason(error) });
        });
    }, REST_MS);
    return () => {
      clearTimeout(rest);
      stale.abort();
    };
  }, [form, unit]);
  return told;
}
