// sounds.ts: saves a sound of a result from its player, so that its bytes stand in the page once. Knows no calculator.
let listening = false;

/** Bring the buttons beside sounds to life. May be called again. */
export function wakeSounds(): void {
  if (listening) return;
  listening = true;
  document.documentElement.classList.add("wa-sounds"); // the buttons show only where they work
  document.addEventListener("click", ({ target }) => {
    const button = target instanceof Element ? target.closest<HTMLElement>("button.wa-save-sound") : null;
    const player = button?.closest(".wa-sound")?.querySelector("audio");
    if (!button || !player) return;
    const link = document.createElement("a");
    link.href = player.src;
    link.download = button.dataset["name"] ?? "";
    link.click();
  });
}
