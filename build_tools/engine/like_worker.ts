// like_worker.ts: makes Node look like a browser's worker to the runtime, with a clock and random numbers of our choice.
// So the runtime goes the way that it goes in a reader's browser, and two builds give the same bytes.

interface Circumstances {
  random: number;
  now: number; // milliseconds since 1970
  age: number; // milliseconds since the worker came up: it may have waited long for its files
  step: number; // milliseconds that go by from one look at a clock to the next: setting up notes how long it takes
  language: string;
  userAgent?: string;
}

const RealDate = Date;
let { random, now, age, step } = { random: 0, now: 0, age: 0, step: 0 };

class GivenDate extends RealDate {
  constructor(...parts: unknown[]) {
    super(...((parts.length ? parts : [now]) as [number]));
  }
  static override now(): number {
    return (now += step);
  }
}

export function likeWorker(circumstances: Circumstances): void {
  ({ random, now, age, step } = circumstances);
  const put = (name: string, value: unknown): void => {
    Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
  };
  put("process", undefined);
  put("WorkerGlobalScope", class WorkerGlobalScope {});
  put("self", globalThis);
  put("Date", GivenDate);
  put("navigator", { language: circumstances.language, languages: [circumstances.language], userAgent: circumstances.userAgent ?? "", platform: "" });
  put("performance", { now: () => (age += step), timeOrigin: now });
  put("crypto", {
    getRandomValues<T extends Uint8Array>(into: T): T {
      for (let i = 0; i < into.length; i++) into[i] = random + 7 * i;
      return into;
    },
  });
  Math.random = () => random / 256;
}
