/** A panel over the page, on the browser's own dialog: focus stays in it, Escape closes it. */
import type { ComponentChildren, JSX } from "preact";
import { useId, useLayoutEffect, useRef } from "preact/hooks";

interface DialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
  readonly className?: string;
}

/** Open as long as it is rendered. */
export function Dialog({ title, onClose, children, className = "" }: DialogProps): JSX.Element {
  const box = useRef<HTMLDialogElement>(null);
  const id = useId();
  // Before the next painting, so that focus is back at once and whoever wants it elsewhere comes after.
  useLayoutEffect(() => {
    const shown = box.current;
    const opener = document.activeElement;
    shown?.showModal();
    return () => {
      shown?.close();
      if (opener instanceof HTMLElement) opener.focus();
    };
  }, []);
  return (
    <dialog ref={box} class={`dialog ${className}`} aria-labelledby={id} onCancel={onClose}>
      <div class="dialog-head">
        <h2 id={id}>{title}</h2>
        <button type="button" class="plain" onClick={onClose}>
          Close
        </button>
      </div>
      {children}
    </dialog>
  );
}
