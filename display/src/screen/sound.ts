/**
 * Three short sounds, told apart by rhythm (one, two, three pulses) and pitch, each with a sight equal.
 * A browser lets a page sound only after a touch, so "sound off" is said until that has happened.
 */
import { signal } from "@preact/signals";

/** What may sound: a new ticket, a timer that is done, something late or the link down. */
export type Sound = "new ticket" | "timer done" | "late";

/** Base tones are at least 20 % apart, so that two at once are still told apart (NUREG-0700, 1.3.11). */
const PULSES: Record<Sound, { readonly base: number; readonly pulses: number }> = {
  "new ticket": { base: 392, pulses: 1 },
  "timer done": { base: 523, pulses: 2 },
  late: { base: 698, pulses: 3 },
};

/** Share of each harmonic: several components carry over a shaker better than one pure tone. */
const HARMONICS = [1, 0.5, 0.35, 0.2];
const PULSE_SECONDS = 0.14;
const PAUSE_SECONDS = 0.1;
const VOLUME_KEY = "levelscoop.volume";

/** Whether sound has been allowed on this screen since the page opened. */
export const soundOn = signal(false);

/** 0 to 1, kept on this screen. */
export const volume = signal(Number(globalThis.localStorage?.getItem(VOLUME_KEY) ?? 0.6));

let context: AudioContext | undefined;

/** Must be called from a touch or a key. */
export async function allowSound(): Promise<void> {
  context ??= new AudioContext();
  await context.resume();
  soundOn.value = context.state === "running";
  play("new ticket");
}

/** Silence until allowed again. */
export function silence(): void {
  soundOn.value = false;
}

/** Sets and keeps the volume, 0 to 1. */
export function setVolume(value: number): void {
  volume.value = value;
  localStorage.setItem(VOLUME_KEY, String(value));
}

/** Sounds at once, if allowed. All are under a second. */
export function play(sound: Sound): void {
  if (!context || !soundOn.value || volume.value === 0) return;
  const { base, pulses } = PULSES[sound];
  for (let pulse = 0; pulse < pulses; pulse += 1) {
    const begin = context.currentTime + 0.02 + pulse * (PULSE_SECONDS + PAUSE_SECONDS);
    onePulse(context, base, begin);
  }
}

function onePulse(audio: AudioContext, base: number, begin: number): void {
  const gain = audio.createGain();
  gain.connect(audio.destination);
  gain.gain.setValueAtTime(0, begin);
  gain.gain.linearRampToValueAtTime(volume.value * 0.35, begin + 0.012);
  gain.gain.setTargetAtTime(0, begin + PULSE_SECONDS * 0.6, PULSE_SECONDS / 5);
  HARMONICS.forEach((share, index) => {
    const tone = audio.createOscillator();
    const level = audio.createGain();
    tone.frequency.value = base * (index + 1);
    level.gain.value = share;
    tone.connect(level).connect(gain);
    tone.start(begin);
    tone.stop(begin + PULSE_SECONDS + 0.1);
  });
}
