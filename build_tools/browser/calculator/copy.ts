// copy.ts: puts text on the clipboard, also where the page is opened from a folder. Knows nothing else.

export async function copy(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return copyByMarking(text); // the page is no secure context, or the browser does not allow it
  }
}

/** The older way, which also works without a secure context: selects the text in a hidden field and copies that. */
function copyByMarking(text: string): boolean {
  const focused = document.activeElement;
  const area = document.createElement("textarea");
  area.value = text;
  area.setAttribute("aria-hidden", "true");
  area.style.cssText = "position:fixed;inset:0 auto auto 0;opacity:0";
  document.body.append(area);
  area.select();
  let done = false;
  try {
    done = document.execCommand("copy");
  } catch {
    done = false;
  }
  area.remove();
  if (focused instanceof HTMLElement) focused.focus({ preventScroll: true });
  return done;
}
