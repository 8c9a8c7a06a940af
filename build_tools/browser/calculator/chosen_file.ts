// chosen_file.ts: lets a reader choose a file for a private input instead of pasting. Knows bytes and text, no declaration.
// The file is read here and goes nowhere: its text, or its bytes as pairs of digits, is put into the field.
import * as words from "../shared/words";

const MOST_BYTES = 64 * 1024;

/** Give every private field of a form a file chooser. May be called again: a field gets one only once. */
export function wakeFiles(section: HTMLElement): void {
  for (const box of section.querySelectorAll<HTMLElement>('[data-kind="private"]')) {
    const field = box.querySelector("textarea");
    if (!field || box.querySelector(".wa-choose")) continue;
    const label = document.createElement("label");
    label.className = "wa-choose";
    label.textContent = words.CHOOSE_FILE;
    const chooser = document.createElement("input");
    chooser.type = "file";
    chooser.addEventListener("change", () => {
      const [file] = chooser.files ?? [];
      if (file) void take(file, field, label);
    });
    label.append(chooser);
    box.querySelector(".wa-control")?.after(label);
  }
}

async function take(file: File, field: HTMLTextAreaElement, label: HTMLElement): Promise<void> {
  const caption = label.firstChild;
  if (file.size > MOST_BYTES) {
    if (caption) caption.nodeValue = words.FILE_TOO_LARGE;
    return;
  }
  field.value = written(new Uint8Array(await file.arrayBuffer()));
  if (caption) caption.nodeValue = words.CHOOSE_FILE;
  field.dispatchEvent(new Event("input", { bubbles: true }));
}

/** Bytes as the text that they are, or, where they are none, as pairs of digits. */
export function written(bytes: Uint8Array): string {
  const mark = bytes.length > 1 ? (bytes[0] ?? 0) << 8 | (bytes[1] ?? 0) : 0;
  const encoding = mark === 0xfffe ? "utf-16le" : mark === 0xfeff ? "utf-16be" : "utf-8";
  try {
    const text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
    if (!/[\0-\x08\x0b\x0c\x0e-\x1f]/.test(text)) return text;
  } catch {
    // not text
  }
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join(" ");
}
