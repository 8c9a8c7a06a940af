// times.ts: lengths and moments, as read and written on these pages. Knows nothing else.

/** Seconds as 4:05, or 1:02:03 from an hour on. */
export function length(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  const two = (number: number): string => String(number).padStart(2, "0");
  return hours ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
}

/** A length as people type it, in seconds: 90, 1:30, 1:02:03; undefined where it is none. */
export function read(text: string): number | undefined {
  const parts = text.trim().split(":");
  if (parts.length > 3 || parts.some((part) => !/^\d{1,3}$/.test(part.trim()))) return undefined;
  return parts.reduce((total, part) => total * 60 + Number(part), 0);
}

/** The time of day of a moment, in seconds since 1970. */
export const clock = (moment: number): string => new Date(moment * 1000).toLocaleTimeString("en-GB");

/** Of a moment, the hundredths of its second. */
export const hundredths = (moment: number): string => String(Math.floor((moment % 1) * 100)).padStart(2, "0");

/** The day as ISO 8601 writes it. */
export function day(moment: number): string {
  const at = new Date(moment * 1000);
  const two = (number: number): string => String(number).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

export const now = (): number => Date.now() / 1000;
