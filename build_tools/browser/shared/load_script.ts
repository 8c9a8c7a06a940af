// load_script.ts: fetches a classic script, which also comes from a folder. Knows no script.

const coming = new Map<string, Promise<void>>();

/** Run the script at an address, once. Rejects where it does not come; the next call tries again. */
export function bring(address: string): Promise<void> {
  let promise = coming.get(address);
  if (!promise) {
    promise = new Promise<void>((resolve, reject) => {
      const script = document.createElement("script");
      script.src = address;
      script.addEventListener("load", () => resolve());
      script.addEventListener("error", () => {
        script.remove();
        coming.delete(address);
        reject(new Error(`${address} did not come`));
      });
      document.head.append(script);
    });
    coming.set(address, promise);
  }
  return promise;
}
