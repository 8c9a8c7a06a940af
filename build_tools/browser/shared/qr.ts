// qr.ts: a QR code as one SVG element. Knows a text; knows no page.
import { encode } from "uqr";

const SVG = "http://www.w3.org/2000/svg";
const QUIET = 4; // modules of white around it: ISO/IEC 18004, clause on the quiet zone, from memory

/** The code for a text, dark on white whatever the page's colours, since readers expect it so. */
export function qr(text: string, label: string): SVGSVGElement {
  const { data, size } = encode(text, { ecc: "L", border: 0 });
  const side = size + 2 * QUIET;
  const svg = document.createElementNS(SVG, "svg");
  svg.setAttribute("viewBox", `0 0 ${side} ${side}`);
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", label);
  svg.setAttribute("shape-rendering", "crispEdges");
  svg.append(path(`M0 0h${side}v${side}h-${side}z`, "#fff"), path(modules(data), "#000"));
  return svg;
}

/** One run of dark modules after another, row by row. */
function modules(rows: boolean[][]): string {
  let drawn = "";
  rows.forEach((row, y) => {
    for (let x = 0; x < row.length; x++) {
      if (!row[x]) continue;
      const start = x;
      while (x < row.length && row[x]) x++;
      drawn += `M${start + QUIET} ${y + QUIET}h${x - start}v1h${start - x}z`;
    }
  });
  return drawn;
}

function path(d: string, fill: string): SVGPathElement {
  const made = document.createElementNS(SVG, "path");
  made.setAttribute("d", d);
  made.setAttribute("fill", fill);
  return made;
}
