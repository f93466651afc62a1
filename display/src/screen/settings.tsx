/** This screen's own settings: what it is and how far off it is read, and its sounds. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { Dialog } from "../parts/dialog";
import { assumedPanel, HAND, keepPanel, type Panel, setPanel, WALL } from "./fit";
import { allowSound, play, setVolume, silence, soundOn, volume } from "./sound";

function Fit(): JSX.Element {
  const panel = setPanel.value ?? assumedPanel(window.innerWidth);
  const [inches, setInches] = useState(String(panel.inches));
  const [metres, setMetres] = useState(String(panel.metres));
  const [wrong, setWrong] = useState("");
  const keep = (wanted: Panel): void => {
    const sane = wanted.inches >= 4 && wanted.inches <= 120 && wanted.metres >= 0.2 && wanted.metres <= 10;
    setWrong(sane ? "" : "Diagonal 4 to 120 inches, distance 0.2 to 10 metres.");
    if (!sane) return;
    keepPanel(wanted);
    setInches(String(wanted.inches));
    setMetres(String(wanted.metres));
  };
  return (
    <form
      class="fit"
      onSubmit={(event) => {
        event.preventDefault();
        keep({ inches: Number(inches), metres: Number(metres) });
      }}
    >
      <h3>Fit this screen</h3>
      <p>Type is sized so that capitals can be read from where people stand.</p>
      <label>
        Diagonal, inches
        <input inputMode="decimal" value={inches} onInput={(event) => setInches(event.currentTarget.value)} />
      </label>
      <label>
        Read from, metres
        <input inputMode="decimal" value={metres} onInput={(event) => setMetres(event.currentTarget.value)} />
      </label>
      {wrong && (
        <p class="fault" role="alert">
          {wrong}
        </p>
      )}
      <div class="buttons">
        <button type="submit">Fit</button>
        <button type="button" class="plain" onClick={() => keep(WALL)}>
          Wall screen, 32 inch at 2 m
        </button>
        <button type="button" class="plain" onClick={() => keep(HAND)}>
          Tablet, 11 inch at 0.5 m
        </button>
      </div>
    </form>
  );
}

function Sounds(): JSX.Element {
  return (
    <section class="sounds">
      <h3>Sounds</h3>
      <p>One pulse: a new ticket. Two: a timer is done. Three: a ticket is late, or the link is down.</p>
      <label>
        Volume
        <input
          type="range"
          min="0"
          max="100"
          value={Math.round(volume.value * 100)}
          onInput={(event) => setVolume(Number(event.currentTarget.value) / 100)}
        />
      </label>
      <div class="buttons">
        {soundOn.value ? (
          <>
            <button type="button" onClick={() => play("new ticket")}>
              Hear one
            </button>
            <button type="button" onClick={() => play("timer done")}>
              Hear two
            </button>
            <button type="button" onClick={() => play("late")}>
              Hear three
            </button>
            <button type="button" class="plain" onClick={silence}>
              Turn off
            </button>
          </>
        ) : (
          <button type="button" onClick={() => void allowSound()}>
            Turn sound on
          </button>
        )}
      </div>
    </section>
  );
}

export function Settings({ onClose }: { onClose: () => void }): JSX.Element {
  return (
    <Dialog title="This screen" onClose={onClose}>
      <Fit />
      <Sounds />
    </Dialog>
  );
}

/** Sound in words, one touch to turn it on or off. */
export function SoundSwitch(): JSX.Element {
  return (
    <button
      type="button"
      class="plain"
      aria-pressed={soundOn.value}
      onClick={() => (soundOn.value ? silence() : void allowSound())}
    >
      {soundOn.value ? "sound on" : "sound off"}
    </button>
  );
}
