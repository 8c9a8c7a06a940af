// picture.ts: a card as a file of its own, SVG or PNG. Knows SVG text; knows no panel.

declare const __FACE_CSS__: string; // a rule that carries the label face, put in when this is bundled

/** The card with its face inside, exactly as Python writes it when it is handed the face. */
export function complete(svg: string): string {
  const head = svg.indexOf(">") + 1;
  return `${svg.slice(0, head)}<style>${__FACE_CSS__}</style>${svg.slice(head)}`;
}

/** The card as a PNG picture in its full size. */
export async function png(svg: string): Promise<Blob> {
  const image = new Image();
  image.src = URL.createObjectURL(new Blob([complete(svg)], { type: "image/svg+xml" }));
  try {
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = image.naturalWidth;
    canvas.height = image.naturalHeight;
    canvas.getContext("2d")?.drawImage(image, 0, 0);
    return await new Promise((resolve, reject) => {
      canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("no picture"))), "image/png");
    });
  } finally {
    URL.revokeObjectURL(image.src);
  }
}

export function save(blob: Blob, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
