// words.ts: what the panel with the cards says. Knows no card; the shapes and backgrounds themselves come from Python.
export const PANEL = "On the screen";
export const QUESTION = "Question on the card";
export const BACKGROUND = "Background";
export const SHAPE = "Picture";
const SHAPES: Record<string, string> = {
  panel: "side panel", lower: "lower third", title: "title with the mark", question: "question alone",
};
export const SHAPE_OF = (name: string, width: number, height: number): string =>
  `${SHAPES[name] ?? name}, ${width} × ${height}`;
export const BACK = "Previous";
export const NEXT = "Next";
export const COPY_PNG = "Copy as PNG";
export const SAVE_PNG = "Save PNG";
export const SAVE_SVG = "Save SVG";
export const FULL = "Full screen";
export const CLOSE = "Close";
export const KEYS = "The arrow keys turn the pages, also in full screen.";
export const COPIED = "Picture copied.";
export const NOT_COPIED = "This browser would not copy a picture. Save it instead.";
export const NO_PICTURE = "This browser could not make the picture. Save it as SVG instead.";
export const NO_CARD = "The card could not be drawn. Change a value and try again.";
export const PLACE = (at: number, all: number, name: string): string => `${at} of ${all}: ${name}`;
