// address.ts: which address a card shows, and the rows of its code. Knows addresses; knows no card.
import { encode } from "uqr";

const MOST_MODULES = 33; // version 4: what a card has room for beside the address

/** Nothing where the address means only the machine that it is used on. */
export function addressFor(link: string): { address: string; code?: number[][] } {
  const [here = "", fragment = ""] = link.split(/(?=#)/);
  const named = document.querySelector<HTMLLinkElement>("link[rel=canonical]")?.href ?? "";
  const address = leadsHere(here) ? named : here;
  if (!address || leadsHere(address)) return { address: "" };
  const code = rows(address + fragment);
  return { address, code: code.length <= MOST_MODULES ? code : rows(address) };
}

// Correction M: a lossy picture may spoil about 15 %.
const rows = (text: string): number[][] =>
  encode(text, { ecc: "M", border: 0 }).data.map((row) => row.map((dark) => (dark ? 1 : 0)));

/** Whether an address means only the machine that it is used on. */
export function leadsHere(address: string): boolean {
  const { protocol, hostname } = new URL(address, document.baseURI);
  return !/^https?:$/.test(protocol) || /^(?:(?:.+\.)?localhost|127(?:\.\d+){3}|\[::1\])$/.test(hostname);
}
