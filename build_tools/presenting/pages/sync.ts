// sync.ts: the frame and the beep by which an editor lays a take's marks over the recording. One still frame for half a
// second, at the moment that the server names to all its pages: never a flashing one. Knows no take and no key.
import { element } from "./dom";
import * as words from "./words";

/** What the server tells: the moment, in seconds since 1970, and of which take. */
export interface Sync {
  at: number;
  episode: number;
  take: number;
  rehearsal: boolean;
}

const SHOWN_S = 0.5;
const LATE_S = 0.04; // a frame of a recording with 25 of them a second: what comes later would tell another moment
const TONE_HZ = 1000; // the line-up tone of broadcasters; common practice, no source
const BEEP_S = 0.1;
const RAMP_S = 0.005; // without it the beep begins with a click
const LOUDNESS = 0.1; // of full scale: 20 dB below it

const now = (): number => Date.now() / 1000;

/** Show the frame at its moment. Gives whether it was shown: not where the moment had passed. */
export async function showSync(sync: Sync): Promise<boolean> {
  if (now() - sync.at > LATE_S) return false;
  await moment(sync.at);
  if (now() - sync.at > LATE_S) return false;
  const frame = drawn(sync);
  document.body.append(frame);
  setTimeout(() => frame.remove(), SHOWN_S * 1000);
  return true;
}

/** The last picture of the display before a moment has passed. */
function moment(at: number): Promise<void> {
  return new Promise((come) => {
    const look = (): void => (now() >= at ? come() : void requestAnimationFrame(look));
    setTimeout(look, Math.max(0, (at - now()) * 1000 - 50));
  });
}

function drawn({ at, episode, take, rehearsal }: Sync): HTMLElement {
  const name = rehearsal ? words.REHEARSAL(take) : words.TAKE(take);
  const frame = element(
    "div", "sync",
    element("p", "", words.EPISODE(episode)), element("p", "take", name), element("p", "clock", words.CLOCK(at)),
  );
  frame.setAttribute("aria-hidden", "true"); // the state beside it says that a take runs
  return frame;
}

/** Made when a key is pressed, since browsers allow sound from then on; heard at the frame's moment. */
export class Beep {
  readonly #sound: AudioContext;

  private constructor(sound: AudioContext) {
    this.#sound = sound;
    void sound.resume().catch(() => undefined);
  }

  /** undefined where the browser makes no sound: the take begins all the same. */
  static made(): Beep | undefined {
    try {
      return new Beep(new AudioContext());
    } catch {
      return undefined;
    }
  }

  at(moment: number): void {
    const sound = this.#sound;
    const late = Number.isFinite(sound.outputLatency) ? sound.outputLatency : 0;
    const begins = sound.currentTime + Math.max(0, moment - now() - late);
    const tone = new OscillatorNode(sound, { frequency: TONE_HZ });
    const level = new GainNode(sound, { gain: 0 });
    level.gain.setValueAtTime(0, begins);
    level.gain.linearRampToValueAtTime(LOUDNESS, begins + RAMP_S);
    level.gain.setValueAtTime(LOUDNESS, begins + BEEP_S - RAMP_S);
    level.gain.linearRampToValueAtTime(0, begins + BEEP_S);
    tone.connect(level).connect(sound.destination);
    tone.addEventListener("ended", () => this.end());
    tone.start(begins);
    tone.stop(begins + BEEP_S);
  }

  /** No take has begun: nothing is to be heard. */
  end(): void {
    if (this.#sound.state !== "closed") void this.#sound.close();
  }
}
