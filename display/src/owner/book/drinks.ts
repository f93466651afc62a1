/** A drink's text made another drink's: the service writes the name, so that quotes and comments stay right. */
import { reason, send } from "../../link/api";
import type { Edit, Forms } from "../../wire.gen";

/** The text with its name changed, as that of the file `target`; or what is wrong with it. */
export async function withName(
  text: string,
  target: string,
  name: string,
): Promise<{ text: string } | { wrong: string }> {
  const edits: Edit[] = [
    { file: target, path: [], value: text },
    { file: target, path: ["name"], value: name },
  ];
  try {
    const forms = await send<Forms>("/api/owner/forms", { edits });
    const made = forms.files.find((one) => one.file === target);
    return made ? { text: made.text } : { wrong: "The service did not answer with the new drink." };
  } catch (error) {
    return { wrong: reason(error) };
  }
}
